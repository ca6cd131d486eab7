#!/usr/bin/env python3
# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""What each stage of measuring adds, on photos with known truth.

    stages.py STAGES/unseen

STAGES/unseen is what models/make/trust.py wrote. One line per stage and card: recall and precision of pieces from 0.2 mm (close card) or 0.4 mm (wide card), and how far the
longest side is off. A later change to a stage is judged by running this before and after it.
Needs python3-opencv, python3-scipy, python3-skimage."""
import glob
import json
import os
import sys

import numpy as np

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "../../models/make"))
import truth as known  # noqa: E402

LEAST = dict(close=0.2, wide=0.4)  # mm


def stages_of(document):
    found = document["candidates"]
    kept = [one for one in found if one["debris"] >= document["debris_probability"]]
    corrected = [dict(one, max_feret_mm=one["corrected_feret_mm"]) for one in kept]
    return {
        "1 network": found,
        "2 trusted": kept,
        "3 size correction": corrected,
        "4 large enough to show": [one for one in corrected if one["max_feret_mm"] >= document["seen_from_mm"]],
    }


def required(truth, least):
    """Large enough, in sight, not at the window's edge."""
    return [piece["max_feret_mm"] >= least and not piece["touching_window_edge"] and
            piece.get("visible_fraction", 1) >= 0.5 for piece in truth["particles"]]


def judge(truth, found, least):
    asked = required(truth, least)
    pairs = known.match(truth["particles"], found)
    used = {j for _, j in pairs}
    clusters = [cluster for cluster in truth["clusters"] if len(cluster["members"]) > 1]
    rest = [one for j, one in enumerate(found) if j not in used]
    as_one = {j for _, j in known.match(clusters, rest)}
    false = sum(one["max_feret_mm"] >= least for j, one in enumerate(rest) if j not in as_one)
    hit = [(i, j) for i, j in pairs if asked[i]]
    off = [found[j]["max_feret_mm"] / truth["particles"][i]["max_feret_mm"] - 1 for i, j in hit]
    return len(hit), sum(asked), false, off


def main():
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    sums = {}
    for file in sorted(glob.glob(os.path.join(sys.argv[1], "*.json"))):
        with open(file) as opened:
            document = json.load(opened)
        truth = known.read(document["photos"], document["name"])
        layout = truth["layout"]
        for stage, found in stages_of(document).items():
            sums.setdefault((layout, stage), []).append(judge(truth, found, LEAST[layout]))
    print("%-6s %-26s %7s %9s %9s %10s" % ("card", "stage", "recall", "precision", "off, 50 %", "off, 95 %"))
    for (layout, stage), rows in sorted(sums.items()):
        hit, asked, false = [sum(row[i] for row in rows) for i in range(3)]
        off = np.abs(np.concatenate([row[3] for row in rows]))
        print("%-6s %-26s %7.3f %9.3f %8.1f%% %9.1f%%" % (layout, stage, hit / max(asked, 1), hit / max(hit + false, 1),
                                                        100 * np.median(off), 100 * np.percentile(off, 95)))


if __name__ == "__main__":
    main()
