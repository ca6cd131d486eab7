# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""Renders photos with exact truth of what no photo at hand shows: other surfaces (painted, cast, brushed, felt,
pleated, stamped steel under oil), other lamps, lenses and tilts, with the reference card. Light is traced by Blender
(Debian's package blender 3.4), inside which this runs:

    blender -t 1 -b -P models/make/rendered.py -- CARD.json OUT FIRST LAST [SURFACE]

CARD.json holds the card's geometry. Photos FIRST to LAST - 1 are written to OUT as made-000.jpg and so on, with truth/
beside them as truth.py reads it; one that is there already is left alone. Some two minutes a photo on one core."""
import json
import os
import sys

import cv2
import numpy as np

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from render import phone, sample, scene  # noqa: E402

SURFACES = ["steel", "black paint", "cast", "stainless", "paper", "pleats", "felt", "grey paint", "pad", "pad"]
PLACES = dict(pad="pad", paper="filter", pleats="filter", felt="filter", stainless="tray")  # else: pan
METAL = ("steel", "black paint", "cast", "stainless", "grey paint")  # holds oil on top; paper drinks it
LAMPS = ["tubes", "tubes", "window", "lamp", "flash", "low"]
MEDIAN, LEAST = dict(close=0.33, wide=0.5), dict(close=0.1, wide=0.15)  # mm, of the longest sides


def height_of(pleated, pitch, deep):
    """@return the floor's height (mm) over a place of the card."""
    if pleated:
        return lambda x, y: deep * 0.5 * (np.cos(2 * np.pi * np.asarray(x) / pitch) - 1)
    return lambda x, y: 0 * np.asarray(x)


def clear_things(rng, window):
    """Bubbles and drops: kind, place, radius (mm)."""
    things = []
    for what, most in (("bubble", 22), ("drop", 16)):
        for _ in range(int(rng.integers(0, most))):
            at = (rng.uniform(window[0] + 1, window[0] + window[2] - 1), rng.uniform(window[1] + 1, window[1] + window[3] - 1))
            things.append((what, at, float(rng.uniform(0.12, 0.7))))
    return things


def spec_of(seed, rng, card, only=None):
    """What is to be shown; all by lot."""
    kind = only or SURFACES[seed % len(SURFACES)]
    layout = "close" if kind == "pad" else "wide"
    window = np.array(scene.window_of(card["layouts"][layout]))
    height = height_of(kind == "pleats", rng.uniform(6, 18), rng.uniform(0.3, 0.9))
    wet = kind in METAL and rng.random() < 0.8
    spec = dict(surface=kind, layout=layout, frame=kind != "pad", window=window, height=height, relief=kind == "pleats", wet=wet,
                card_z=0.35 if kind != "pad" else 0.0, tilt=float(rng.uniform(2, 22)), sink=1.0 if wet else 0.0,
                count=int(np.exp(rng.uniform(np.log(60), np.log(330)))), median=MEDIAN[layout], least=LEAST[layout],
                clump=float(rng.uniform(0.2, 0.45)), oil=int(rng.integers(3)), stains=int(rng.integers(0, 6)) if kind == "pad" else 0,
                mix=dict(steel=0.42 * rng.uniform(0.6, 1.4), aluminium=0.2 * rng.uniform(0.5, 1.5), brass=0.11 * rng.uniform(0.5, 1.5),
                         friction=0.17 * rng.uniform(0.4, 2.0), polymer=0.08, fibre=0.07),
                light=str(rng.choice(LAMPS)))
    spec["clear"] = clear_things(rng, window) if wet else []
    return spec


def truth_about(name, spec, labels, entries):
    window, k = spec["window"], sample.LABELS[spec["layout"]]
    return dict(name=name, scene=name, photo=name + ".jpg", rendered=True, layout=spec["layout"], place=PLACES.get(spec["surface"], "pan"),
                surface=spec["surface"], rig=spec["light"], wet=bool(spec["wet"]),
                card_present=True, print_scale=1.0, card_plane_z_mm=spec["card_z"], window_mm=dict(zip("xywh", window.tolist())),
                camera=spec["camera"], distortion=spec["distortion"], label_px_per_mm=k,
                particles=entries, clusters=sample.clusters_of(labels, entries, k, window),
                confounders=[dict(kind=kind, x_mm=float(at[0]), y_mm=float(at[1]), max_feret_mm=2 * radius) for kind, at, radius in spec["clear"]],
                defects=[], magnet=None, sample=None)


def make(seed, card, out, only):
    name = "made-%03d" % seed
    file = lambda *parts: os.path.join(out, *parts)
    if os.path.exists(file(name + ".jpg")):
        return
    rng = np.random.default_rng(1000 + seed)
    spec = spec_of(seed, rng, card, only)
    pieces = sample.lay_pieces(rng, spec)
    labels, entries = sample.truth_of(spec, pieces)
    scene.build(spec, pieces, card, rng)
    picture = phone.phone(scene.trace(spec, seed, file(name + ".exr")), spec, rng)
    cv2.imwrite(file("truth", name + ".label.png"), labels)
    with open(file("truth", name + ".json"), "w") as opened:
        json.dump(truth_about(name, spec, labels, entries), opened)
    cv2.imwrite(file(name + ".jpg"), picture, [cv2.IMWRITE_JPEG_QUALITY, int(rng.integers(84, 96))])
    print("made", name, spec["surface"], spec["light"], len(entries), "pieces", flush=True)


def main():
    given = sys.argv[sys.argv.index("--") + 1:] if "--" in sys.argv else []
    if len(given) not in (4, 5):
        sys.exit(__doc__)
    with open(given[0]) as opened:
        card = json.load(opened)
    os.makedirs(os.path.join(given[1], "truth"), exist_ok=True)
    for seed in range(int(given[2]), int(given[3])):
        make(seed, card, given[1], given[4] if len(given) == 5 else None)


main()
