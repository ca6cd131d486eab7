#!/usr/bin/env python3
# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""Writes what the network learns from: each photo's window with its truth, pixel by pixel.

    data.py READY PHOTOS [PHOTOS...] [--watch]

PHOTOS holds photos with truth/ beside them, as truth.py reads it. For each photo READY/name.npz holds `planes`, seven of
bytes with a rim of RIM px: the window against the card's white (three; 150 = as light as the card's paper, square root of
linear light), the share of each pixel that a piece covers, where two pieces meet, the type of what covers it (255: none), and
255 where the network is asked; `pieces`, a pixel of each piece; `inside`, pixels that are asked for, every eighth; `origin`,
the top-left pixel without the rim; `px_per_mm`. --watch goes on and takes photos as they are rendered.
Needs python3-numpy, python3-opencv, python3-scipy, python3-skimage."""
import argparse
import glob
import json
import os
import sys
import time
from concurrent.futures import ProcessPoolExecutor

import cv2
import numpy as np

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), ".."))
import truth as known  # noqa: E402

KINDS = dict(steel=0, aluminium=0, brass=1, friction=2, polymer=3, fibre=4)
NO_KIND = 255
WHITE = 150    # code of places as light as the card's paper; 255 is 2.9 times as light
RIM = 8         # px of nothing around
MARGIN = 5.0   # mm beyond the window
LINE = dict(pad=0.25, magnet=0.25)  # mm of the window's edge that does not count: the printed line
CUT_EDGE = 0.4  # mm, of a frame: the paper's edge and its shadow


def linear(codes):
    share = np.arange(256, dtype=np.float32) / 255
    return np.where(share <= 0.04045, share / 12.92, ((share + 0.055) / 1.055) ** 2.4)[codes]


def powers(uv, size):
    """Terms of a quadratic over the photo; uv in pixels."""
    x, y = (uv[..., 0] - size[1] / 2) / 1000, (uv[..., 1] - size[0] / 2) / 1000
    return np.stack([np.ones_like(x), x, y, x * x, x * y, y * y], -1)


def white_around(light, truth):
    """@return coefficients (6 x 3) of the logarithm of the card's white over the photo, from the paper round the window."""
    w = truth["window_mm"]
    x, y, wide, high = w["x"], w["y"], w["w"], w["h"]
    places = []
    for t in np.linspace(0.03, 0.97, 25):
        for away in (1.2, 2.0, 2.8):
            places += [(x + wide * t, y - away), (x + wide * t, y + high + away), (x - away, y + high * t), (x + wide + away, y + high * t)]
    seen = np.round(known.photo_from_card(truth, np.array(places))).astype(int)
    inside = np.all((seen >= 4) & (seen < [light.shape[1] - 4, light.shape[0] - 4]), 1)
    seen = seen[inside]
    values = np.array([np.median(light[v - 3:v + 4, u - 3:u + 4].reshape(-1, 3), 0) for u, v in seen])
    values = np.log(np.maximum(values, 1e-4))
    terms = powers(seen.astype(float), light.shape)
    kept = values[:, 1] > np.log(0.6) + np.percentile(values[:, 1], 80)  # darker places are print or shadow
    for _ in range(6):
        found = np.linalg.lstsq(terms[kept], values[kept], rcond=None)[0]
        off = values[:, 1] - terms @ found[:, 1]
        kept = np.abs(off) < 2.5 * max(0.01, 1.48 * np.median(np.abs(off[kept])))
    return found


def against_white(light, coefficients, box):
    u0, v0, u1, v1 = box
    v, u = np.mgrid[v0:v1:16, u0:u1:16].astype(float)
    white = np.exp(powers(np.stack([u, v], -1), light.shape) @ coefficients).astype(np.float32)
    white = cv2.resize(white, (u1 - u0, v1 - v0), interpolation=cv2.INTER_LINEAR)
    return np.clip(WHITE * np.sqrt(np.maximum(light[v0:v1, u0:u1] / white, 0)), 0, 255).astype(np.uint8)


def window_line(truth, more):
    """The window's edge in the photo, `more` mm outside it."""
    w, t = truth["window_mm"], np.linspace(0, 1, 12)
    x, y, wide, high = w["x"] - more, w["y"] - more, w["w"] + 2 * more, w["h"] + 2 * more
    ring = np.r_[np.c_[x + wide * t, np.full(12, y)], np.c_[np.full(12, x + wide), y + high * t],
                 np.c_[x + wide * t[::-1], np.full(12, y + high)], np.c_[np.full(12, x), y + high * t[::-1]]]
    return known.photo_from_card(truth, ring)


