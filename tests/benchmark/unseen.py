#!/usr/bin/env python3
# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""Stages of photos as models see them that never met the photo's scene: how well the product does on photos yet to
come.

    unseen.py PHOTOS STAGES OUT [--more PHOTOS STAGES]... [--drawn PHOTOS STAGES]...

Takes what models/make/looks.py takes: STAGES holds what swarfbook_candidates wrote, each photo judged by a piece
model that never saw its scene (pieces.py --leave-out K/3). Writes the same documents to the folder OUT, each candidate
judged by a look model that was fitted without a third of the scenes, its own among them, and at the photo's own share
of debris (src/debris/debris_share.h). stages.py and floor.py read them.
Needs python3-sklearn, python3-opencv, python3-scipy, python3-skimage."""
import glob
import json
import os
import sys
import warnings

import numpy as np

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "../../models/make"))
import looks  # noqa: E402

AS_IF_MORE = 20.0  # as src/debris/debris_share.cpp


def at_own_share(chance, learnt):
    """As src/debris/debris_share.cpp."""
    chance = np.clip(chance, 1e-6, 1 - 1e-6)
    evidence = chance / (1 - chance) * (1 - learnt) / learnt
    share = learnt
    for _ in range(200):
        share = (AS_IF_MORE * learnt + (share * evidence / (share * evidence + 1 - share)).sum()) / (len(chance) + AS_IF_MORE)
    share = min(share, learnt)
    return share * evidence / (share * evidence + 1 - share)


def main():
    given = looks.sources(__doc__).parse_args()
    warnings.filterwarnings("ignore")
    _, features, classes, logs, sizes, folds, layouts, often = looks.all_rows(given.photos, given.stages, given.more, given.drawn)
    logs = logs.astype(float)
    chance, log, spread = looks.judged_unseen(features, classes, logs, looks.counts_of(sizes, layouts, often), often, folds)
    looks.show_unseen(classes, logs, sizes, layouts, often, chance, log, spread)
    factor = looks.factor_of(log, spread, logs, looks.asked_for(logs, sizes, layouts) & (often == looks.OFTEN))
    learnt = np.mean([c != "none" for c in classes if c is not None])
    os.makedirs(given.out, exist_ok=True)
    first = 0
    for file in sorted(glob.glob(os.path.join(given.stages, "*.json"))):
        with open(file) as opened:
            document = json.load(opened)
        own = np.s_[first:first + len(document["candidates"])]
        first = own.stop
        own_chance = at_own_share(chance[own], learnt)
        for one, debris, factor_log, left in zip(document["candidates"], own_chance, log[own], spread[own]):
            longest = one["max_feret_mm"] * np.exp(factor_log)
            one.update(debris=debris, corrected_feret_mm=longest, corrected_feret_u_mm=longest * factor * left)
        with open(os.path.join(given.out, os.path.basename(file)), "w") as out:
            json.dump(document, out)


if __name__ == "__main__":
    main()
