#!/usr/bin/env python3
# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""Whether the size floor keeps its word: of the true pieces just above it, how many are found.

    floor.py PHOTOS STAGES

PHOTOS holds truth/; STAGES is what swarfbook_candidates wrote for the photos, or unseen.py. Asked for are true pieces
with a longest side between the photo's size floor and a quarter above it, in sight and not at the
window's edge: how many were found at all, and how many came out at the floor or above, so that they are
counted; a piece that touches others counts as found when its cluster is found as one. Below that, the
same by the longest side in edge widths and in pixels, floor or not: where nine of ten are found is where
a floor may lie. Threads have a longest side far above their width, so both are stated: all pieces, and
all but threads.
Needs python3-opencv, python3-scipy, python3-skimage."""
import glob
import json
import os
import sys

import numpy as np

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "../../models/make"))
import truth as known  # noqa: E402

ABOVE = 1.25
EDGES = [0.0, 1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 6.0]  # in edge widths
PIXELS = [0.0, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 12.0]


def found_of(document):
    return [dict(one, max_feret_mm=one["corrected_feret_mm"]) for one in document["candidates"]
            if one["debris"] >= document["debris_probability"]]


def pieces(truth, document):
    """Of each true piece in sight: longest side, whether a thread, whether found, whether reported."""
    found = found_of(document)
    hit = dict(known.match(truth["particles"], found))
    used = set(hit.values())
    rest = [one for j, one in enumerate(found) if j not in used]
    clusters = [one for one in truth["clusters"] if len(one["members"]) > 1]
    as_one = {}
    for c, j in known.match(clusters, rest):
        for member in clusters[c]["members"]:
            as_one[member] = rest[j]
    rows = []
    for i, piece in enumerate(truth["particles"]):
        if piece["touching_window_edge"] or piece.get("visible_fraction", 1) < 0.5 or piece.get("on_magnet"):
            continue
        one = found[hit[i]] if i in hit else as_one.get(piece["id"])
        rows.append((piece["max_feret_mm"], piece["material"] == "fibre", one is not None,
                     one is not None and one["max_feret_mm"] >= document["size_floor_mm"]))
    return rows


def share(rows, which):
    return "%5.3f of %3d" % (np.mean([row[which] for row in rows]), len(rows)) if rows else "    - of   0"


def without_threads(rows):
    return [row for row in rows if not row[1]]


def by_size(rows, unit, limits, title):
    print("\n%-22s %-16s %-16s" % (title, "found, all", "found, no threads"))
    for low, high in zip(limits, limits[1:] + [1e9]):
        part = [row for row, one in zip(rows, unit) if low <= row[0] / one < high]
        print("%6.1f to %-11s  %-16s %-16s" % (low, "%.1f" % high if high < 1e9 else "more", share(part, 2),
                                                share(without_threads(part), 2)))


def main():
    if len(sys.argv) != 3:
        sys.exit(__doc__)
    photos, stages = sys.argv[1:]
    print("%-18s %-6s %6s %6s %6s  %-16s %-16s %-16s" % ("photo", "card", "floor", "edges", "px/mm", "found, all",
                                                     "found, no threads", "counted, no threads"))
    near, every, edge, pixel = {}, {}, {}, {}
    for file in sorted(glob.glob(os.path.join(stages, "*.json"))):
        with open(file) as opened:
            document = json.load(opened)
        truth = known.read(photos, document["name"])
        rows, floor, card = pieces(truth, document), document["size_floor_mm"], truth["layout"]
        at_floor = [row for row in rows if floor <= row[0] < ABOVE * floor]
        print("%-18s %-6s %6.3f %6.2f %6.1f  %-16s %-16s %-16s" % (
            document["name"], card, floor, document["edge_px"], document["px_per_mm"], share(at_floor, 2),
            share(without_threads(at_floor), 2), share(without_threads(at_floor), 3)))
        near.setdefault(card, []).extend(at_floor)
        every.setdefault(card, []).extend(rows)
        edge.setdefault(card, []).extend([document["edge_px"] / document["px_per_mm"]] * len(rows))
        pixel.setdefault(card, []).extend([1.0 / document["px_per_mm"]] * len(rows))
    for card, rows in sorted(near.items()):
        print("%-18s %-6s %6s %6s %6s  %-16s %-16s %-16s" % ("together", card, "", "", "", share(rows, 2),
                                                         share(without_threads(rows), 2), share(without_threads(rows), 3)))
    for card in sorted(every):
        by_size(every[card], edge[card], EDGES, card + ", edge widths")
        by_size(every[card], pixel[card], PIXELS, card + ", pixels")


if __name__ == "__main__":
    main()
