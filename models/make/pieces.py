#!/usr/bin/env python3
# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""Fits the piece model to photos with known truth and writes it as ONNX.

    pieces.py PHOTOS STAGES OUT.onnx [--leave-out K/N] [--steps 7000]

PHOTOS holds truth/; STAGES is what swarfbook_candidates wrote for the photos to learn from.
--leave-out 0/3 leaves every third scene out, starting with the first; their names are printed.
Needs python3-torch, python3-opencv, python3-scipy, python3-skimage."""
import argparse
import glob
import json
import os

import cv2
import numpy as np
import torch
import torch.nn.functional as F

import surfaces
import truth as known

SHEET = 128          # px a side of what is learnt from at once
FINE, COARSE = 16, 24  # channels at half and at a quarter of the photo's resolution
ELSEWHERE = 0.3     # of the places: the piece lies on another surface
DRAWN = 0.4          # of those: a drawn one; as often a surface without any piece
STRENGTH = 1.75      # of drawn surfaces: rougher than photos show, so that none comes as a surprise


class Pieces(torch.nn.Module):
    """Looks at 4 x 4 pixels as one and some 40 around, then closer; answers piece and seam for each pixel of 2 x 2."""

    def __init__(self):
        super().__init__()
        self.first = torch.nn.Conv2d(5, FINE, 5, stride=2, padding=2)
        self.down = torch.nn.Conv2d(FINE, COARSE, 3, stride=2, padding=1)
        self.wider = torch.nn.ModuleList(
            [torch.nn.Conv2d(COARSE, COARSE, 3, padding=reach, dilation=reach) for reach in (1, 2, 4, 1)])
        self.up = torch.nn.Conv2d(COARSE, FINE, 1)
        self.near = torch.nn.Conv2d(FINE, FINE, 3, padding=1)
        self.last = torch.nn.Conv2d(FINE, 8, 3, padding=1)

    def forward(self, sheet):
        close = F.relu(self.first(sheet))
        wide = F.relu(self.down(close))
        for layer in self.wider:
            wide = wide + F.relu(layer(wide))
        seen = close + F.interpolate(self.up(wide), scale_factor=2, mode="nearest")
        return self.last(seen + F.relu(self.near(seen)))


def against_surface(window, surface):
    """The five planes that the program makes as well (src/debris/piece_model.cpp)."""
    photo, behind = window.astype(np.float32), surface.astype(np.float32)
    change = np.clip((photo - behind) / np.maximum(behind, 16), -1, 1.5)
    return np.concatenate([change, photo[..., 1:2] / 255 - 0.5, behind[..., 1:2] / 255 - 0.5], 2)


def read_photo(photos, stages, name):
    picture = lambda what: cv2.imread(os.path.join(stages, "%s-%s.png" % (name, what)), -1)
    with open(os.path.join(stages, name + ".json")) as file:
        document = json.load(file)
    truth = known.read(photos, name)
    u, v = document["origin_px"]
    window, inside = picture("window"), picture("inside") > 0
    size = (v + window.shape[0], u + window.shape[1])
    covered, seam = [whole[v:, u:] for whole in known.coverage_and_seams(truth, size)]
    weight = inside.astype(np.uint8)
    for thing in truth["confounders"]:
        if thing["kind"] == "gasket":  # foreign matter: neither debris nor surface
            at = known.photo_from_card(truth, [[thing["x_mm"], thing["y_mm"]]])[0] - (u, v)
            cv2.circle(weight, tuple(at.astype(int).tolist()),
                       int(thing["max_feret_mm"] * document["px_per_mm"] * 0.75) + 2, 0, -1)
    for glare in truth.get("left_out_px", []):
        cv2.circle(weight, (int(glare["u"] - u), int(glare["v"] - v)), int(glare["r"]) + 2, 0, -1)
    boxes = [place["box"] for place in document["places"]]
    chance = np.sqrt([box[2] * box[3] for box in boxes])
    taken = cv2.dilate(((covered > 0) | (weight == 0)).astype(np.uint8), np.ones((25, 25), np.uint8))
    return dict(name=name, scene=known.scene(truth), window=window, surface=picture("surface"),
                asked=np.dstack([covered, seam]), weight=weight, boxes=boxes, chance=chance / chance.sum(),
                taken=cv2.integral(taken), fine=document["px_per_mm"] > 22)


def bare_place(photo, size, rng):
    """A part of the photo's window, `size` (height, width), that holds no piece; None where none was met."""
    h, w = size
    for _ in range(8):
        y, x = rng.integers(photo["weight"].shape[0] - h), rng.integers(photo["weight"].shape[1] - w)
        sums = photo["taken"]
        if sums[y + h, x + w] - sums[y, x + w] - sums[y + h, x] + sums[y, x] == 0:
            return photo["window"][y:y + h, x:x + w], photo["surface"][y:y + h, x:x + w]
    return None


