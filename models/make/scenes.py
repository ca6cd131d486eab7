#!/usr/bin/env python3
# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""Lays the pieces of photos with known truth upon drawn surfaces, in the window of other photos, and writes photos
with truth of what came of it: surfaces that no photo shows, bare ones among them.

    scenes.py PHOTOS STAGES OUT [--of K/N] [--each 2] [--bare 1] [--windows 1000]

STAGES is what swarfbook_candidates wrote for PHOTOS. --of 0/3 takes pieces only from every third scene, as
pieces.py --leave-out 0/3 leaves them out, so that a model so made has met none of them. For every photo of the
wide card, or for so many of them as --windows says, `--each` photos with pieces are written and `--bare` without.
Needs python3-opencv, python3-scipy, python3-skimage and python3-torch."""
import argparse
import glob
import json
import os

import cv2
import numpy as np

import pieces
import surfaces
import truth as known

PIECES = (60, 300)  # boxes tried in one window
LARGE = 0.35        # mm: four of five boxes hold a piece at least as long; most pieces are shorter
QUALITY = 92        # of the JPEG, as phones write


def mm_from_photo(truth, point, height):
    """The true millimetres that a photo's point shows at a height."""
    at = np.array([truth["window_mm"]["x"] + truth["window_mm"]["w"] / 2, truth["window_mm"]["y"] + truth["window_mm"]["h"] / 2])
    for _ in range(12):
        seen = known.photo_from_card(truth, [at], height)[0]
        at = at + np.linalg.solve(per_mm(truth, at, height), np.asarray(point) - seen)
    return at


def per_mm(truth, at, height):
    """How many pixels to the right and down one millimetre goes to the right and down, as a matrix."""
    seen = known.photo_from_card(truth, [at, at + [1.0, 0.0], at + [0.0, 1.0]], height)
    return np.column_stack([seen[1] - seen[0], seen[2] - seen[0]])


def middle_height(piece):
    return piece.get("z_top_mm", piece["height_mm"]) - 0.5 * piece["height_mm"]


class Source:
    """A fine photo whose places are laid elsewhere."""

    def __init__(self, photos, stages, name):
        self.photo = pieces.read_photo(photos, stages, name)
        self.truth = known.read(photos, name)
        with open(os.path.join(stages, name + ".json")) as file:
            self.origin = np.array(json.load(file)["origin_px"], float)
        heights = [middle_height(piece) for piece in self.truth["particles"]]
        self.seen = [known.photo_from_card(self.truth, [[piece["x_mm"], piece["y_mm"]]], height)[0] - self.origin
                     for piece, height in zip(self.truth["particles"], heights)]

    def place(self, rng):
        """@return a box and the true pieces wholly in it; None where something is cut off or not known."""
        photo = self.photo
        x, y, w, h = photo["boxes"][rng.integers(len(photo["boxes"]))]
        part = np.s_[y:y + h, x:x + w]
        rim = photo["asked"][part][..., 0].copy()
        rim[2:-2, 2:-2] = 0
        if rim.any() or not photo["weight"][part].all() or max(w, h) > 400:
            return None
        inside = [piece for piece, (u, v) in zip(self.truth["particles"], self.seen) if x <= u < x + w and y <= v < y + h]
        if not any(piece["max_feret_mm"] >= LARGE for piece in inside) and rng.random() < 0.8:
            return None
        return (part, inside) if inside else None


