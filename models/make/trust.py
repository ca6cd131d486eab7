#!/usr/bin/env python3
# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""Fits how far the network's answers can be trusted, on photos that it never learnt from, and writes piece-trust.json.

    trust.py STAGES PHOTOS [PHOTOS...] [--program swarfbook_candidates] [--network models/pieces.onnx]
             [--contacts models/contact-trust.json] [--out models/piece-trust.json] [--leave-out REGEX]

All of it, from the project's folder, the size limit too (a minute, and one to three seconds for each photo):

    models/make/trust.py STAGES PHOTOS && models/make/detection.py STAGES/unseen

PHOTOS holds photos with truth/ beside them, as truth.py reads it; bad photos, magnets and those of --leave-out are passed
over. For
each photo STAGES/name.json is written by the program (built with -DSWARFBOOK_BENCHMARKS=ON) where it is not there: delete
STAGES when the network or the trust in contacts is another. Photos of one scene are judged by a fit without that scene; those judgements go to
STAGES/unseen, for detection.py and tests/benchmark/stages.py, and how good they are is printed.
Needs python3-sklearn, python3-torch, python3-opencv, python3-scipy, python3-skimage."""
import json
import os
import sys
import warnings

import numpy as np
import torch
from sklearn.linear_model import Ridge
from sklearn.preprocessing import StandardScaler

from finds import FOLDS, LEAST, Finds, given_photos, rows_of

LOOKS = ["bright metal", "yellow metal", "lining", "polymer", "fibre"]
LOOK_FEATURES = ["brightMetal", "yellowMetal", "lining", "polymer", "fibre", "logPixels", "meanAnswer", "aspect", "solidity", "unsurePhoto",
                 "whiteHigh", "whiteLow", "photoTypeDoubt", "doubtedBright", "doubtedYellow", "doubtedLining", "doubtedPolymer", "doubtedFibre"]
NETS, UNITS = 8, 20
FACTOR = 0.25    # log: the largest correction of a size
MOST = 0.4       # log: the largest error that is learnt from
SPREAD = (0.01, 0.5)
NEARLY = 0.0005  # of F1
UNDECIDED = 0.5  # a type less probable than this is not stated
OVER_PLASTIC = 0.82  # lining is not stated below this share of lining and plastic alone: plastic called lining points at a clutch
UNDECIDED_METAL = 0.7  # a type is not stated if neither 'metal' nor 'not metal' is this probable


# ---------------------------------------------------------------- fits
def net(seen, asked, counts, loss, start, units, answers=1):
    """One hidden layer. @return hidden weights, biases, output weights (of each answer), biases."""
    torch.manual_seed(start)
    model = torch.nn.Sequential(torch.nn.Linear(seen.shape[1], units), torch.nn.ReLU(), torch.nn.Dropout(0.1), torch.nn.Linear(units, answers))
    optimiser = torch.optim.AdamW(model.parameters(), weight_decay=0.1)
    passes, batch = 40, 256
    pace = torch.optim.lr_scheduler.OneCycleLR(optimiser, 1e-2, total_steps=passes * -(-len(seen) // batch))
    for _ in range(passes):
        for these in torch.randperm(len(seen)).split(batch):
            cost = (counts[these] * loss(model(seen[these]), asked[these])).mean()
            optimiser.zero_grad()
            cost.backward()
            optimiser.step()
            pace.step()
    hidden, _, _, last = model
    return [weights.detach().double().numpy() for weights in (hidden.weight, hidden.bias, last.weight, last.bias)]


class Nets:
    """The mean answer of nets with different starts, as a single one depends on its start."""

    def __init__(self, features, asked, counts, loss, unit=1.0, nets=NETS, units=UNITS, answers=1):
        self.scale = StandardScaler().fit(features)
        tensors = [torch.tensor(column, dtype=torch.float32) for column in (self.scale.transform(features), asked / unit, counts)]
        self.nets, self.unit = [net(*tensors, loss, start, units, answers) for start in range(nets)], unit

    def answers(self, features):
        seen = self.scale.transform(features)
        return self.unit * np.mean([np.maximum(seen @ hidden.T + bias, 0) @ last.T + shift for hidden, bias, last, shift in self.nets], 0)

    def answer(self, features):
        return self.answers(features)[:, 0]

    def as_one(self):
        """@return hidden weights, biases, output weights, biases of the one net that gives the mean answers"""
        hidden, bias, last, shift = zip(*self.nets)
        return (np.concatenate(hidden), np.concatenate(bias), np.concatenate(last, 1) * self.unit / len(self.nets),
                np.mean(shift, 0) * self.unit)

    def written(self):
        hidden, bias, last, shift = self.as_one()
        return layers(self.scale, (hidden, bias), (last, shift))


def cross_entropy(answer, asked):
    return torch.nn.functional.binary_cross_entropy_with_logits(answer[:, 0], asked, reduction="none")


def huber(answer, asked):
    return torch.nn.functional.huber_loss(answer[:, 0], asked, reduction="none", delta=0.5)


def cross_entropy_of_types(answer, asked):
    """@param asked  logarithms of the types' mean shares, to which the answer is added; the true type's number"""
    many = answer.shape[1]
    return torch.nn.functional.cross_entropy(asked[:, :many] + answer, asked[:, many].long(), reduction="none")


class Look:
    """Nets that correct the logarithms of the types' mean shares by how the piece and the photo look."""

    def __init__(self, finds, which):
        self.shares = [finds.names.index(name) for name in LOOK_FEATURES[:len(LOOKS)]]
        used = np.isin(finds.names, LOOK_FEATURES)
        self.used, features = used, finds.features[which]
        asked = np.c_[features[:, self.shares], [LOOKS.index(look) for look in finds.look[which]]]
        counts = finds.counts_by_folder()[which]
        self.nets = Nets(features * used, asked, counts / counts.mean(), cross_entropy_of_types, answers=len(LOOKS))

    def answer(self, features):
        answers = features[:, self.shares] + self.nets.answers(features * self.used)
        answers = np.exp(answers - answers.max(1, keepdims=True))
        return answers / answers.sum(1, keepdims=True)

    def written(self):
        """As one net: two more hidden units for each type pass the logarithm of its share on, above and below its mean."""
        hidden, bias, last, shift = self.nets.as_one()
        scale, many = self.nets.scale, len(LOOKS)
        passed = np.zeros((2 * many, hidden.shape[1]))
        passed[np.arange(many), self.shares], passed[np.arange(many) + many, self.shares] = 1, -1
        spread = np.diag(scale.scale_[self.shares])
        return layers(scale, (np.r_[hidden * self.used, passed], np.r_[bias, np.zeros(2 * many)]),
                      (np.c_[last, spread, -spread], shift + scale.mean_[self.shares]))