def up4(pixels):
    return pixels + -pixels % 4


class Learnt:
    """What there is to learn from: places of photos, and surfaces without pieces."""

    def __init__(self, photos, rng):
        self.photos, self.rng = photos, rng
        self.fine = [photo for photo in photos if photo["fine"]]
        self.coarse = [photo for photo in photos if not photo["fine"]]
        self.drawn = [surfaces.drawn(rng, strength=STRENGTH) for _ in range(150)]

    def another_surface(self, size):
        """A surface without pieces, drawn or of another photo; None where none was met."""
        h, w = size
        if self.rng.random() < DRAWN or not self.coarse:
            window, surface = self.drawn[self.rng.integers(len(self.drawn))]
            y, x = self.rng.integers(window.shape[0] - h + 1), self.rng.integers(window.shape[1] - w + 1)
            return window[y:y + h, x:x + w], surface[y:y + h, x:x + w]
        return bare_place(self.coarse[self.rng.integers(len(self.coarse))], size, self.rng)

    def place(self):
        """A place, turned, mirrored, under another light; now and then on another surface, as a coarser photo
        shows it, or bare. @return what is seen (5 planes), what was asked for (2), what counts."""
        rng, kind = self.rng, self.rng.random()
        if kind < ELSEWHERE * DRAWN:
            size = tuple(rng.integers(20, 80, 2))
            window, surface = self.another_surface(size) or self.another_surface(size) or self.drawn_part(size)
            asked, weight = np.zeros(size + (2,), np.float32), np.ones(size, np.float32)
        else:
            elsewhere = kind < ELSEWHERE * (1 + DRAWN)
            photos = self.fine if elsewhere and self.fine else self.photos
            window, surface, asked, weight = self.cut(photos[rng.integers(len(photos))])
            below = self.another_surface(asked.shape[:2]) if elsewhere else None
            if below is not None:
                window, surface = surfaces.laid_upon((window, surface, asked[..., 0]), below, rng)
        return self.under_other_light(against_surface(window, surface), asked, weight)

    def drawn_part(self, size):
        window, surface = self.drawn[self.rng.integers(len(self.drawn))]
        return window[:size[0], :size[1]], surface[:size[0], :size[1]]

    def cut(self, photo):
        rng = self.rng
        coarser = rng.uniform(1.3, 2.0) if photo["fine"] and rng.random() < 0.25 else 1.0
        x, y, w, h = photo["boxes"][rng.choice(len(photo["boxes"]), p=photo["chance"])]
        most = int(SHEET * coarser)
        if w > most:
            x, w = x + rng.integers(w - most + 1), most
        if h > most:
            y, h = y + rng.integers(h - most + 1), most
        part = np.s_[y:y + h, x:x + w]
        window, surface = photo["window"][part], photo["surface"][part]
        asked, weight = photo["asked"][part].astype(np.float32) / 255, photo["weight"][part].astype(np.float32)
        if coarser > 1:
            size = (max(4, int(w / coarser)), max(4, int(h / coarser)))
            shrink = lambda picture: cv2.resize(picture, size, interpolation=cv2.INTER_AREA)
            window, surface = shrink(cv2.GaussianBlur(window, (0, 0), 0.4 * coarser)), shrink(surface)
            asked, weight = shrink(asked), (shrink(weight) > 0.99).astype(np.float32)
            asked[..., 1] = asked[..., 1] > 0.35
        return window, surface, asked, weight

    def under_other_light(self, sees, asked, weight):
        rng = self.rng
        turns, mirrored = rng.integers(4), rng.random() < 0.5
        sees, asked, weight = [np.rot90(plane, turns)[:, ::-1] if mirrored else np.rot90(plane, turns)
                               for plane in (sees, asked, weight)]
        sees = sees.copy()
        sees[..., :3] = np.clip(sees[..., :3] * (1 + 0.06 * rng.normal(size=3)) * np.exp(0.12 * rng.normal()), -1, 1.5)
        if rng.random() < 0.15:
            sees += rng.normal(size=sees.shape[:2] + (1,)).astype(np.float32) * rng.uniform(0, 0.02)
        return sees, asked, weight

    def sheet(self):
        """Places side by side, as the program lays them out."""
        sees, asked = np.zeros((SHEET, SHEET, 5), np.float32), np.zeros((SHEET, SHEET, 2), np.float32)
        weight = np.zeros((SHEET, SHEET), np.float32)
        top = 0
        while top < SHEET:
            left = shelf = 0
            while left < SHEET:
                own = self.place()
                h, w = min(own[0].shape[0], SHEET - top), min(own[0].shape[1], SHEET - left)
                for whole, part in zip((sees, asked, weight), own):
                    whole[top:top + h, left:left + w] = part[:h, :w]
                left, shelf = left + up4(w), max(shelf, up4(h))
            top += max(shelf, 4)
        return sees, asked, weight


