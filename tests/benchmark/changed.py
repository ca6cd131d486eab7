#!/usr/bin/env python3
# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""Photos as other phones might have taken them: whether measuring bears what a photo has been through.

    changed.py PHOTOS HOW OUT

Writes every JPEG of the folder PHOTOS, changed, to the folder OUT, its EXIF data kept. HOW: hard (a strong S-shaped
tone curve), half-hard, light (codes to the power of 0.8), dark (1.25), compressed (JPEG quality 35), dim (0.8 stops
less), warm (red up, blue down by 12 %), noisy (6 codes). Then, before and after a change of the program:
copy PHOTOS/truth to OUT/truth, models/make/trust.py STAGES OUT --out trust.json, and stages.py STAGES/unseen.
Needs python3-opencv."""
import argparse
import glob
import os

import cv2
import numpy as np

CODES = np.arange(256) / 255


def linear(codes):
    return np.where(codes <= 0.04045, codes / 12.92, ((codes + 0.055) / 1.055) ** 2.4)


def coded(light):
    light = np.clip(light, 0, 1)
    return np.where(light <= 0.0031308, light * 12.92, 1.055 * light ** (1 / 2.4) - 0.055)


def table(codes):
    return np.round(255 * np.clip(codes, 0, 1)).astype(np.uint8)


def hard(codes):
    return 3 * codes ** 2 - 2 * codes ** 3


def by_table(codes):
    return lambda picture, rng: cv2.LUT(picture, table(codes))


def warm(picture, rng):
    tables = [table(coded(linear(CODES) * gain)) for gain in (0.88, 1.0, 1.12)]  # blue, green, red
    return np.dstack([cv2.LUT(picture[..., i], tables[i]) for i in range(3)])


def noisy(picture, rng):
    return np.clip(picture + rng.normal(0, 6, picture.shape), 0, 255).astype(np.uint8)


WAYS = dict(hard=by_table(hard(CODES)), light=by_table(CODES ** 0.8), dark=by_table(CODES ** 1.25),
            compressed=lambda picture, rng: picture, dim=by_table(coded(linear(CODES) * 2 ** -0.8)), warm=warm, noisy=noisy)
WAYS["half-hard"] = by_table((CODES + hard(CODES)) / 2)


def exif_of(jpeg):
    """The APP1 segments, as they stand in the file."""
    at, kept = 2, b""
    while jpeg[at] == 0xFF and jpeg[at + 1] != 0xDA:
        size = int.from_bytes(jpeg[at + 2:at + 4], "big") + 2
        kept += jpeg[at:at + size] if jpeg[at + 1] == 0xE1 else b""
        at += size
    return kept


def main():
    words = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    words.add_argument("photos")
    words.add_argument("how", choices=sorted(WAYS))
    words.add_argument("out")
    given = words.parse_args()
    os.makedirs(given.out, exist_ok=True)
    rng = np.random.default_rng(0)
    for file in sorted(glob.glob(os.path.join(given.photos, "*.jpg"))):
        with open(file, "rb") as opened:
            jpeg = opened.read()
        picture = cv2.imdecode(np.frombuffer(jpeg, np.uint8), cv2.IMREAD_COLOR | cv2.IMREAD_IGNORE_ORIENTATION)
        quality = 35 if given.how == "compressed" else 92
        changed = cv2.imencode(".jpg", WAYS[given.how](picture, rng), [cv2.IMWRITE_JPEG_QUALITY, quality])[1].tobytes()
        with open(os.path.join(given.out, os.path.basename(file)), "wb") as out:
            out.write(changed[:2] + exif_of(jpeg) + changed[2:])


if __name__ == "__main__":
    main()
