#!/usr/bin/env python3
# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""Lays copies of a photo's own pieces, turned, against others so that they touch, nearly touch or overlap a little, and
writes photos with truth of what came of it: few pieces touch in the photos at hand, many in a neglected pan.

    touching.py PHOTOS STAGES OUT [--pairs 30]

STAGES is what swarfbook_candidates wrote for PHOTOS. A photo so made belongs to the scene of the photo it was made of.
Needs python3-opencv, python3-scipy and python3-skimage."""
import argparse
import glob
import os

import cv2
import numpy as np

import plain
import surfaces
import truth as known

MARGIN = 10           # px around a copied piece: its shadow comes along
GAP = (-0.12, 3.0)    # from so much of the smaller one's area hidden to so many px apart
LEAST_HIDDEN, MOST_HIDDEN = 0.004, 0.3
LEAST = 5.0           # px, longest side of either
TALLEST = 3.0         # times the other's longest side


def middle_of(piece):
    left, top, right, bottom = piece["bbox_mm"]
    return np.array([0.5 * (left + right), 0.5 * (top + bottom)])


def jacobian(truth, at, height):
    """d(photo px) / d(card mm) about a place."""
    points = known.photo_from_card(truth, [at, [at[0] + 0.5, at[1]], [at[0], at[1] + 0.5]], height)
    return np.c_[points[1] - points[0], points[2] - points[0]] / 0.5, points[0]


class Pairs(plain.Photo):
    def __init__(self, *given):
        super().__init__(*given)
        truth = self.truth
        camera = truth["camera"]
        self.px_per_mm = camera["f_px"] / camera["distance_mm"]
        alone = {cluster["members"][0] for cluster in truth["clusters"] if len(cluster["members"]) == 1}
        self.alone = [piece for piece in truth["particles"] if piece["id"] in alone and not piece["touching_window_edge"]
                      and piece.get("visible_fraction", 1) > 0.95 and piece["max_feret_mm"] * self.px_per_mm >= LEAST]
        self.source = self.picture.copy()

    def label_of(self, piece):
        return (self.truth["labels"] == piece["id"]).astype(np.uint8)

    def cut_out(self, piece):
        """@return photo, surface, covered share about a piece, and the corner they start at; None if others are near."""
        found = known.coverage(self.truth, piece)
        if found is None:
            return None
        (u, v), share = found
        low, high = np.array([u, v]) - MARGIN, np.array([u + share.shape[1], v + share.shape[0]]) + MARGIN
        if (low < self.origin).any() or (high > self.origin + self.surface.shape[1::-1]).any():
            return None
        part = np.s_[low[1]:high[1], low[0]:high[0]]
        whole = cv2.copyMakeBorder(share, MARGIN, MARGIN, MARGIN, MARGIN, cv2.BORDER_CONSTANT)
        if (self.crowded[part] & (cv2.dilate(whole, np.ones((5, 5))) == 0)).any():
            return None
        own = np.s_[low[1] - self.origin[1]:high[1] - self.origin[1], low[0] - self.origin[0]:high[0] - self.origin[0]]
        return self.source[part], self.surface[own].astype(np.float32), whole.astype(np.float32) / 255, low

    def slid_against(self, target, donor, rng):
        """Moves a copy of a piece, turned, towards another until they are as near as was drawn by lot.
        @return its linear map and its middle (mm), its mask and the other's in label pixels; None where it cannot lie."""
        k, window = self.truth["label_px_per_mm"], self.truth["window_mm"]
        turn, mirrored = rng.uniform(0, 2 * np.pi), rng.choice([-1, 1])
        linear = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]]) @ np.diag([mirrored, 1.0])
        lying, own = self.label_of(target), self.label_of(donor)
        near = cv2.distanceTransform(1 - lying, cv2.DIST_L2, 5) / k * self.px_per_mm
        corner = np.array([window["x"], window["y"]])
        away, asked = rng.uniform(0, 2 * np.pi), rng.uniform(*GAP)
        smaller = min(lying.sum(), own.sum())
        reach = 0.5 * (target["max_feret_mm"] + donor["max_feret_mm"]) + 4 / self.px_per_mm
        for distance in np.arange(reach, 0, -0.5 / self.px_per_mm):
            at = middle_of(target) + distance * np.array([np.cos(away), np.sin(away)])
            shift = (at - corner) * k - linear @ ((middle_of(donor) - corner) * k)
            moved = cv2.warpAffine(own, np.c_[linear, shift], lying.shape[::-1], flags=cv2.INTER_NEAREST)
            if moved.sum() < 0.9 * own.sum():
                return None
            hidden = (moved & lying).sum() / smaller
            if (asked >= 0 and near[moved > 0].min() <= asked) or hidden >= max(-asked, LEAST_HIDDEN):
                free = not (self.truth["labels"][(moved > 0) & (lying == 0)] > 0).any()
                return (linear, at, moved, lying) if free and hidden <= MOST_HIDDEN else None
        return None

    def lay_against(self, target, donor, rng):
        """@return whether a copy of the one now lies against the other."""
        copied, lies = self.cut_out(donor), None
        if copied is not None:
            lies = self.slid_against(target, donor, rng)
        if lies is None:
            return False
        photo, surface, share, corner = copied
        linear, at, moved, lying = lies
        there, place = jacobian(self.truth, at, 0.5 * donor["height_mm"])
        here, from_px = jacobian(self.truth, middle_of(donor), 0.5 * donor["height_mm"])
        back = here @ np.linalg.inv(linear) @ np.linalg.inv(there)
        side = int(np.hypot(*share.shape)) + 4
        low = np.floor(place).astype(int) - side // 2
        if (low < self.origin).any() or (low + side > self.origin + self.surface.shape[1::-1]).any():
            return False
        inverse = np.c_[back, from_px - corner + back @ (low - place)]
        warped = lambda layer, how, border: cv2.warpAffine(layer, inverse, (side, side), flags=how | cv2.WARP_INVERSE_MAP, borderMode=border)
        photo, surface = [warped(layer, cv2.INTER_CUBIC, cv2.BORDER_REPLICATE) for layer in (photo, surface)]
        inside = warped(np.ones(share.shape, np.uint8), cv2.INTER_NEAREST, cv2.BORDER_CONSTANT)
        share = np.clip(warped(share, cv2.INTER_CUBIC, cv2.BORDER_CONSTANT), 0, 1)
        photo = np.clip(np.where(inside[..., None] > 0, photo, surface), 0, 255)
        surface = np.clip(surface, 0, 255)
        room = np.s_[low[1]:low[1] + side, low[0]:low[0] + side]
        self.picture[room] = surfaces.laid_upon([photo, surface, share], (self.picture[room], surface), rng)[0]
        self.crowded[room] |= share > 0.05
        self.enter(target, donor, moved, lying)
        return True

    def enter(self, target, donor, moved, lying):
        truth, k, window = self.truth, self.truth["label_px_per_mm"], self.truth["window_mm"]
        new = max(piece["id"] for piece in truth["particles"]) + 1
        truth["labels"][moved > 0] = new

        def of(mask):
            v, u = np.nonzero(mask)
            points = np.c_[u, v].astype(np.float32) / k + [window["x"], window["y"]]
            hull = cv2.convexHull(points.astype(np.float32))[:, 0]
            return (dict(x_mm=float(points[:, 0].mean()), y_mm=float(points[:, 1].mean()),
                         max_feret_mm=float(max(np.hypot(*(hull - point).T).max() for point in hull) + 1 / k)),
                    [float(value) for value in (*points.min(0), *(points.max(0) + 1 / k))])
        place, box = of(moved)
        piece = dict(donor, id=new, x_mm=place["x_mm"], y_mm=place["y_mm"], bbox_mm=box, visible_fraction=1.0)
        truth["particles"].append(piece)
        target["visible_fraction"] = float(1 - (moved & lying).sum() / max(1, lying.sum()))
        truth["clusters"] = [cluster for cluster in truth["clusters"] if cluster["members"] != [target["id"]]]
        truth["clusters"].append(dict(of(moved | lying)[0], members=[target["id"], new]))

    def make(self, pairs, rng):
        covered, _ = known.coverage_and_seams(self.truth, self.free.shape)
        self.crowded = covered > 20
        made, done = len(self.truth["particles"]), set()
        for _ in range(12 * pairs):
            if len(self.truth["particles"]) - made >= pairs or len(self.alone) < 2:
                break
            target, donor = rng.choice(len(self.alone), 2, replace=False)
            target, donor = self.alone[target], self.alone[donor]
            ratio = target["max_feret_mm"] / donor["max_feret_mm"]
            if target["id"] in done or max(ratio, 1 / ratio) > TALLEST:
                continue
            if self.lay_against(target, donor, rng):
                done.add(target["id"])
        return len(self.truth["particles"]) - made


def main():
    words = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    for word in ("photos", "stages", "out"):
        words.add_argument(word)
    words.add_argument("--pairs", type=int, default=30)
    given = words.parse_args()
    os.makedirs(os.path.join(given.out, "truth"), exist_ok=True)
    for file in sorted(glob.glob(os.path.join(given.stages, "*.json"))):
        name = os.path.basename(file)[:-5]
        photo = Pairs(given.photos, given.stages, name)
        made = photo.make(given.pairs, np.random.default_rng(sum(name.encode()) + 1))
        photo.save(given.out, name + "-touching")
        print(name + "-touching", made, "pairs", flush=True)


if __name__ == "__main__":
    main()