def loss_of(model, sees, asked, weight):
    weight = weight.repeat(1, 2, 1, 1)
    weight[:, 1] *= 1 + 9 * asked[:, 1]  # seams are rare
    return F.binary_cross_entropy_with_logits(F.pixel_shuffle(model(sees), 2), asked, weight=weight)


def fit(model, learnt, steps):
    optimiser = torch.optim.Adam(model.parameters(), lr=4e-3)
    pace = torch.optim.lr_scheduler.OneCycleLR(optimiser, 7e-3, total_steps=steps, pct_start=0.15)
    for step in range(steps):
        sees, asked, weight = [torch.from_numpy(np.stack(planes)) for planes in zip(*[learnt.sheet() for _ in range(4)])]
        loss = loss_of(model, sees.permute(0, 3, 1, 2).contiguous(), asked.permute(0, 3, 1, 2).contiguous(), weight[:, None])
        optimiser.zero_grad()
        loss.backward()
        optimiser.step()
        pace.step()
        if step % 500 == 0:
            print("step %d of %d, loss %.4f" % (step, steps, loss.item()), flush=True)
    return model.eval()


def main():
    words = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    words.add_argument("photos")
    words.add_argument("stages")
    words.add_argument("out")
    words.add_argument("--leave-out", default="0/1000")
    words.add_argument("--steps", type=int, default=7000)
    given = words.parse_args()
    names = sorted(os.path.basename(file)[:-5] for file in glob.glob(os.path.join(given.stages, "*.json")))
    photos = [photo for photo in (read_photo(given.photos, given.stages, name) for name in names) if photo["boxes"]]
    first, every = map(int, given.leave_out.split("/"))
    scenes = sorted({photo["scene"] for photo in photos})
    out = set(scenes[first::every]) if every <= len(scenes) else set()
    print("left out:", *[photo["name"] for photo in photos if photo["scene"] in out])
    torch.manual_seed(0)
    learnt = Learnt([photo for photo in photos if photo["scene"] not in out], np.random.default_rng(0))
    model = fit(Pieces(), learnt, given.steps)
    free = {2: "height", 3: "width"}
    torch.onnx.export(model, torch.zeros(1, 5, 64, 64), given.out, opset_version=11, input_names=["surroundings"],
                      output_names=["piece_and_seam"], dynamic_axes={"surroundings": free, "piece_and_seam": free})


if __name__ == "__main__":
    main()
