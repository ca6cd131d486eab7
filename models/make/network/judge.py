#!/usr/bin/env python3
# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""Judges the network on photos that it never learnt from, as stages.py judges the program's stages.

    judge.py NETWORK.pt READY PHOTOS [REGEX]

Pieces are parts of the piece map over one half, parted along seams. Prints, per card, recall, precision and F1 of pieces
from 0.2 mm (close card) or 0.4 mm (wide card) on, at several limits of a piece's mean answer; how far the longest side is
off; and how many types are right. Needs python3-torch, python3-opencv, python3-scipy, python3-skimage."""
import glob
import os
import re
import sys

import cv2
import numpy as np
import torch
from skimage import measure, segmentation

here = os.path.dirname(os.path.abspath(__file__))
sys.path[:0] = [os.path.join(here, ".."), os.path.join(here, "../../../tests/benchmark")]
import stages  # noqa: E402
import truth as known  # noqa: E402
from network import model  # noqa: E402
from network.data import RIM  # noqa: E402

LIMITS = (0.55, 0.6, 0.65, 0.7)
OUTER, INNER = 0.4, 0.5  # of the piece map: may belong to a piece; surely belongs to one


def maps_of(network, see, device):
    height, width = see.shape[:2]
    more = [(0, -side % model.COARSEST) for side in (height, width)]
    given = torch.from_numpy(np.pad(see, more + [(0, 0)], mode="edge")).to(device).permute(2, 0, 1)[None].float()
    with torch.no_grad():
        both, types = model.maps_of(network(model.as_input(given)))
    both = torch.sigmoid(both)[0, :, :height, :width].cpu().numpy()
    return both[0], both[1], types[0].cpu().numpy()


def card_from_photo(truth, shape, origin):
    """A polynomial of the fourth degree that gives true millimetres for pixels of the window."""
    w = truth["window_mm"]
    across, down = np.meshgrid(np.linspace(w["x"] - 5, w["x"] + w["w"] + 5, 15), np.linspace(w["y"] - 5, w["y"] + w["h"] + 5, 15))
    card = np.c_[across.ravel(), down.ravel()]
    middle = np.array(shape[1::-1]) / 2

    def terms(at):
        x, y = ((at - middle) / 1000).T
        return np.stack([x ** i * y ** j for i in range(5) for j in range(5 - i)], 1)

    found = np.linalg.lstsq(terms(known.photo_from_card(truth, card) - origin), card, rcond=None)[0]
    return lambda at: terms(np.asarray(at, float)) @ found


def longest_of(points):
    hull = cv2.convexHull(points.astype(np.float32))[:, 0].astype(float)
    return float(np.hypot(*(hull[:, None] - hull[None]).transpose(2, 0, 1)).max())


def pieces_of(piece, seam, types, to_card):
    _, parts = cv2.connectedComponents(((piece > INNER) & (seam < 0.5)).astype(np.uint8), connectivity=4)
    parts = segmentation.watershed(-piece, parts, mask=piece > OUTER)
    found = []
    for part in measure.regionprops(parts):
        top, left, bottom, right = part.bbox
        top, left = max(0, top - 2), max(0, left - 2)
        around = np.s_[top:bottom + 2, left:right + 2]
        own = parts[around] == part.label
        alone = np.where(cv2.dilate(own.astype(np.uint8), np.ones((3, 3), np.uint8)) * (own | (parts[around] == 0)) > 0, piece[around], 0)
        outlines = measure.find_contours(np.pad(alone, 1), INNER)
        if part.area < 4 or not outlines:
            continue
        outline = to_card(max(outlines, key=len)[:, ::-1] + [left - 1, top - 1])
        rows, columns = np.nonzero(own)
        centre = to_card(np.array([[columns.mean() + left, rows.mean() + top]]))[0]
        kind = types[:, (rows + top) // 2, (columns + left) // 2].mean(1).argmax()
        found.append(dict(x_mm=centre[0], y_mm=centre[1], max_feret_mm=longest_of(outline), sure=float(piece[around][own].mean()),
                          type=model.TYPES[kind]))
    return found


def judge_photo(network, file, photos, device):
    """@return card, per limit (hit, asked, false, off), types right and asked."""
    saved = np.load(file)
    truth = known.read(photos, os.path.basename(file)[:-4])
    planes = saved["planes"][:, RIM:-RIM, RIM:-RIM]
    piece, seam, types = maps_of(network, planes[:3].transpose(1, 2, 0), device)
    piece = piece * (planes[6] > 0)
    found = pieces_of(piece, seam, types, card_from_photo(truth, piece.shape, saved["origin"]))
    layout = truth["layout"]
    rows = [stages.judge(truth, [one for one in found if one["sure"] >= limit], stages.LEAST[layout]) for limit in LIMITS]
    pairs = known.match(truth["particles"], found)
    right = [known.LOOK[truth["particles"][i]["material"]] == found[j]["type"] for i, j in pairs
             if truth["particles"][i]["max_feret_mm"] * float(saved["px_per_mm"]) >= 8]
    return layout, rows, sum(right), len(right)


def main():
    if len(sys.argv) not in (4, 5):
        sys.exit(__doc__)
    pattern = re.compile(sys.argv[4] if len(sys.argv) == 5 else ".*")
    device = "cuda" if torch.cuda.is_available() else "cpu"
    network = model.load(sys.argv[1], device)
    sums = {}
    for file in sorted(glob.glob(os.path.join(sys.argv[2], "*.npz"))):
        name = os.path.basename(file)[:-4]
        if pattern.fullmatch(name) and os.path.exists(os.path.join(sys.argv[3], "truth", name + ".json")):
            layout, rows, right, asked = judge_photo(network, file, sys.argv[3], device)
            sums.setdefault(layout, []).append((rows, right, asked))
    print("%-6s %6s %7s %9s %7s %9s %9s %11s" % ("card", "limit", "recall", "precision", "F1", "off, 50 %", "off, 95 %", "types right"))
    for layout, photos in sorted(sums.items()):
        for at, limit in enumerate(LIMITS):
            hit, asked, false = [sum(rows[at][i] for rows, _, _ in photos) for i in range(3)]
            off = np.abs(np.concatenate([rows[at][3] for rows, _, _ in photos]))
            off = 100 * np.percentile(off, [50, 95]) if len(off) else (np.nan, np.nan)
            recall, precision = hit / max(asked, 1), hit / max(hit + false, 1)
            types = 100 * sum(right for _, right, _ in photos) / max(1, sum(many for _, _, many in photos))
            print("%-6s %6.2f %7.3f %9.3f %7.3f %8.1f%% %8.1f%% %10.1f%%" % (layout, limit, recall, precision, 2 * hit / max(asked + hit + false, 1), *off, types))


if __name__ == "__main__":
    main()