class Trust:
    """Everything that is fitted to some of the finds."""

    def __init__(self, finds, which):
        debris, sized, looked = which & (finds.debris >= 0) & finds.shown, which & ~np.isnan(finds.log), which & (finds.look != "")
        counts = finds.counts_by_maker()
        self.debris = Nets(finds.features[debris], finds.debris[debris], counts[debris], cross_entropy)
        self.look = Look(finds, looked)
        self.size = Nets(finds.features[sized], np.clip(finds.log[sized], -MOST, MOST), counts[sized], huber, 0.1)
        left = np.log(np.maximum(np.abs(finds.log[sized] - self.log_size(finds.features[sized])), 0.01))
        self.spread_scale = StandardScaler().fit(finds.features[sized])
        self.spread = Ridge(100.0).fit(self.spread_scale.transform(finds.features[sized]), left, sample_weight=counts[sized])

    def chance(self, features):
        return 1 / (1 + np.exp(-self.debris.answer(features)))

    def log_size(self, features):
        return np.clip(self.size.answer(features), -FACTOR, FACTOR)

    def spread_of(self, features):
        """Nearly the median of the remaining error; times the common factor it is a standard uncertainty."""
        return np.exp(self.spread.predict(self.spread_scale.transform(features)))


class Unseen:
    """Every find judged by a fit without its scene."""

    def __init__(self, finds):
        many = len(finds.debris)
        self.chance, self.log, self.spread, self.look = np.zeros(many), np.zeros(many), np.ones(many), np.zeros((many, len(LOOKS)))
        for fold in range(FOLDS):
            held = finds.fold == fold
            trust = Trust(finds, ~held)
            seen = finds.features[held]
            self.chance[held], self.log[held], self.spread[held] = trust.chance(seen), trust.log_size(seen), trust.spread_of(seen)
            self.look[held] = trust.look.answer(seen)
        self.asked = ~np.isnan(finds.log) & (finds.size >= finds.least)
        off = np.abs(np.exp(self.log - finds.log) - 1)
        self.factor = np.percentile(off[self.asked] / self.spread[self.asked], 95) / 1.96
        self.spread = np.clip(self.factor * self.spread, *SPREAD)


