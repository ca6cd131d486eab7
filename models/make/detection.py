#!/usr/bin/env python3
# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""Fits the chance that a piece is found to its size and the surface's noise, and writes detection.json.

    detection.py STAGES/unseen [--out models/detection.json]

STAGES/unseen is what trust.py wrote: photos as a trust judges them that never met their scene. Prints, for every photo,
the size limit as a model fitted without its scene sets it, and of the true pieces just above and all above that floor the
share that was found. Threads are left aside; a piece that touches others counts as found when its cluster is found as one.
Needs python3-scipy, python3-opencv, python3-skimage."""
import argparse
import glob
import json
import os

import numpy as np
from scipy.optimize import minimize

import truth as known

AT_FLOOR = 0.88  # at the size limit itself; from there up nine of ten pieces are found, on scenes it was not fitted to
ABOVE = 1.25     # of the size limit: just above it
BALANCE = 0.72   # of expected precision and recall: below, a photo's pieces are shown, not counted
AS_PIECES = 5    # the usual unsureness on a surface of that noise counts as so many pieces
SHRINK = 1e-6    # of squared coefficients: keeps the fit from diverging


def pieces(truth, document):
    """For each true piece in sight except threads: longest side, whether found."""
    found = [dict(one, max_feret_mm=one["corrected_feret_mm"]) for one in document["candidates"]
             if one["debris"] >= document["debris_probability"]]
    hit = dict(known.match(truth["particles"], found))
    used = set(hit.values())
    rest = [one for j, one in enumerate(found) if j not in used]
    clusters = [one for one in truth["clusters"] if len(one["members"]) > 1]
    as_one = {member for c, _ in known.match(clusters, rest) for member in clusters[c]["members"]}
    return np.reshape([(piece["max_feret_mm"], i in hit or piece["id"] in as_one) for i, piece in enumerate(truth["particles"])
                     if piece["material"] != "fibre" and not piece["touching_window_edge"] and piece.get("visible_fraction", 1) >= 0.5], (-1, 2))


def photo_of(file):
    with open(file) as opened:
        document = json.load(opened)
    truth = known.read(document["photos"], document["name"])
    rows = pieces(truth, document)
    kept = [one for one in document["candidates"] if one["debris"] >= document["debris_probability"] and
            one["corrected_feret_mm"] >= document["seen_from_mm"]]
    around = document["feature_names"].index("unsureAround")
    return dict(name=document["name"], card=truth["layout"], scene=known.scene(truth), noise=document["surface_noise"],
                seen_from=document["seen_from_mm"], pieces=len(kept), around=sum(one["features"][around] for one in kept), size=rows[:, 0], found=rows[:, 1])


def usual_of(photos):
    """@return constant and per log noise of the logarithm of how unsure the network usually is around pieces."""
    some = [photo for photo in photos if photo["pieces"] >= AS_PIECES]
    per_noise, constant = np.polyfit([np.log(photo["noise"]) for photo in some],
                                     [np.log(photo["around"] / photo["pieces"]) for photo in some], 1)
    per_noise = max(per_noise, 0.0)
    return np.mean([np.log(photo["around"] / photo["pieces"]) - per_noise * np.log(photo["noise"]) for photo in some]), per_noise


def log_unsure(photo, usual):
    expected = np.exp(usual[0] + usual[1] * np.log(photo["noise"]))
    return np.log((AS_PIECES * expected + photo["around"]) / (AS_PIECES + photo["pieces"]))


def fit(photos):
    """@return most, constant, per log size, per log noise, per log unsureness, the usual unsureness; by maximum likelihood."""
    usual = usual_of(photos)
    asked = [photo["size"] >= photo["seen_from"] for photo in photos]
    size = np.concatenate([np.log(photo["size"][which] / photo["seen_from"]) for photo, which in zip(photos, asked)])
    noise, unsure = [np.concatenate([np.full(which.sum(), value(photo)) for photo, which in zip(photos, asked)])
                     for value in (lambda photo: np.log(photo["noise"]), lambda photo: log_unsure(photo, usual))]
    found = np.concatenate([photo["found"][which] for photo, which in zip(photos, asked)])
    middle = noise.mean(), unsure.mean()

    def unlikely(numbers):
        constant, per_size, per_noise, per_unsure, most = numbers
        odds = constant + per_size * size + per_noise * (noise - middle[0]) + per_unsure * (unsure - middle[1])
        chance = np.clip(1 / (1 + np.exp(-most)) / (1 + np.exp(-odds)), 1e-9, 1 - 1e-9)
        return -np.mean(np.where(found > 0, np.log(chance), np.log(1 - chance))) + SHRINK * np.sum(np.square(numbers))

    signs = [(None, None), (0.1, None), (None, 0), (None, 0), (None, 8)]  # neither noise nor doubt may help
    constant, per_size, per_noise, per_unsure, most = minimize(unlikely, [0, 2, -0.5, -0.5, 3], method="L-BFGS-B", bounds=signs).x
    return 1 / (1 + np.exp(-most)), constant - per_noise * middle[0] - per_unsure * middle[1], per_size, per_noise, per_unsure, usual


def floor_of(model, photo):
    most, constant, per_size, per_noise, per_unsure, usual = model
    odds = np.log(AT_FLOOR / (most - AT_FLOOR)) if most > AT_FLOOR else np.inf
    ease = constant + per_noise * np.log(photo["noise"]) + per_unsure * log_unsure(photo, usual)
    return photo["seen_from"] * max(1.0, np.exp((odds - ease) / per_size))


def show_unseen(photos):
    sums = {}
    for photo in photos:
        least = floor_of(fit([other for other in photos if other["scene"] != photo["scene"]]), photo)
        above = photo["size"] >= least
        near = above & (photo["size"] < ABOVE * least)
        print("%-18s seen from %.3f mm, noise %.4f, floor %.3f mm: found %s just above, %s above" % (
            photo["name"], photo["seen_from"], photo["noise"], least, *[
                "%5.3f of %3d" % (photo["found"][which].mean() if which.any() else np.nan, which.sum()) for which in (near, above)]))
        sums.setdefault(photo["card"], []).append((photo["found"][near], photo["found"][above]))
    for card, pairs in sorted(sums.items()):
        near, above = [np.concatenate(part) for part in zip(*pairs)]
        print("%-18s just above the floor %.3f of %d, above it %.3f of %d" % (card, near.mean(), len(near), above.mean(), len(above)))


def main():
    words = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    words.add_argument("stages")
    words.add_argument("--out", default="models/detection.json")
    given = words.parse_args()
    photos = [photo_of(file) for file in sorted(glob.glob(os.path.join(given.stages, "*.json")))]
    show_unseen(photos)
    *model, usual = fit(photos)
    most, constant, per_size, per_noise, per_unsure = [float("%.5g" % number) for number in model]
    with open(given.out, "w") as file:
        json.dump(dict(format="swarfbook detection model 2", most=most, constant=constant, per_log_size=per_size,
                       per_log_surface_noise=per_noise, per_log_unsureness=per_unsure,
                       usual_unsureness=dict(constant=float("%.5g" % usual[0]), per_log_surface_noise=float("%.5g" % usual[1]),
                                             counts_as_pieces=AS_PIECES),
                       at_floor=AT_FLOOR, counted_from_balance=BALANCE, quietest_surface=float("%.4g" % min(photo["noise"] for photo in photos))), file, indent=1)
        file.write("\n")


if __name__ == "__main__":
    main()
