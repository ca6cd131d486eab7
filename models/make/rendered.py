# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""Renders photos with exact truth of what no photo at hand shows: other surfaces (cast, ground, galvanised, painted,
enamelled, felt, cloth, papers of all kinds), other lamps, skies, lenses, phones and tilts, pieces from leaning flakes to
caked crumbs, and bare windows, with the reference card. Light is traced by Blender (Debian's package blender 3.4), inside
which this runs:

    blender -t 1 -b -P models/make/rendered.py -- CARD.json OUT FIRST LAST [SURFACE] [--sky DIR] [--share S] [--lamp LAMP] [--turned DEGREES] [--only window] [--on gpu]

CARD.json holds the card's geometry. Photos FIRST to LAST - 1 are written to OUT as made-000.jpg and so on, with truth/
beside them as truth.py reads it; one that is there already is left alone. Some two minutes a photo on one core.
--sky DIR: panoramas (.exr, .hdr; skies.py unpacks some) that light half of the photos; without it the room is made of noise.
--share S: of the photo's width and height (0.5 for a quick look; the truth fits the smaller photo). --lamp: that lamp only.
--only window: the window with a rim of card, the rest of the photo grey, in half of the time: enough to learn from.
--on gpu: an accelerator traces the light, once render/kernel.sh has made Blender's kernels for it: 12 s a window, not 80."""
import json
import os
import sys

import cv2
import numpy as np

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from render import phone, sample, scene  # noqa: E402
from render.camera import trace  # noqa: E402
from render.lamps import LAMPS  # noqa: E402
from render.stage import size_of, window_of  # noqa: E402
from render.surfaces import HARD, UNDER_PUDDLE  # noqa: E402

SURFACES = ["pad", "steel", "rough cast", "flecked pad", "black paint", "felt", "pad", "cast", "galvanised", "flecked pad", "stainless", "dark felt",
            "pad", "paper", "ground aluminium", "flecked pad", "pleats", "grey paint", "stained pad", "puddle", "cloth", "glossy pad", "enamel", "stained paper"]
PAPERS = {"pad": ["plain", "copier", "plain", "fibrous"], "flecked pad": ["flecked", "recycled", "fibrous", "flecked"],
          "stained pad": ["plain", "copier", "fibrous", "flecked"], "glossy pad": ["glossy"]}
PLACES = {"paper": "filter", "pleats": "filter", "felt": "filter", "dark felt": "filter", "stained paper": "filter", "cloth": "filter",
          "stainless": "tray", "enamel": "tray"}  # otherwise: pan, or pad
MEDIAN, LEAST = dict(close=0.33, wide=0.5), dict(close=0.1, wide=0.15)  # mm, of the longest sides
BARE = 1 / 6  # of the photos show no piece


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


def surface_of(kind, rng):
    """The settings that the surface's name stands for."""
    pad = kind in PAPERS
    under = str(rng.choice(UNDER_PUDDLE)) if kind == "puddle" else kind
    paper = str(rng.choice(PAPERS[kind])) if pad else str(rng.choice(["plain", "copier", "flecked", "recycled", "plain"]))
    wet = under in HARD and rng.random() < 0.7
    dark = kind == "dark felt"
    spec = dict(surface=kind, made_of=under, paper=paper, frame=not pad, wet=bool(wet), relief=kind == "pleats",
                film=kind == "puddle" or bool(wet and rng.random() < 0.15), felt=float(rng.uniform(0.015, 0.12) if dark else rng.uniform(0.15, 0.75)),
                oily=bool(rng.random() < (0.85 if dark or wet else 0.55)), gloss="matt", stains=(0, 6) if rng.random() < 0.6 else (0, 0))
    if kind == "glossy pad" or not pad and rng.random() < 0.06:
        spec["gloss"] = str(rng.choice(["glossy", "laminated"]))
    if kind in ("stained pad", "stained paper"):
        spec["stains"] = (6, 45)
    return spec


def sample_of(kind, layout, rng):
    """How many pieces of each kind: none on a bare window, and often lint alone on a stained white card."""
    count = int(np.exp(rng.uniform(np.log(25), np.log(330))))
    mix = dict(steel=0.42 * rng.uniform(0.6, 1.4), aluminium=0.2 * rng.uniform(0.5, 1.5), brass=0.11 * rng.uniform(0.5, 1.5),
               friction=0.17 * rng.uniform(0.4, 2.0), polymer=0.08, fibre=0.07)
    if rng.random() < BARE:
        count = 0
    elif kind == "stained pad" and rng.random() < 0.5:
        count, mix = int(rng.integers(3, 25)), dict(fibre=1.0)
    strays = int(rng.uniform(0.05, 0.5) * count) if rng.random() < 0.35 else 0
    return dict(count=count, mix=mix, strays=strays, median=MEDIAN[layout] * float(np.exp(0.15 * rng.normal())), least=LEAST[layout],
                clump=float(rng.uniform(0.1, 0.45)), soaked=float(rng.choice([0.0, 0.1, 0.3, 0.7])))


def spec_of(seed, rng, card, given):
    """The content of the photo, drawn at random."""
    kind = given["surface"] or SURFACES[seed % len(SURFACES)]
    pad = kind in PAPERS
    layout = "close" if rng.random() < (0.8 if pad else 0.2) else "wide"
    spec = surface_of(kind, rng)
    window = np.array(window_of(card["layouts"][layout]))
    spec.update(layout=layout, window=window, outer=np.array(card["layouts"][layout]["outer"], float), card_z=0.0 if pad else 0.35,
                height=height_of(spec["relief"], rng.uniform(6, 18), rng.uniform(0.3, 0.9)), tilt=float(rng.uniform(2, 22)),
                sink=1.0 if spec["wet"] else 0.0, oil=int(rng.integers(3)), light=given["lamp"] or str(rng.choice(LAMPS)), turned=np.radians(given["turned"]), sky=given["sky"], window_alone=given["only"] == "window", on=given["on"],
                px=size_of(rng, given["share"]), detail=min(1.0, 1.5 * given["share"]), **sample_of(kind, layout, rng))
    spec["clear"] = clear_things(rng, window) if spec["wet"] or pad and rng.random() < 0.12 else []
    return spec


def truth_about(name, spec, labels, entries):
    window, k = spec["window"], sample.LABELS[spec["layout"]]
    place = "pad" if not spec["frame"] else PLACES.get(spec["surface"], "pan")
    return dict(name=name, scene=name, photo=name + ".jpg", rendered=True, layout=spec["layout"], place=place,
                surface=spec["surface"], made_of=spec["made_of"], paper=spec["paper"], film=spec["film"], gloss=spec["gloss"], stained=spec["stains"][1] > 0,
                rig=spec["light"], panorama=spec.get("panorama"), wet=spec["wet"], bare=spec["count"] == 0,
                card_present=True, print_scale=1.0, card_plane_z_mm=spec["card_z"], window_mm=dict(zip("xywh", window.tolist())),
                camera=spec["camera"], distortion=spec["distortion"], label_px_per_mm=k,
                particles=entries, clusters=sample.clusters_of(labels, entries, k, window),
                confounders=[dict(kind=kind, x_mm=float(at[0]), y_mm=float(at[1]), max_feret_mm=2 * radius) for kind, at, radius in spec["clear"]],
                defects=[], magnet=None, sample=None)


def make(seed, card, given):
    name = "made-%03d" % seed
    file = lambda *parts: os.path.join(given["out"], *parts)
    if os.path.exists(file(name + ".jpg")):
        return
    rng = np.random.default_rng(1000 + seed)
    cv2.setRNGSeed(1000 + seed)
    spec = spec_of(seed, rng, card, given)
    pieces = sample.lay_pieces(rng, spec)
    labels, entries = sample.truth_of(spec, pieces)
    scene.build(spec, pieces, card, rng)
    picture = phone.phone(trace(spec, seed, file(name + ".exr")), spec, rng)
    cv2.imwrite(file("truth", name + ".label.png"), labels)
    with open(file("truth", name + ".json"), "w") as opened:
        json.dump(truth_about(name, spec, labels, entries), opened)
    cv2.imwrite(file(name + ".part.jpg"), picture, [cv2.IMWRITE_JPEG_QUALITY, int(rng.integers(60, 97))])
    os.replace(file(name + ".part.jpg"), file(name + ".jpg"))  # so a photo that exists is whole
    print("made", name, spec["surface"], spec["light"], len(entries), "pieces", flush=True)


def options(words):
    """@return the command line's arguments, or None."""
    given, left, words = dict(sky="", share="1", lamp=None, turned="0", only="", on=""), [], list(words)
    while words:
        word = words.pop(0)
        if word.startswith("--"):
            if word[2:] not in given or not words:
                return None
            given[word[2:]] = words.pop(0)
        else:
            left.append(word)
    if len(left) not in (4, 5):
        return None
    given.update(card=left[0], out=left[1], seeds=range(int(left[2]), int(left[3])), surface=left[4] if len(left) == 5 else None,
                 share=float(given["share"]), turned=float(given["turned"]))
    return given


def main():
    given = options(sys.argv[sys.argv.index("--") + 1:] if "--" in sys.argv else [])
    if given is None:
        sys.exit(__doc__)
    with open(given["card"]) as opened:
        card = json.load(opened)
    os.makedirs(os.path.join(given["out"], "truth"), exist_ok=True)
    for seed in given["seeds"]:
        make(seed, card, given)


main()