# ---------------------------------------------------------------- figures
def best_threshold(finds, unseen):
    """Where recall and precision among the finds balance best, over both cards and all makers of photos; of limits that
    are as good within NEARLY the lowest, as more is missed than is counted wrongly."""
    large = (finds.debris >= 0) & (finds.outlined * np.exp(unseen.log) >= finds.least)

    def mean_f1(limit):
        kept = unseen.chance >= limit
        scores = [2 * (kept & which & (finds.debris == 1)).sum() / max(1, (kept & which).sum() + (which & (finds.debris == 1)).sum())
                  for which in [large & (finds.layout == layout) & (finds.maker == maker) for layout in LEAST for maker in set(finds.maker)]
                  if which.any()]
        return np.mean(scores)

    limits = np.arange(0.25, 0.66, 0.05)
    scores = np.array([mean_f1(limit) for limit in limits])
    for limit, score in zip(limits, scores):
        print("kept from a probability of %.2f on: F1 among the finds %.4f" % (limit, score))
    smooth = np.convolve(scores, np.ones(3) / 3, "valid")  # single scores jump by chance
    return float(np.round(limits[1:-1][smooth >= smooth.max() - NEARLY][0], 2))


def show(finds, unseen, limit):
    for group in sorted(set(finds.set)):
        for layout in LEAST:
            here = (finds.layout == layout) & (finds.set == group)
            if here.any():
                show_part(finds, unseen, here, limit, "%s, %s" % (os.path.basename(os.path.normpath(group)), layout))


def show_part(finds, unseen, here, limit, title):
    kept = unseen.chance >= limit
    large = here & (finds.outlined * np.exp(unseen.log) >= finds.least)
    true, false = large & (finds.debris == 1), large & (finds.debris == 0)
    print("%-18s kept of %d true finds %.3f, of %d others %.3f; others expected by probability %.1f, there %d" % (
        title, true.sum(), kept[true].mean(), false.sum(), kept[false].mean() if false.any() else np.nan,
        (1 - unseen.chance)[kept & (true | false)].sum(), (kept & false).sum()))
    these = unseen.asked & here
    for what, log in (("as outlined", 0.0), ("corrected", unseen.log)):
        off = np.exp(log - finds.log[these] if np.isscalar(log) else log[these] - finds.log[these]) - 1
        print("%-18s longest side %-11s off %.1f %% (median), %.1f %% (95th percentile), bias %+.1f %%" % (
            title, what, *(100 * np.percentile(np.abs(off), [50, 95])), 100 * np.median(off)))
    off = np.abs(np.exp(unseen.log - finds.log)[these] - 1)
    print("%-18s in the 95 %% interval %.3f of %d" % (title, (off <= 1.96 * unseen.spread[these]).mean(), these.sum()))
    show_looks(finds.look[these], unseen.look[these], title)