class Scene:
    """The window of a photo of the wide card, emptied."""

    def __init__(self, photos, stages, name, rng):
        self.truth = known.read(photos, name)
        self.upright = cv2.imread(os.path.join(photos, self.truth["photo"]))
        with open(os.path.join(stages, name + ".json")) as file:
            self.origin = np.array(json.load(file)["origin_px"])
        self.inside = cv2.imread(os.path.join(stages, name + "-inside.png"), -1) > 0
        self.window, self.surface = surfaces.drawn(rng, self.inside.shape)
        self.window = surfaces.wet(self.window, rng, int(rng.integers(0, 60)))
        self.free = cv2.erode(self.inside.astype(np.uint8), np.ones((15, 15), np.uint8))
        self.labels = np.zeros_like(self.truth["labels"])
        self.particles, self.clusters = [], []

    def lay(self, source, rng):
        """Puts one place of the source where nothing lies yet; nothing where it finds no room."""
        found = source.place(rng)
        if found is None:
            return
        part, inside = found
        height, width = source.photo["window"][part].shape[:2]
        y, x = rng.integers(self.free.shape[0] - height), rng.integers(self.free.shape[1] - width)
        middle = np.array([x + width / 2, y + height / 2])
        from_middle = np.array([part[1].start + width / 2, part[0].start + height / 2])
        level = middle_height(inside[0])
        there = mm_from_photo(self.truth, self.origin + middle, level)
        here = mm_from_photo(source.truth, source.origin + from_middle, level)
        turn = per_mm(self.truth, there, level) @ np.linalg.inv(per_mm(source.truth, here, level))
        size = np.ceil(np.abs(turn) @ [width, height]).astype(int) - 3
        x, y = np.round(middle - size / 2).astype(int)
        room = np.s_[y:y + size[1], x:x + size[0]]
        if min(size) < 4 or min(x, y) < 0 or self.free[room].shape != (size[1], size[0]) or not self.free[room].all():
            return
        move = np.column_stack([turn, size / 2 - 0.5 - turn @ (np.array([width, height]) / 2 - 0.5)])
        shrink = 1 / np.sqrt(np.linalg.det(turn))
        warp = lambda picture, blur: cv2.warpAffine(cv2.GaussianBlur(picture, (0, 0), blur), move, tuple(int(n) for n in size),
                                                    flags=cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE)
        share = source.photo["asked"][part][..., 0].astype(np.float32) / 255
        laid, _ = surfaces.laid_upon((warp(source.photo["window"][part], 0.4 * shrink), warp(source.photo["surface"][part], 0.4 * shrink),
                                      warp(share, 0.3)), (self.window[room], self.surface[room]), rng)
        self.window[room] = laid
        self.free[room] = 0
        names = {}
        for piece in inside:
            offset = np.array([piece["x_mm"], piece["y_mm"]]) - here
            names[piece["id"]] = self.add(source, piece, there + offset)
        for cluster in source.truth["clusters"]:
            if len(cluster["members"]) > 1 and all(member in names for member in cluster["members"]):
                at = there + [cluster["x_mm"], cluster["y_mm"]] - here
                self.clusters.append(dict(cluster, members=[names[member] for member in cluster["members"]],
                                          x_mm=at[0], y_mm=at[1], touching_window_edge=False))

    def add(self, source, piece, at):
        """Writes a piece into the truth and its top view into the labels. @return its new id."""
        new = len(self.particles) + 1
        ratio = self.truth["label_px_per_mm"] / source.truth["label_px_per_mm"]
        k, window = source.truth["label_px_per_mm"], source.truth["window_mm"]
        mask = source.truth["labels"] == piece["id"]
        if mask.any():
            rows, columns = np.flatnonzero(mask.any(1)), np.flatnonzero(mask.any(0))
            own = mask[rows[0]:rows[-1] + 1, columns[0]:columns[-1] + 1].astype(np.float32)
            small = cv2.resize(own, (max(1, round(own.shape[1] * ratio)), max(1, round(own.shape[0] * ratio))), interpolation=cv2.INTER_AREA) > 0.4
            corner = np.array([columns[0] / k + window["x"] - piece["x_mm"], rows[0] / k + window["y"] - piece["y_mm"]])
            to = self.truth["window_mm"]
            u, v = np.round((at + corner - [to["x"], to["y"]]) * self.truth["label_px_per_mm"]).astype(int)
            target = self.labels[max(v, 0):v + small.shape[0], max(u, 0):u + small.shape[1]]
            target[small[max(-v, 0):, max(-u, 0):][:target.shape[0], :target.shape[1]]] = new
        shift = np.tile(at - [piece["x_mm"], piece["y_mm"]], 2)
        self.particles.append(dict(piece, id=new, x_mm=at[0], y_mm=at[1], bbox_mm=(np.array(piece["bbox_mm"]) + shift).tolist(),
                                   touching_window_edge=False))
        return new

    def write(self, out, name):
        picture = self.upright.copy()
        u, v = self.origin
        room = picture[v:v + self.inside.shape[0], u:u + self.inside.shape[1]]
        soft = cv2.GaussianBlur(self.inside.astype(np.float32), (0, 0), 0.7)[..., None]
        room[:] = np.round(soft * self.window + (1 - soft) * room)
        cv2.imwrite(os.path.join(out, name + ".jpg"), picture, [cv2.IMWRITE_JPEG_QUALITY, QUALITY])
        cv2.imwrite(os.path.join(out, "truth", name + ".label.png"), self.labels)
        truth = {key: value for key, value in self.truth.items() if key not in ("labels", "sample")}
        truth.update(name=name, photo=name + ".jpg", particles=self.particles, clusters=self.clusters, confounders=[], defects=[])
        truth.pop("left_out_px", None)
        with open(os.path.join(out, "truth", name + ".json"), "w") as file:
            json.dump(truth, file)


def main():
    words = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    for word in ("photos", "stages", "out"):
        words.add_argument(word)
    words.add_argument("--of", default="0/1")
    words.add_argument("--each", type=int, default=2)
    words.add_argument("--bare", type=int, default=1)
    words.add_argument("--windows", type=int, default=1000)
    given = words.parse_args()
    os.makedirs(os.path.join(given.out, "truth"), exist_ok=True)
    names = sorted(os.path.basename(file)[:-5] for file in glob.glob(os.path.join(given.stages, "*.json")))
    truths = {name: known.read(given.photos, name) for name in names}
    first, every = map(int, given.of.split("/"))
    wanted = set(sorted({known.scene(truth) for truth in truths.values()})[first::every])
    sources = [Source(given.photos, given.stages, name) for name in names
               if truths[name]["layout"] == "close" and known.scene(truths[name]) in wanted and "small" not in name]
    rng = np.random.default_rng(100 + first)
    wide = [name for name in names if truths[name]["layout"] == "wide"]
    for name in wide[::-(-len(wide) // given.windows)]:
        for number in range(given.each + given.bare):
            scene = Scene(given.photos, given.stages, name, rng)
            bare = number >= given.each
            for _ in range(0 if bare else rng.integers(*PIECES)):
                scene.lay(sources[rng.integers(len(sources))], rng)
            called = "%s-drawn-%d-%d%s" % (name, first, number, "-empty" if bare else "")
            scene.write(given.out, called)
            print(called, len(scene.particles), "pieces", flush=True)


if __name__ == "__main__":
    main()
