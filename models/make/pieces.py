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

import truth as known

SHEET = 128          # px a side of what is learnt from at once
CHANNELS = 20


class Pieces(torch.nn.Module):
    """Sees 2 x 2 pixels as one and some 16 pixels around; answers piece and seam for each of the four."""

    def __init__(self):
        super().__init__()
        self.first = torch.nn.Conv2d(5, CHANNELS, 5, stride=2, padding=2)
        self.wider = torch.nn.ModuleList(
            [torch.nn.Conv2d(CHANNELS, CHANNELS, 3, padding=reach, dilation=reach) for reach in (1, 2, 4, 1)])
        self.last = torch.nn.Conv2d(CHANNELS, 8, 3, padding=1)

    def forward(self, sheet):
        seen = F.relu(self.first(sheet))
        for layer in self.wider:
            seen = seen + F.relu(layer(seen))
        return self.last(seen)


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
    window = picture("window")
    size = (v + window.shape[0], u + window.shape[1])
    covered, seam = [whole[v:, u:] for whole in known.coverage_and_seams(truth, size)]
    weight = (picture("inside") > 0).astype(np.uint8)
    for thing in truth["confounders"]:
        if thing["kind"] == "gasket":  # foreign matter: neither debris nor surface
            at = known.photo_from_card(truth, [[thing["x_mm"], thing["y_mm"]]])[0] - (u, v)
            cv2.circle(weight, tuple(at.astype(int).tolist()),
                       int(thing["max_feret_mm"] * document["px_per_mm"] * 0.75) + 2, 0, -1)
    for glare in truth.get("left_out_px", []):
        cv2.circle(weight, (int(glare["u"] - u), int(glare["v"] - v)), int(glare["r"]) + 2, 0, -1)
    boxes = [place["box"] for place in document["places"]]
    chance = np.sqrt([box[2] * box[3] for box in boxes])
    return dict(name=name, scene=known.scene(truth), sees=against_surface(window, picture("surface")).astype(np.float16),
                asked=np.dstack([covered, seam]), weight=weight, boxes=boxes, chance=chance / chance.sum(),
                fine=document["px_per_mm"] > 22)


def one_place(photo, rng):
    """A place, turned, mirrored, under another light; of a fine photo now and then as a coarse one shows it."""
    coarser = rng.uniform(1.3, 2.0) if photo["fine"] and rng.random() < 0.2 else 1.0
    x, y, w, h = photo["boxes"][rng.choice(len(photo["boxes"]), p=photo["chance"])]
    most = int(SHEET * coarser)
    if w > most:
        x, w = x + rng.integers(w - most + 1), most
    if h > most:
        y, h = y + rng.integers(h - most + 1), most
    part = np.s_[y:y + h, x:x + w]
    sees, asked = photo["sees"][part].astype(np.float32), photo["asked"][part].astype(np.float32) / 255
    weight = photo["weight"][part].astype(np.float32)
    if coarser > 1:
        size = (max(4, int(w / coarser)), max(4, int(h / coarser)))
        shrink = lambda planes: cv2.resize(cv2.GaussianBlur(np.ascontiguousarray(planes), (0, 0), 0.4 * coarser),
                                           size, interpolation=cv2.INTER_AREA)
        sees = np.dstack([shrink(sees[..., :3]), shrink(sees[..., 3:])])
        asked = cv2.resize(asked, size, interpolation=cv2.INTER_AREA)
        asked[..., 1] = asked[..., 1] > 0.35
        weight = (cv2.resize(weight, size, interpolation=cv2.INTER_AREA) > 0.99).astype(np.float32)
    turns, mirrored = rng.integers(4), rng.random() < 0.5
    sees, asked, weight = [np.rot90(plane, turns)[:, ::-1] if mirrored else np.rot90(plane, turns)
                           for plane in (sees, asked, weight)]
    sees = sees.copy()
    sees[..., :3] = np.clip(sees[..., :3] * (1 + 0.06 * rng.normal(size=3)) * np.exp(0.12 * rng.normal()), -1, 1.5)
    if rng.random() < 0.15:
        sees += rng.normal(size=sees.shape[:2] + (1,)).astype(np.float32) * rng.uniform(0, 0.02)
    return sees, asked, weight


def sheet(photos, rng):
    """Places side by side, as the program lays them out."""
    sees, asked = np.zeros((SHEET, SHEET, 5), np.float32), np.zeros((SHEET, SHEET, 2), np.float32)
    weight = np.zeros((SHEET, SHEET), np.float32)
    top = 0
    while top < SHEET:
        left = shelf = 0
        while left < SHEET:
            own = one_place(photos[rng.integers(len(photos))], rng)
            h, w = min(own[0].shape[0], SHEET - top), min(own[0].shape[1], SHEET - left)
            for whole, part in zip((sees, asked, weight), own):
                whole[top:top + h, left:left + w] = part[:h, :w]
            left, shelf = left + w + w % 2, max(shelf, h + h % 2)
        top += max(shelf, 2)
    return sees, asked, weight


def fit(photos, steps, seed=0):
    rng = np.random.default_rng(seed)
    torch.manual_seed(seed)
    model = Pieces()
    optimiser = torch.optim.Adam(model.parameters(), lr=4e-3)
    pace = torch.optim.lr_scheduler.OneCycleLR(optimiser, 7e-3, total_steps=steps, pct_start=0.15)
    for step in range(steps):
        sees, asked, weight = [torch.from_numpy(np.stack(planes)) for planes in zip(*[sheet(photos, rng) for _ in range(4)])]
        asked = asked.permute(0, 3, 1, 2).contiguous()
        weight = weight[:, None].repeat(1, 2, 1, 1)
        weight[:, 1] *= 1 + 9 * asked[:, 1]  # seams are rare
        answer = F.pixel_shuffle(model(sees.permute(0, 3, 1, 2).contiguous()), 2)
        loss = F.binary_cross_entropy_with_logits(answer, asked, weight=weight)
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
    model = fit([photo for photo in photos if photo["scene"] not in out], given.steps)
    free = {2: "height", 3: "width"}
    torch.onnx.export(model, torch.zeros(1, 5, 64, 64), given.out, opset_version=11, input_names=["surroundings"],
                      output_names=["piece_and_seam"], dynamic_axes={"surroundings": free, "piece_and_seam": free})


if __name__ == "__main__":
    main()
