#!/usr/bin/env python3
# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""Draws pieces with plain faces, larger ones than photos with known truth show, among the true ones of those photos,
and writes photos with truth of what came of it.

    plain.py PHOTOS STAGES OUT [--pieces 24]

STAGES is what swarfbook_candidates wrote for PHOTOS. A photo so made belongs to the scene of the photo it was made of.
Needs python3-opencv, python3-scipy and python3-skimage."""
import argparse
import glob
import json
import os

import cv2
import numpy as np

import surfaces
import truth as known

FACES = dict(steel=[(90, 92, 95), (150, 152, 155), (205, 208, 210), (235, 236, 238)],
             brass=[(70, 125, 160), (95, 165, 195), (60, 140, 190)],
             friction=[(30, 32, 36), (45, 50, 56), (62, 66, 72)],
             polymer=[(45, 70, 130), (50, 90, 150), (35, 55, 105)])
SIZES = dict(close=(0.3, 7.0), wide=(0.6, 11.0))  # mm, longest side
HEIGHT = 0.2      # mm that a piece rises above the floor
CONTRAST = 0.3    # of the surface's light, in one channel at least: else no eye sees it
FINE = 8          # parts of a pixel's side in which coverage is drawn
QUALITY = 92      # of the JPEG, as phones write


def facet(rng):
    angles = np.sort(rng.uniform(0, 2 * np.pi, rng.integers(3, 9)))
    return rng.uniform(0.6, 1.0, len(angles))[:, None] * np.c_[np.cos(angles), np.sin(angles)]


def disc(rng):
    angles = np.linspace(0, 2 * np.pi, 72, endpoint=False)
    rough = 1 + rng.uniform(0, 0.06) * np.convolve(rng.normal(size=80), np.ones(9) / 3, "valid")
    return rough[:, None] * np.c_[np.cos(angles), rng.uniform(0.45, 1.0) * np.sin(angles)]


def strip(rng):
    way = np.cumsum(np.full(20, rng.normal(0, 0.12))) + rng.uniform(0, 2 * np.pi)
    line = np.cumsum(np.c_[np.cos(way), np.sin(way)], 0) / 10
    across = np.c_[-np.sin(way), np.cos(way)] * rng.uniform(0.08, 0.35)
    return np.vstack([line + across, (line - across)[::-1]])


def outline(rng, longest):
    """A closed outline about its own centre, mm; none that crosses itself much or is a sliver."""
    while True:
        points = [facet, disc, strip][rng.choice(3, p=(0.45, 0.3, 0.25))](rng)
        hull = cv2.convexHull(points.astype(np.float32))[:, 0]
        size = max(np.hypot(*(hull - point).T).max() for point in hull)
        thin = min(cv2.minAreaRect(hull)[1])
        if thin > 0.12 * size:
            return (points - points.mean(0)) * longest / size, thin * longest / size


class Photo:
    def __init__(self, photos, stages, name):
        self.truth = known.read(photos, name)
        self.picture = cv2.imread(os.path.join(photos, self.truth["photo"])).astype(np.float32)
        with open(os.path.join(stages, name + ".json")) as file:
            u, v = json.load(file)["origin_px"]
        surface = cv2.imread(os.path.join(stages, name + "-surface.png"))
        self.surface, self.origin = surface, np.array([u, v])
        inside = cv2.imread(os.path.join(stages, name + "-inside.png"), -1)
        self.free = np.zeros(self.picture.shape[:2], np.uint8)
        self.free[v:v + inside.shape[0], u:u + inside.shape[1]] = inside
        covered, _ = known.coverage_and_seams(self.truth, self.free.shape)
        self.free[covered > 20] = 0
        for glare in self.truth.get("left_out_px", []):
            cv2.circle(self.free, (int(glare["u"]), int(glare["v"])), int(glare["r"]), 0, -1)

    def seen(self, points):
        return known.photo_from_card(self.truth, points, 0.5 * HEIGHT)

    def lay(self, longest, way, rng):
        """Draws one piece where there is room for it and writes it into the truth; nothing where there is none."""
        window = self.truth["window_mm"]
        shape, thin = outline(rng, longest)
        at = np.array([window["x"], window["y"]]) + rng.uniform(0.03, 0.97, 2) * [window["w"], window["h"]]
        points = self.seen(shape + at)
        low, high = np.floor(points.min(0)).astype(int) - 12, np.ceil(points.max(0)).astype(int) + 13
        if low.min() < 0 or (high > self.free.shape[::-1]).any():
            return
        room = np.s_[low[1]:high[1], low[0]:high[0]]
        if not self.free[room].all():
            return
        fine = np.zeros(((high[1] - low[1]) * FINE, (high[0] - low[0]) * FINE), np.uint8)
        cv2.fillPoly(fine, [np.round(((points - low + 0.5) * FINE - 0.5) * 16).astype(np.int32)], 255, cv2.LINE_8, 4)
        share = cv2.resize(fine, tuple(high - low), interpolation=cv2.INTER_AREA).astype(np.float32) / 255
        share = cv2.GaussianBlur(share, (0, 0), surfaces.EDGE)
        material = list(FACES)[rng.integers(len(FACES))]
        face = np.array(FACES[material][rng.integers(len(FACES[material]))]) * rng.uniform(0.65, 1.08) * (1 + 0.03 * rng.normal(size=3))
        beneath = np.median(self.surface[low[1] - self.origin[1]:high[1] - self.origin[1],
                                         low[0] - self.origin[0]:high[0] - self.origin[0]], (0, 1))
        if np.abs(face / np.maximum(beneath, 10) - 1).max() < CONTRAST:
            return
        self.picture[room] = painted(self.picture[room], share, face, way, rng)
        self.free[room] = 0
        self.write_truth(shape + at, dict(material=material, max_feret_mm=longest, min_feret_mm=thin))

    def write_truth(self, shape, known_of_it):
        truth, window, k = self.truth, self.truth["window_mm"], self.truth["label_px_per_mm"]
        new = max([piece["id"] for piece in truth["particles"]], default=0) + 1
        on_label = (shape - [window["x"], window["y"]]) * k - 0.5
        mask = np.zeros(truth["labels"].shape, np.uint8)
        cv2.fillPoly(mask, [np.round(on_label * 16).astype(np.int32)], 1, cv2.LINE_8, 4)
        truth["labels"][mask > 0] = new
        moments = cv2.moments(shape.astype(np.float32))
        x, y = moments["m10"] / moments["m00"], moments["m01"] / moments["m00"]
        place = dict(x_mm=x, y_mm=y, max_feret_mm=known_of_it["max_feret_mm"], touching_window_edge=False)
        truth["particles"].append(dict(place, **known_of_it, id=new, bbox_mm=[*shape.min(0), *shape.max(0)],
                                       height_mm=HEIGHT, z_top_mm=HEIGHT, visible_fraction=1.0))
        truth["clusters"].append(dict(place, members=[new]))

    def save(self, out, name):
        cv2.imwrite(os.path.join(out, name + ".jpg"), np.clip(np.round(self.picture), 0, 255).astype(np.uint8),
                    [cv2.IMWRITE_JPEG_QUALITY, QUALITY])
        cv2.imwrite(os.path.join(out, "truth", name + ".label.png"), self.truth["labels"])
        truth = {key: value for key, value in self.truth.items() if key != "labels"}
        truth.update(name=name, photo=name + ".jpg", scene=known.scene(self.truth))
        with open(os.path.join(out, "truth", name + ".json"), "w") as file:
            json.dump(truth, file)


def painted(below, share, face, way, rng):
    """A face whose light changes little, and its shadow to one side, over what lies below."""
    h, w = share.shape
    y, x = np.mgrid[0:h, 0:w].astype(np.float32)
    slope, grain = rng.normal(0, 0.1, 2), rng.uniform(0.5, 4)
    light = 1 + slope[0] * (x / w - 0.5) + slope[1] * (y / h - 0.5)
    mottled = cv2.GaussianBlur(rng.normal(size=(h, w)).astype(np.float32), (0, 0), grain)
    light += rng.uniform(0, 0.06) * mottled / mottled.std()
    away = rng.uniform(1, 6)
    move = np.float32([[1, 0, away * np.cos(way)], [0, 1, away * np.sin(way)]])
    shadow = cv2.GaussianBlur(cv2.warpAffine(share, move, (w, h)), (0, 0), 0.5 + 0.4 * away)
    lit = below * (1 - rng.uniform(0.1, 0.6) * shadow)[..., None]
    own = np.clip(face * light[..., None] + rng.normal(0, 1.0, (h, w, 3)), 0, 255)
    return share[..., None] * own + (1 - share[..., None]) * lit


def main():
    words = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    for word in ("photos", "stages", "out"):
        words.add_argument(word)
    words.add_argument("--pieces", type=int, default=24)
    given = words.parse_args()
    os.makedirs(os.path.join(given.out, "truth"), exist_ok=True)
    for file in sorted(glob.glob(os.path.join(given.stages, "*.json"))):
        name = os.path.basename(file)[:-5]
        rng = np.random.default_rng(sum(name.encode()))
        photo = Photo(given.photos, given.stages, name)
        before, way = len(photo.truth["particles"]), rng.uniform(0, 2 * np.pi)
        least, most = SIZES[photo.truth["layout"]]
        for _ in range(20 * given.pieces):
            if len(photo.truth["particles"]) == before + given.pieces:
                break
            photo.lay(np.exp(rng.uniform(np.log(least), np.log(most))), way, rng)
        photo.save(given.out, name + "-plain")
        print(name + "-plain", len(photo.truth["particles"]) - before, "pieces", flush=True)


if __name__ == "__main__":
    main()
