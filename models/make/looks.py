#!/usr/bin/env python3
# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""Fits the look model (what a candidate is, how its size is to be corrected) and writes looks.json.

    looks.py PHOTOS STAGES OUT.json [--more PHOTOS STAGES]... [--drawn PHOTOS STAGES]...

STAGES holds what swarfbook_candidates wrote, each photo judged by a piece model that never saw its
scene (pieces.py --leave-out K/3). --more: photos made of those (plain.py), judged likewise. --drawn, three times, K = 0, 1, 2: what scenes.py --of K/3 wrote, judged by
the model that left those scenes out. Prints how well the model does on scenes it never saw.
Needs python3-sklearn, python3-torch, python3-opencv, python3-scipy, python3-skimage."""
import argparse
import glob
import json
import os
import warnings

import numpy as np
import torch
from sklearn.linear_model import Ridge
from sklearn.neural_network import MLPClassifier
from sklearn.preprocessing import StandardScaler

import truth as known

CLASSES = ["bright metal", "yellow metal", "lining", "polymer", "fibre", "none"]
LEAST = dict(close=0.2, wide=0.4)  # mm: sizes are judged from here up
OFTEN = 3                          # so often counts what was not rendered here (rendered.py): it looks like photos to come
STAIN = 1.0                        # mm: rendered stains on paper are round with a sharp edge, as no stain is and discs are
OF_LIGHT = 4                       # the last features tell of the photo's light: for sizes alone, few photos being known
SMALL = 0.2                        # what a piece shorter than three quarters of that counts in sizes
FACTOR = 0.25                      # log: no size is corrected by more
MOST = 0.4                         # log: of an error that is learnt from
FOLDS = 3
NETS = 4
UNITS = 64
SURFACE = 4                        # candidates that are no debris, of drawn scenes: so many for each piece there


def class_of_rest(truth, one):
    """What is no match is no debris, unless it is a part of a piece or a crumb of gasket: left out."""
    k, window = truth["label_px_per_mm"], truth["window_mm"]
    u, v = int((one["x_mm"] - window["x"]) * k), int((one["y_mm"] - window["y"]) * k)
    reach = max(1, int(0.5 * one["min_feret_mm"] * k))
    under = truth["labels"][max(0, v - reach):v + reach + 1, max(0, u - reach):u + reach + 1]
    if under.size and (under > 0).mean() > 0.15:
        return None
    if truth.get("rendered") and truth["layout"] == "close" and one["max_feret_mm"] > STAIN:
        return None
    for thing in truth["confounders"]:
        if thing["kind"] == "gasket" and np.hypot(one["x_mm"] - thing["x_mm"], one["y_mm"] - thing["y_mm"]) < 0.75 * thing["max_feret_mm"]:
            return None
    return "none"


def rows_of(photos, stages):
    """@return features, class (or None), log of true over outlined size (or NaN), true size, scene, layout, how often
    it counts."""
    rows = []
    for file in sorted(glob.glob(os.path.join(stages, "*.json"))):
        with open(file) as opened:
            document = json.load(opened)
        truth = known.read(photos, document["name"])
        found = document["candidates"]
        classes, ratios, sizes = [None] * len(found), [np.nan] * len(found), [0.0] * len(found)
        matched = set()
        for i, j in known.match(truth["particles"], found):
            piece = truth["particles"][i]
            classes[j] = known.LOOK[piece["material"]]
            matched.add(j)
            if not piece["touching_window_edge"] and piece.get("visible_fraction", 1) >= 0.5:
                ratios[j], sizes[j] = np.log(piece["max_feret_mm"] / found[j]["max_feret_mm"]), piece["max_feret_mm"]
        rest = [j for j in range(len(found)) if j not in matched]
        several = [cluster for cluster in truth["clusters"] if len(cluster["members"]) > 1]
        clusters = {rest[j] for _, j in known.match(several, [found[j] for j in rest])}
        for j in rest:
            classes[j] = None if j in clusters else class_of_rest(truth, found[j])
        for j, one in enumerate(found):
            rows.append((one["features"], classes[j], ratios[j], sizes[j], known.scene(truth), truth["layout"],
                         1 if truth.get("rendered") else OFTEN))
    names = document["feature_names"]
    features = np.clip(np.nan_to_num(np.array([row[0] for row in rows], float), nan=0, posinf=10, neginf=-10), -20, 20)
    return names, features, *[np.array([row[i] for row in rows], object if i == 1 else None) for i in range(1, 7)]


def without_light(features):
    return np.c_[features[:, :-OF_LIGHT], np.zeros((len(features), OF_LIGHT))]


def fit_look(features, classes):
    """Nets that start differently: one alone depends on its start as much as on what is learnt."""
    scale = StandardScaler().fit(without_light(features))
    seen, classes = scale.transform(without_light(features)), classes.astype(str)
    nets = [MLPClassifier((64,), alpha=0.1, max_iter=120, learning_rate_init=3e-3, batch_size=256, random_state=start)
            .fit(seen, classes) for start in range(1, 1 + NETS)]
    for net in nets:
        net.coefs_[0][-OF_LIGHT:] = 0
    return scale, nets


def probabilities(scale, nets, features):
    """Of CLASSES, in order: softmax of the nets' mean answers."""
    seen = scale.transform(features)
    answers = np.mean([np.maximum(seen @ net.coefs_[0] + net.intercepts_[0], 0) @ net.coefs_[1] + net.intercepts_[1]
                       for net in nets], 0)
    answers = answers[:, [list(nets[0].classes_).index(kind) for kind in CLASSES]]
    answers = np.exp(answers - answers.max(1, keepdims=True))
    return answers / answers.sum(1, keepdims=True)