def kinds_of(truth, size):
    kinds = np.full(size, NO_KIND, np.uint8)
    for piece in sorted(truth["particles"], key=lambda one: one.get("z_top_mm", one["height_mm"])):
        found = known.coverage(truth, piece)
        if found is None:
            continue
        (u, v), part = found
        a, b = max(u, 0), max(v, 0)
        target = kinds[b:v + part.shape[0], a:u + part.shape[1]]
        own = part[b - v:b - v + target.shape[0], a - u:a - u + target.shape[1]]
        target[own > 100] = KINDS[piece["material"]]
    return kinds


def asked_where(truth, box):
    """1 where the network's answer counts: not the window's line, crumbs of gasket or places that a mirrored lamp hides."""
    origin = np.array(box[:2])
    weight = np.zeros((box[3] - box[1], box[2] - box[0]), np.uint8)
    line = window_line(truth, -LINE.get(truth["place"], CUT_EDGE)) - origin
    cv2.fillPoly(weight, [np.round(line).astype(np.int32)], 1)
    px_per_mm = truth["camera"]["f_px"] / truth["camera"]["distance_mm"]
    for thing in truth["confounders"]:
        if thing["kind"] == "gasket":
            at = known.photo_from_card(truth, [[thing["x_mm"], thing["y_mm"]]])[0] - origin
            cv2.circle(weight, tuple(at.astype(int).tolist()), int(thing["max_feret_mm"] * px_per_mm * 0.75) + 2, 0, -1)
    for glare in truth.get("left_out_px", []):
        cv2.circle(weight, (int(glare["u"] - origin[0]), int(glare["v"] - origin[1])), int(glare["r"]) + 2, 0, -1)
    return weight


def one_pixel_each(planes):
    pieces = (planes[3] > 127) & (planes[6] > 0)
    _, parts = cv2.connectedComponents(pieces.astype(np.uint8))
    where = np.argwhere(pieces)
    _, first = np.unique(parts[where[:, 0], where[:, 1]], return_index=True)
    return where[first].astype(np.int32)


def write_photo(photos, name, ready):
    done = os.path.join(ready, name + ".npz")
    if os.path.exists(done):
        return
    truth = known.read(photos, name)
    light = linear(cv2.imread(os.path.join(photos, truth["photo"])))
    corners = window_line(truth, MARGIN)
    low = np.maximum(0, np.floor(corners.min(0))).astype(int)
    high = np.minimum([light.shape[1], light.shape[0]], np.ceil(corners.max(0))).astype(int)
    box = (*low.tolist(), *high.tolist())
    covered, seam = known.coverage_and_seams(truth, (box[3], box[2]))
    part = np.s_[box[1]:box[3], box[0]:box[2]]
    unfinished = os.path.join(ready, name + ".unfinished.npz")
    see = against_white(light, white_around(light, truth), box)
    asked = 255 * asked_where(truth, box)
    planes = np.dstack([see, covered[part], seam[part], kinds_of(truth, (box[3], box[2]))[part], asked]).transpose(2, 0, 1)
    planes = np.ascontiguousarray(np.pad(planes, ((0, 0), (RIM, RIM), (RIM, RIM))))
    np.savez(unfinished, planes=planes, pieces=one_pixel_each(planes), inside=(np.argwhere(planes[6, ::8, ::8] > 0) * 8).astype(np.int32),
             origin=low, px_per_mm=truth["camera"]["f_px"] / truth["camera"]["distance_mm"])
    os.replace(unfinished, done)
    print("ready", name, flush=True)


def usable(photos, name):
    """Whether a photo is to be learnt from: it can be measured, shows no magnet, and is written to its end."""
    try:
        with open(os.path.join(photos, "truth", name + ".json")) as file:
            truth = json.load(file)
    except json.JSONDecodeError:  # it is being written
        return False
    photo = os.path.join(photos, truth["photo"])
    of_its_camera = "width" in truth["camera"] and not name.startswith("bad-") and truth["place"] != "magnet"
    if not of_its_camera or not os.path.exists(photo):
        return False
    seen = cv2.imread(photo, cv2.IMREAD_REDUCED_GRAYSCALE_8)
    return seen is not None and abs(max(seen.shape) * 8 / max(truth["camera"]["width"], truth["camera"].get("height", 0)) - 1) < 0.02


def main():
    words = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    words.add_argument("ready")
    words.add_argument("photos", nargs="+")
    words.add_argument("--watch", action="store_true")
    given = words.parse_args()
    os.makedirs(given.ready, exist_ok=True)
    cv2.setNumThreads(1)
    taken = set()
    with ProcessPoolExecutor() as workers:
        while True:
            tasks = []
            for photos in given.photos:
                for file in sorted(glob.glob(os.path.join(photos, "truth", "*.json"))):
                    name = os.path.basename(file)[:-5]
                    if name not in taken and usable(photos, name):
                        taken.add(name)
                        tasks.append(workers.submit(write_photo, photos, name, given.ready))
            for task in tasks:
                task.result()
            if not given.watch:
                return
            time.sleep(5)


if __name__ == "__main__":
    main()
