#!/usr/bin/env python3
# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""Fits the chance that a piece is found to its size and the surface's noise, and writes detection.json.

    detection.py PHOTOS STAGES OUT.json

STAGES is what tests/benchmark/unseen.py wrote: photos as models see them that never met their scene. Prints, for every
photo, the size floor as a model fitted without its scene sets it, and of the true pieces just above and all above that
floor the share that was found. Threads are left aside.
Needs python3-scipy, python3-opencv, python3-skimage."""
import argparse
import glob
import json
import os
import sys

import numpy as np
from scipy.optimize import minimize

import truth as known

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "../../tests/benchmark"))
import floor  # noqa: E402

AT_FLOOR = 0.93  # nine of ten and three hundredths: what holds on scenes it was not fitted to lies lower
ABOVE = 1.25     # of the floor: just above it
SHRINK = 1e-6    # of squared coefficients: keeps the fit from running off


def photo_of(photos, file):
    with open(file) as opened:
        document = json.load(opened)
    truth = known.read(photos, document["name"])
    rows = np.array([(row[0], row[2]) for row in floor.pieces(truth, document) if not row[1]])
    return dict(name=document["name"], card=truth["layout"], scene=known.scene(truth), noise=document["surface_noise"],
                seen_from=document["seen_from_mm"], size=rows[:, 0], found=rows[:, 1])


def fit(photos):
    """@return most, constant, per log size, per log noise; by maximum likelihood."""
    asked = [photo["size"] >= photo["seen_from"] for photo in photos]
    size = np.concatenate([np.log(photo["size"][which] / photo["seen_from"]) for photo, which in zip(photos, asked)])
    noise = np.concatenate([np.full(which.sum(), np.log(photo["noise"])) for photo, which in zip(photos, asked)])
    found = np.concatenate([photo["found"][which] for photo, which in zip(photos, asked)])
    middle = noise.mean()

    def unlikely(numbers):
        constant, per_size, per_noise, most = numbers
        chance = 1 / (1 + np.exp(-most)) / (1 + np.exp(-(constant + per_size * size + per_noise * (noise - middle))))
        chance = np.clip(chance, 1e-9, 1 - 1e-9)
        return -np.mean(np.where(found > 0, np.log(chance), np.log(1 - chance))) + SHRINK * np.sum(np.square(numbers))

    best = minimize(unlikely, [0, 2, -0.5, 3], method="Nelder-Mead", options=dict(maxiter=6000, maxfev=6000, xatol=1e-6, fatol=1e-10))
    constant, per_size, per_noise, most = best.x
    return 1 / (1 + np.exp(-most)), constant - per_noise * middle, per_size, per_noise


def floor_of(model, photo):
    most, constant, per_size, per_noise = model
    odds = np.log(AT_FLOOR / (most - AT_FLOOR)) if most > AT_FLOOR else np.inf
    return photo["seen_from"] * max(1.0, np.exp((odds - constant - per_noise * np.log(photo["noise"])) / per_size))


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
    for name in ("photos", "stages", "out"):
        words.add_argument(name)
    given = words.parse_args()
    photos = [photo_of(given.photos, file) for file in sorted(glob.glob(os.path.join(given.stages, "*.json")))]
    show_unseen(photos)
    most, constant, per_size, per_noise = [float("%.5g" % number) for number in fit(photos)]
    with open(given.out, "w") as file:
        json.dump(dict(format="swarfbook detection model 1", most=most, constant=constant, per_log_size=per_size,
                       per_log_surface_noise=per_noise, at_floor=AT_FLOOR,
                       quietest_surface=float("%.4g" % min(photo["noise"] for photo in photos))), file, indent=1)
        file.write("\n")


if __name__ == "__main__":
    main()