def fit_size(features, logs, counts):
    """Nets that start differently and no longer heed an error's square once it is large (Huber), as outlines that
    lost half of a piece cannot be mended. @return scale, per net (hidden weights, biases, output weights, bias), the
    spread that is left, linear."""
    scale = StandardScaler().fit(features)
    seen, asked = scale.transform(features), 10 * np.clip(logs, -MOST, MOST)
    nets = [size_net(start, *(torch.tensor(column, dtype=torch.float32) for column in (seen, asked, counts))) for start in range(NETS)]
    left = np.abs(logs - corrected(scale, nets, features))
    spread = Ridge(400.0).fit(seen, np.log(np.maximum(left, 0.01)))
    return scale, nets, spread


def size_net(start, seen, asked, counts, passes=60, batch=128):
    torch.manual_seed(start)
    net = torch.nn.Sequential(torch.nn.Linear(seen.shape[1], UNITS), torch.nn.ReLU(), torch.nn.Dropout(0.3), torch.nn.Linear(UNITS, 1))
    optimiser = torch.optim.AdamW(net.parameters(), weight_decay=0.1)
    pace = torch.optim.lr_scheduler.OneCycleLR(optimiser, 6e-3, total_steps=passes * -(-len(seen) // batch))
    for _ in range(passes):
        for these in torch.randperm(len(seen)).split(batch):
            loss = (counts[these] * torch.nn.functional.huber_loss(net(seen[these])[:, 0], asked[these], reduction="none", delta=0.5)).mean()
            optimiser.zero_grad()
            loss.backward()
            optimiser.step()
            pace.step()
    hidden, _, _, last = net
    return [weights.detach().double().numpy() for weights in (hidden.weight, hidden.bias, last.weight[0], last.bias[0])]


def corrected(scale, nets, features):
    seen = scale.transform(features)
    logs = np.mean([np.maximum(seen @ hidden.T + bias, 0) @ last + shift for hidden, bias, last, shift in nets], 0) / 10
    return np.clip(logs, -FACTOR, FACTOR)


def spread_of(scale, spread, features):
    return np.clip(np.exp(spread.predict(scale.transform(features))), 0.02, 0.5)


def counts_of(sizes, layouts, often):
    """How much a piece counts in fitting sizes."""
    return often * np.where(sizes >= 0.75 * np.array([LEAST[layout] for layout in layouts]), 1.0, SMALL)


def judged_unseen(features, classes, logs, counts, often, folds):
    """Whole scenes left out in turn. @return probability of debris, log of the size's correction, spread that is left."""
    learnt, sized = np.array([c is not None for c in classes]), ~np.isnan(logs)
    chance, log, spread = np.zeros(len(logs)), np.zeros(len(logs)), np.ones(len(logs))
    for fold in range(FOLDS):
        held = folds == fold
        scale, nets = fit_look(*(column[learnt & ~held].repeat(often[learnt & ~held], 0) for column in (features, classes)))
        chance[held] = 1 - probabilities(scale, nets, features[held])[:, CLASSES.index("none")]
        scale, nets, left = fit_size(*(column[sized & ~held] for column in (features, logs, counts)))
        log[held], spread[held] = corrected(scale, nets, features[held]), spread_of(scale, left, features[held])
    return chance, log, spread


def asked_for(logs, sizes, layouts):
    return ~np.isnan(logs) & (sizes >= np.array([LEAST[layout] for layout in layouts]))


def factor_of(log, spread, logs, asked):
    """The factor on the spread that makes intervals hold 95 %."""
    return np.percentile(np.abs(np.exp(log - logs) - 1)[asked] / spread[asked], 95) / 1.96


def show_unseen(classes, logs, sizes, layouts, often, chance, log, spread):
    learnt, asked = np.array([c is not None for c in classes]), asked_for(logs, sizes, layouts)
    error, factor = np.exp(log - logs) - 1, factor_of(log, spread, logs, asked & (often == OFTEN))
    for layout in LEAST:
        here = layouts == layout
        yes = chance >= 0.5
        true = here & learnt & (classes != "none")
        print("%-5s kept of pieces %.3f, of others %.3f" % (layout, yes[true].mean(), yes[here & (classes == "none")].mean()))
        these = asked & here
        for what, e in (("as outlined", np.exp(-logs) - 1), ("corrected", error)):
            size = np.abs(e[these])
            print("%-5s size %-11s median %.3f, 95th percentile %.3f" % (layout, what, np.median(size), np.percentile(size, 95)))
        print("%-5s in 95 %% interval %.3f" % (layout, (np.abs(error[these]) <= 1.96 * factor * spread[these]).mean()))


def fewer_of_surface(rows, rng):
    """Drawn scenes hold far more that is no debris than photos do: some of it is enough."""
    classes = rows[1]
    none = np.flatnonzero(classes == "none")
    keep = np.ones(len(classes), bool)
    many = SURFACE * int(sum(kind not in (None, "none") for kind in classes))
    keep[rng.permutation(none)[many:]] = False
    return [column[keep] for column in rows]


def all_rows(photos, stages, more, drawn):
    """@param more, drawn  pairs of photos and stages
    @return feature names, then columns of photos and drawn scenes together, the scene's fold in place of the scene."""
    names = rows_of(photos, stages)[0]
    parts = [list(rows_of(*pair)[1:]) for pair in [(photos, stages), *more]]
    scenes = sorted(set(parts[0][4]))
    for rows in parts:
        rows[4] = np.array([scenes.index(scene) % FOLDS for scene in rows[4]])
    for fold, (pictures, seen) in enumerate(drawn):
        more = fewer_of_surface(rows_of(pictures, seen)[1:], np.random.default_rng(fold))
        more[4] = np.full(len(more[4]), fold)
        parts.append(more)
    return names, *[np.concatenate(column) for column in zip(*parts)]


def numbers(values):
    return [float("%.5g" % value) for value in np.ravel(values)]


def layers(scale, hidden, hidden_bias, output, output_bias):
    return dict(mean=numbers(scale.mean_), scale=numbers(scale.scale_),
                hidden=dict(weights=numbers(hidden), bias=numbers(hidden_bias)),
                output=dict(weights=numbers(output), bias=numbers(output_bias)))


def sources(description):
    words = argparse.ArgumentParser(description=description, formatter_class=argparse.RawDescriptionHelpFormatter)
    for name in ("photos", "stages", "out"):
        words.add_argument(name)
    words.add_argument("--more", nargs=2, action="append", default=[])
    words.add_argument("--drawn", nargs=2, action="append", default=[])
    return words


def main():
    given = sources(__doc__).parse_args()
    warnings.filterwarnings("ignore")
    names, features, classes, logs, sizes, folds, layouts, often = all_rows(given.photos, given.stages, given.more, given.drawn)
    logs = logs.astype(float)
    counts = counts_of(sizes, layouts, often)
    for kind in CLASSES:
        print(kind, int((classes == kind).sum()))
    unseen = judged_unseen(features, classes, logs, counts, often, folds)
    show_unseen(classes, logs, sizes, layouts, often, *unseen)
    factor = factor_of(*unseen[1:], logs, asked_for(logs, sizes, layouts) & (often == OFTEN))
    learnt, sized = np.array([c is not None for c in classes]), ~np.isnan(logs)
    scale, nets = fit_look(*(column[learnt].repeat(often[learnt], 0) for column in (features, classes)))
    order = [list(nets[0].classes_).index(kind) for kind in CLASSES]
    look = layers(scale, np.concatenate([net.coefs_[0].T for net in nets]), np.concatenate([net.intercepts_[0] for net in nets]),
                  np.concatenate([net.coefs_[1].T[order] for net in nets], 1) / NETS,
                  np.mean([net.intercepts_[1][order] for net in nets], 0))
    scale, nets, spread = fit_size(*(column[sized] for column in (features, logs, counts)))
    hidden, bias, last, shift = zip(*nets)
    size = layers(scale, np.concatenate(hidden), np.concatenate(bias), np.concatenate(last) / 10 / NETS, np.mean(shift) / 10)
    size.update(spread_weights=numbers(spread.coef_), spread_bias=float(spread.intercept_), spread_factor=float(factor))
    with open(given.out, "w") as file:
        json.dump(dict(format="swarfbook look model 3", classes=CLASSES, features=names, **look, size=size,
                       debris_share=float(np.mean(classes[learnt] != "none")), debris_probability=0.3,
                       look_probability=0.55), file, indent=0)


if __name__ == "__main__":
    main()
