#!/usr/bin/env python3
# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""Fits the cut model (whether a cut through an outline parts two pieces, or a piece from what is none) and writes
cuts.json.

    cuts.py PHOTOS STAGES OUT.json [--more PHOTOS STAGES]... [--leave-out K/3]

STAGES holds what swarfbook_candidates --uncut wrote, each photo judged by a piece model that never saw its scene (pieces.py --leave-out K/3). --more: photos made of those
(touching.py), judged likewise. --leave-out 0/3 leaves every third scene out, starting with the first. Without it,
prints how well the model does on scenes it never saw.
Needs python3-torch, python3-opencv, python3-scipy, python3-skimage."""
import argparse
import glob
import json
import os

import cv2
import numpy as np
import torch

import truth as known

OUTCOMES = ["through a piece", "between pieces", "small is none", "large is none"]
REAL = 3.0          # so often counts what was photographed or rendered as it lay
UNITS, DROPPED = 64, 0.25
PASSES, BATCH, PACE, DECAY = 40, 256, 5e-3, 0.03
PROBABILITY = 0.85  # from which on a cut is made
FOLDS = 3
COVERED = 100       # of 255: a pixel shows the piece


def pieces_in(truth, origin, size):
    """Which piece each pixel of the window shows; 0 where it shows none."""
    ids, most = np.zeros(size, np.int32), np.zeros(size, np.uint8)
    for piece in truth["particles"]:
        found = known.coverage(truth, piece)
        if found is None:
            continue
        (u, v), share = found
        u, v = u - int(origin[0]), v - int(origin[1])
        a, b = max(u, 0), max(v, 0)
        target = np.s_[b:v + share.shape[0], a:u + share.shape[1]]
        shown = ids[target].shape
        own = share[b - v:b - v + shown[0], a - u:a - u + shown[1]]
        better = (own > COVERED) & (own > most[target])
        ids[target][better], most[target][better] = piece["id"], own[better]
    return ids


def sides_of(outline, cut, ids):
    """@return of the smaller and the larger side, the piece that each pixel shows and whether one is within a pixel."""
    low = np.maximum(np.floor(outline.min(0)).astype(int) - 1, 0)
    high = np.ceil(outline.max(0)).astype(int) + 2
    part = ids[low[1]:high[1], low[0]:high[0]]
    near = cv2.dilate((part > 0).astype(np.uint8), np.ones((3, 3), np.uint8))

    def mask_of(points):
        mask = np.zeros(part.shape, np.uint8)
        cv2.fillPoly(mask, [np.round((points - low) * 16).astype(np.int32)], 1, cv2.LINE_8, 4)
        return mask > 0
    first, last = cut["from"], cut["to"]
    one = mask_of(outline[first:last + 1])
    other = mask_of(np.vstack([outline[last:], outline[:first + 1]])) & ~one
    return [(part[side], near[side] > 0) for side in sorted((one, other), key=lambda side: side.sum())]


def outcome_of(outline, cut, ids):
    """@return index of OUTCOMES; None where it is not clear or nothing is at stake."""
    small, large = sides_of(outline, cut, ids)
    if len(small[0]) < 4:
        return None
    shown = [(side > 0).sum() for side, _ in (small, large)]
    near = [close.mean() for _, close in (small, large)]
    if max(shown) == 0:
        return None
    for own, other in ((0, 1), (1, 0)):
        if near[own] <= 0.25 and near[other] >= 0.5 and shown[own] <= 0.1 * sum(shown):
            return 2 + own
    if min(shown) == 0:
        return 0 if min(near) > 0.5 else None
    many = max(small[0].max(), large[0].max()) + 1
    counts = [np.bincount(side, minlength=many) for side, _ in (small, large)]
    for count in counts:
        count[0] = 0
    both, (i, j) = counts[0] + counts[1], [int(count.argmax()) for count in counts]
    if i == j:
        return 0 if min(near) > 0.4 else None
    apart = min(counts[0][i] / both[i], counts[1][j] / both[j])
    if apart >= 0.75 and counts[0][i] >= 0.6 * shown[0] and counts[1][j] >= 0.6 * shown[1] and min(near) > 0.4:
        return 1
    return 0 if apart < 0.6 else None


def rows_of(photos, stages, real):
    """@return feature names; features, outcome, scene, layout, candidate, debris, whether real: a row per cut."""
    rows, names = [], None
    for file in sorted(glob.glob(os.path.join(stages, "*.json"))):
        with open(file) as opened:
            document = json.load(opened)
        names = document["cut_feature_names"]
        truth = known.read(photos, document["name"])
        inside = cv2.imread(file[:-5] + "-inside.png", -1)
        ids = pieces_in(truth, document["origin_px"], inside.shape[:2])
        for number, one in enumerate(document["candidates"]):
            outline = np.array(one["outline_px"])
            for cut in one["cuts"]:
                outcome = outcome_of(outline, cut, ids)
                if outcome is not None:
                    rows.append((cut["features"], outcome, known.scene(truth), truth["layout"],
                                 (document["name"], number), one["debris"] >= document["debris_probability"], real))
    return names, rows


def sides_swapped(names, features, outcomes):
    """The same cuts with the larger side named first: what tells a piece from its shadow is the same for either."""
    swapped, at = features.copy(), {name: i for i, name in enumerate(names)}
    for name in names:
        if name.startswith("small") and "large" + name[5:] in at:
            a, b = at[name], at["large" + name[5:]]
            swapped[:, [a, b]] = features[:, [b, a]]
    swapped[:, at["smallArea"]] = features[:, at["smallArea"]] - features[:, at["areaRatio"]]
    for name in ("areaRatio", "castToward"):
        swapped[:, at[name]] *= -1
    return swapped, np.array([0, 1, 3, 2])[outcomes]


def fit(names, features, outcomes, weights):
    other_way = sides_swapped(names, features, outcomes)
    features, outcomes = np.vstack([features, other_way[0]]), np.concatenate([outcomes, other_way[1]])
    weights = np.tile(weights, 2)
    mean, scale = features.mean(0), features.std(0) + 1e-6
    seen = torch.tensor((features - mean) / scale, dtype=torch.float32)
    asked, weights = torch.tensor(outcomes), torch.tensor(weights, dtype=torch.float32)
    torch.manual_seed(0)
    net = torch.nn.Sequential(torch.nn.Linear(seen.shape[1], UNITS), torch.nn.ReLU(), torch.nn.Dropout(DROPPED),
                              torch.nn.Linear(UNITS, UNITS), torch.nn.ReLU(), torch.nn.Dropout(DROPPED),
                              torch.nn.Linear(UNITS, len(OUTCOMES)))
    optimiser = torch.optim.AdamW(net.parameters(), weight_decay=DECAY)
    pace = torch.optim.lr_scheduler.OneCycleLR(optimiser, PACE, total_steps=PASSES * -(-len(seen) // BATCH))
    for _ in range(PASSES):
        for these in torch.randperm(len(seen)).split(BATCH):
            loss = (weights[these] * torch.nn.functional.cross_entropy(net(seen[these]), asked[these], reduction="none")).mean()
            optimiser.zero_grad()
            loss.backward()
            optimiser.step()
            pace.step()
    net.eval()
    return mean, scale, net


def judged(model, features):
    mean, scale, net = model
    with torch.no_grad():
        return torch.softmax(net(torch.tensor((features - mean) / scale, dtype=torch.float32)), 1).numpy()


def show_unseen(chance, outcomes, layouts, candidates, kept, real):
    """Of each outline the likeliest cut alone, as the program takes it."""
    for layout in ("close", "wide"):
        here = np.flatnonzero((layouts == layout) & kept & real)
        best = {}
        for i in here:
            if candidates[i] not in best or chance[i, 0] < chance[best[candidates[i]], 0]:
                best[candidates[i]] = i
        best = np.array(list(best.values()))
        there = [len({candidates[i] for i in here if outcomes[i] == kind}) for kind in (1, 2, 3)]
        print("%s: outlines %d; %s" % (layout, len(best), ", ".join("%s in %d" % pair for pair in zip(OUTCOMES[1:], there))))
        for least in (0.5, 0.6, 0.7, 0.8, 0.9):
            cut = best[1 - chance[best, 0] >= least]
            kind = chance[cut, 1:].argmax(1) + 1
            print("  from %.1f on: %s" % (least, ", ".join("%s %d right %d wrong" % (
                OUTCOMES[k], (outcomes[cut[kind == k]] == k).sum(), (outcomes[cut[kind == k]] != k).sum()) for k in (1, 2, 3))))


def numbers(values):
    return [float("%.5g" % value) for value in np.ravel(values)]


def main():
    words = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    for word in ("photos", "stages", "out"):
        words.add_argument(word)
    words.add_argument("--more", nargs=2, action="append", default=[])
    words.add_argument("--leave-out", default=None)
    given = words.parse_args()
    names, rows = rows_of(given.photos, given.stages, True)
    scenes = sorted({row[2] for row in rows})
    for pair in given.more:
        rows += rows_of(*pair, False)[1]
    features = np.clip(np.nan_to_num(np.array([row[0] for row in rows], float)), -20, 20)
    outcomes, layouts = np.array([row[1] for row in rows]), np.array([row[3] for row in rows])
    folds = np.array([scenes.index(row[2]) % FOLDS if row[2] in scenes else -1 for row in rows])
    kept, real = np.array([row[5] for row in rows]), np.array([row[6] for row in rows])
    weights = np.where(real, REAL, 1.0)
    print("cuts: " + ", ".join("%s %d" % (name, (outcomes == k).sum()) for k, name in enumerate(OUTCOMES)))
    if given.leave_out is None:
        chance = np.zeros((len(rows), len(OUTCOMES)))
        for fold in range(FOLDS):
            held = folds == fold
            chance[held] = judged(fit(names, features[~held], outcomes[~held], weights[~held]), features[held])
        show_unseen(chance, outcomes, layouts, [row[4] for row in rows], kept, real)
        learnt = np.ones(len(rows), bool)
    else:
        learnt = folds != int(given.leave_out.split("/")[0])
    mean, scale, net = fit(names, features[learnt], outcomes[learnt], weights[learnt])
    layers = [dict(weights=numbers(layer.weight.detach()), bias=numbers(layer.bias.detach()))
              for layer in net if isinstance(layer, torch.nn.Linear)]
    with open(given.out, "w") as file:
        json.dump(dict(format="swarfbook cut model 1", features=names, outcomes=OUTCOMES, mean=numbers(mean), scale=numbers(scale),
                       layers=layers, probability=PROBABILITY), file, indent=0)


if __name__ == "__main__":
    main()