def show_looks(true, answers, title):
    said, chance = np.array(LOOKS)[answers.argmax(1)], answers.max(1)
    metal, is_metal = np.array(LOOKS[:2]), answers[:, :2].sum(1)
    stated = (chance >= UNDECIDED) & (np.maximum(is_metal, 1 - is_metal) >= UNDECIDED_METAL)
    lining, plastic = LOOKS.index("lining"), LOOKS.index("polymer")
    stated &= (said != "lining") | (answers[:, lining] >= OVER_PLASTIC * (answers[:, lining] + answers[:, plastic]))
    print("%-18s plastic called lining %d of %d, lining stated as such %d of %d" % (
        title, (stated & (said == "lining") & (true == "polymer")).sum(), (true == "polymer").sum(),
        (stated & (said == "lining") & (true == "lining")).sum(), (true == "lining").sum()))
    scores = [2 * ((said == look) & (true == look) & stated).sum() / max(1, ((said == look) & stated).sum() + (true == look).sum())
              for look in LOOKS if (true == look).any()]
    right_metal = (np.isin(said, metal) == np.isin(true, metal))[stated].mean()
    print("%-18s type: macro F1 %.3f, %.1f %% undecided, metal or not right %.3f of the others" % (
        title, np.mean(scores), 100 * (~stated).mean(), right_metal))
    bands = [(low, stated & (chance >= low) & (chance < low + 0.1)) for low in (0.5, 0.6, 0.7, 0.8, 0.9)]
    print("%-18s stated and right: %s" % (title, ", ".join("%.2f %.2f (%d)" % (chance[band].mean(), (said == true)[band].mean(), band.sum())
                                                           for _, band in bands if band.any())))


# ---------------------------------------------------------------- output
def numbers(values):
    return [float("%.5g" % value) for value in np.ravel(values)]


def layers(scale, *pairs):
    return dict(mean=numbers(scale.mean_), scale=numbers(scale.scale_),
                layers=[dict(weights=numbers(weights), bias=numbers(bias)) for weights, bias in pairs])


def write_trust(file, finds, trust, unseen, limit):
    spread = layers(trust.spread_scale, (trust.spread.coef_, trust.spread.intercept_ + np.log(unseen.factor)))
    with open(file, "w") as opened:
        json.dump(dict(format="swarfbook piece trust 1", features=finds.names, debris=trust.debris.written(), type=trust.look.written(),
                       size=trust.size.written(), spread=spread, debris_probability=limit, type_probability=UNDECIDED,
                       metal_probability=UNDECIDED_METAL, lining_over_plastic=OVER_PLASTIC), opened, indent=0)
        opened.write("\n")


def write_unseen(folder, documents, unseen, limit):
    os.makedirs(folder, exist_ok=True)
    first = 0
    for document in documents:
        for at, one in enumerate(document["candidates"], first):
            one["x_mm"], one["y_mm"] = one.pop("card_x_mm"), one.pop("card_y_mm")
            one["debris"] = unseen.chance[at]
            one["corrected_feret_mm"] = one["max_feret_mm"] * np.exp(unseen.log[at])
            one["look"], one["look_probability"] = LOOKS[int(unseen.look[at].argmax())], float(unseen.look[at].max())
            one["corrected_feret_u_mm"] = one["corrected_feret_mm"] * unseen.spread[at]
        first += len(document["candidates"])
        document["debris_probability"] = limit
        with open(os.path.join(folder, document["name"] + ".json"), "w") as file:
            json.dump(document, file)


def main():
    given, sources = given_photos(__doc__, "models/piece-trust.json", "models/contact-trust.json")
    warnings.filterwarnings("ignore")
    torch.set_num_threads(1)
    read = [rows_of(photos, name, given.stages) for photos, name in sources]
    if not read:
        sys.exit("No photo with truth could be measured.")
    documents, rows = zip(*read)
    finds = Finds(documents, rows)
    print("%d photos, %d finds: %d true, %d others, %d not known" % (
        len(documents), len(finds.debris), *[(finds.debris == value).sum() for value in (1, 0, -1)]))
    unseen = Unseen(finds)
    limit = best_threshold(finds, unseen)
    show(finds, unseen, limit)
    write_trust(given.out, finds, Trust(finds, np.ones(len(finds.debris), bool)), unseen, limit)
    write_unseen(os.path.join(given.stages, "unseen"), documents, unseen, limit)


if __name__ == "__main__":
    main()
