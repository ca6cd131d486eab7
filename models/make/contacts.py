#!/usr/bin/env python3
# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""Fits whether two parts that touch are two pieces, on photos that the network never learnt from, and writes contact-trust.json.

    contacts.py STAGES PHOTOS [PHOTOS...] [--program swarfbook_candidates] [--network models/pieces.onnx]
                [--out models/contact-trust.json] [--leave-out REGEX]

PHOTOS and STAGES as in trust.py. Run trust.py after it, on other STAGES, because the pieces depend on this.
Needs python3-sklearn, python3-torch, python3-opencv, python3-scipy, python3-skimage."""
import json
import os

import cv2
import numpy as np
import torch

import truth as known
from finds import FOLDS, LEAST, SMALL, given_photos
from trust import Nets, cross_entropy

NETS, UNITS = 4, 12
COVERED = 0.4         # share of a part that true pieces cover: parts covered less are left to PieceTrust
COVERS = 64           # of 255: a piece covers a pixel
TWO = 0.4             # from this probability on they are two: models/contact-trust.md


def true_pieces(truth, document, size):
    """@return the identifier of the piece that covers most of each pixel, 0 where none does."""
    left, top = np.round(document["origin_px"]).astype(int)
    greatest, piece_of = np.zeros(size, np.uint8), np.zeros(size, np.int32)
    for piece in truth["particles"]:
        found = known.coverage(truth, piece)
        if found is None:
            continue
        (u, v), part = found
        u, v = u - left, v - top
        x0, y0, x1, y1 = max(u, 0), max(v, 0), min(u + part.shape[1], size[1]), min(v + part.shape[0], size[0])
        if x0 >= x1 or y0 >= y1:
            continue
        own, here = part[y0 - v:y1 - v, x0 - u:x1 - u], (slice(y0, y1), slice(x0, x1))
        more = own > np.maximum(greatest[here], COVERS)
        greatest[here][more] = own[more]
        piece_of[here][more] = piece["id"]
    return piece_of


def part_in(outlines, piece_of):
    """@return the piece that covers most of a part, how much of the part pieces cover, its longest side, px."""
    points = np.vstack(outlines)
    low, high = points.min(0), points.max(0) + 1
    mask = np.zeros((high - low)[::-1], np.uint8)
    cv2.fillPoly(mask, [np.array(outline, np.int32) - low.astype(np.int32) for outline in outlines], 1)
    under = piece_of[low[1]:high[1], low[0]:high[0]][mask > 0]
    pieces, counts = np.unique(under[under > 0], return_counts=True)
    hull = cv2.convexHull(points.astype(np.int32))[:, 0].astype(float)
    longest = np.sqrt(((hull[:, None] - hull) ** 2).sum(-1)).max() + 1
    return pieces[counts.argmax()] if len(pieces) else 0, (under > 0).mean(), longest


def contacts_of(photos, name, stages):
    """@return rows of features, two (1, 0; -1: not known), weight; the photo's layout and scene."""
    with open(os.path.join(stages, name + ".json")) as opened:
        document = json.load(opened)
    truth = known.read(photos, name)
    rows, layout, scene = [], truth["layout"], known.scene(truth)
    if document["contacts"]:
        corner = np.max([np.vstack(outlines).max(0) for outlines in document["parts"].values()], 0) + 1
        piece_of = true_pieces(truth, document, tuple(corner[::-1]))
        parts = {int(label): part_in(outlines, piece_of) for label, outlines in document["parts"].items()}
        for contact in document["contacts"]:
            (one, covered, long), (other, other_covered, other_long) = [parts[label] for label in contact["parts"]]
            two = -1 if min(covered, other_covered) < COVERED else int(one != other)
            size = min(long, other_long) / document["px_per_mm"]
            rows.append((contact["features"], two, 1.0 if size >= 0.75 * LEAST[layout] else SMALL))
    return document["contact_feature_names"], rows, layout, scene, photos


def show(two, chance, counts, which, title):
    known_ones = which & (two >= 0)
    if known_ones.sum() < 10:
        return
    said, there = chance[known_ones] >= TWO, two[known_ones] == 1
    print("%-18s %5d contacts, %.2f of them of two pieces; right %.3f; of two pieces parted %.3f, of one left whole %.3f" % (
        title, known_ones.sum(), there.mean(), (said == there).mean(), said[there].mean(), (~said[~there]).mean()))


def main():
    given, sources = given_photos(__doc__, "models/contact-trust.json", "-")
    torch.set_num_threads(1)
    photos = [contacts_of(folder, name, given.stages) for folder, name in sources]
    names = photos[0][0]
    every = [row for _, rows, *_ in photos for row in rows]
    features = np.clip(np.nan_to_num(np.array([row[0] for row in every], float)), -20, 20)
    two, counts = np.array([row[1] for row in every]), np.array([row[2] for row in every])
    spread = lambda key: np.repeat([key(photo) for photo in photos], [len(photo[1]) for photo in photos])
    scenes = sorted({photo[3] for photo in photos})
    fold = spread(lambda photo: scenes.index(photo[3]) % FOLDS)
    fit = lambda which: Nets(features[which], two[which].astype(float), counts[which], cross_entropy, nets=NETS, units=UNITS)
    chance = np.zeros(len(two))
    for held in range(FOLDS):
        chance[fold == held] = 1 / (1 + np.exp(-fit((fold != held) & (two >= 0)).answer(features[fold == held])))
    layout, folder = spread(lambda photo: photo[2]), spread(lambda photo: os.path.basename(os.path.normpath(photo[4])))
    for group in sorted(set(folder)):
        for one in LEAST:
            show(two, chance, counts, (layout == one) & (folder == group), "%s, %s" % (group, one))
    with open(given.out, "w") as opened:
        json.dump(dict(format="swarfbook contact trust 1", features=names, two_pieces=fit(two >= 0).written(),
                       two_pieces_probability=TWO), opened, indent=0)
        opened.write("\n")


if __name__ == "__main__":
    main()
