# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""The paper that the card is printed on, as an image of its reflectance against clean paper: flecks, specks,
fibres, clouds, print that shows through, stains with rings, smudges. All of it lies outside the window too."""
import cv2
import numpy as np

ONE = 180  # of 255 stands for clean paper, so that bright flecks have room above

# How much of each kind of paper: dark and bright flecks and fibres per square millimetre, clouds (share), grey (least, most).
KINDS = dict(plain=dict(dark=(0, 0.02), bright=(0, 0.05), fibres=(0, 0.01), cloud=(0.002, 0.012), white=(0.74, 0.88)),
             flecked=dict(dark=(0.2, 2.2), bright=(0.2, 2.0), fibres=(0, 0.08), cloud=(0.006, 0.03), white=(0.62, 0.82)),
             recycled=dict(dark=(0.3, 2.2), bright=(0.1, 0.8), fibres=(0.03, 0.3), cloud=(0.01, 0.05), white=(0.45, 0.72)),
             fibrous=dict(dark=(0.02, 0.3), bright=(0.05, 0.4), fibres=(0.15, 0.7), cloud=(0.015, 0.06), white=(0.55, 0.8)),
             copier=dict(dark=(0.005, 0.08), bright=(0, 0.2), fibres=(0, 0.04), cloud=(0.008, 0.03), white=(0.72, 0.86)),
             glossy=dict(dark=(0, 0.01), bright=(0, 0.02), fibres=(0, 0.0), cloud=(0.0, 0.006), white=(0.78, 0.9)))
CASTS = [(1, 1, 1), (1, 0.985, 0.95), (0.98, 0.99, 1), (0.97, 1, 0.985), (1, 0.97, 0.97), (1, 0.96, 0.87), (0.94, 0.97, 1)]


def clouds(rng, shape, size, sigma):
    """Slow changes: a field of mean 1."""
    coarse = rng.normal(0, 1, (int(shape[0] / size) + 4, int(shape[1] / size) + 4)).astype(np.float32)
    field = cv2.resize(cv2.GaussianBlur(coarse, (0, 0), 0.8), (shape[1], shape[0]), interpolation=cv2.INTER_CUBIC)
    return 1 + sigma * field / max(1e-6, float(coarse.std()) * 0.5)


def flecks(rng, layer, k, how):
    """@param how  many, least and most factor, median size (mm), coloured share"""
    high, wide = layer.shape[:2]
    many = int(how["many"] * wide * high / k ** 2)
    size = np.clip(how["size"] * np.exp(0.45 * rng.normal(size=many)), 0.02, 0.45) * k
    faint = rng.random(many) ** 1.5 if how["low"] < 1 else rng.random(many)
    factor = how["high"] + (how["low"] - how["high"]) * faint
    colour = np.where(rng.random(many)[:, None] < how["coloured"], np.exp(0.22 * rng.normal(size=(many, 3))), 1.0) * factor[:, None]
    colour = np.clip(colour * ONE, 0, 255)
    at = np.c_[rng.uniform(0, wide, many), rng.uniform(0, high, many)]
    thin, turn = rng.uniform(0.25, 1, many), rng.uniform(0, 180, many)
    for i in range(many):
        axes = (max(0.4, size[i] / 2), max(0.4, size[i] / 2 * thin[i]))
        line = cv2.ellipse2Poly((0, 0), (int(axes[0] * 16) + 1, int(axes[1] * 16) + 1), int(turn[i]), 0, 360, 60)
        cv2.fillConvexPoly(layer, line + np.int32(at[i] * 16), colour[i].tolist(), cv2.LINE_AA, 4)


def fibres(rng, layer, k, many):
    high, wide = layer.shape[:2]
    for _ in range(int(many * wide * high / k ** 2)):
        steps, length = 8, float(np.exp(rng.normal(0, 0.5))) * k
        way = rng.uniform(0, 2 * np.pi) + np.cumsum(rng.normal(0, 0.35, steps))
        line = np.cumsum(np.c_[np.cos(way), np.sin(way)] * length / steps, 0) + [rng.uniform(0, wide), rng.uniform(0, high)]
        factor = rng.uniform(0.72, 0.96) if rng.random() < 0.7 else rng.uniform(1.02, 1.15)
        cv2.polylines(layer, [np.int32(line * 16)], False, np.clip(ONE * factor * np.exp(0.03 * rng.normal(size=3)), 0, 255).tolist(), 1, cv2.LINE_AA, 4)


def shown_through(rng, share, k):
    """Print of the other side, or of the sheet beneath."""
    back = np.zeros(share.shape[:2], np.uint8)
    high, wide = back.shape
    words, size = "abcdefghijklmnopqrstuvwxyz    ", rng.uniform(2, 6)
    for row in np.arange(rng.uniform(2, 8), high / k, 1.9 * size):
        text = "".join(rng.choice(list(words), int(rng.integers(10, 80))))
        cv2.putText(back, text, (int(rng.uniform(2, 12) * k), int(row * k)), cv2.FONT_HERSHEY_COMPLEX, size * k / 30, 255, max(1, int(0.09 * size * k)), cv2.LINE_AA)
    if rng.random() < 0.5:
        cv2.rectangle(back, (int(0.15 * wide), int(0.3 * high)), (int(rng.uniform(0.3, 0.9) * wide), int(rng.uniform(0.4, 0.8) * high)), 140, int(rng.uniform(0.3, 2) * k))
    back = cv2.GaussianBlur(back[:, ::-1], (0, 0), float(rng.uniform(0.1, 0.35)) * k)
    share *= 1 - float(rng.uniform(0.015, 0.08)) * (back / np.float32(255))[..., None]


def stain(rng, share, k, how):
    """One stain with its ring. @param how  at (mm), radius (mm)"""
    at, r = np.array(how["at"]), how["radius"]
    reach = int(1.7 * r * k) + 2
    u, v = (at * k).astype(int)
    a, b, c, d = max(0, u - reach), max(0, v - reach), min(share.shape[1], u + reach), min(share.shape[0], v + reach)
    if c <= a or d <= b:
        return
    yy, xx = np.mgrid[b:d, a:c].astype(np.float32)
    away = np.hypot(xx - u, yy - v) / (r * k)
    turn = np.arctan2(yy - v, xx - u)
    edge = sum(0.12 / n * rng.normal() * np.cos(n * turn + rng.uniform(0, 7)) for n in range(1, 6))
    edge = edge + 0.12 * rng.uniform(0.2, 1) * (clouds(rng, away.shape, max(2.0, rng.uniform(0.1, 0.3) * r * k), 1.0) - 1)
    inside = 1 - (away + edge)  # 0 at the edge
    soft = rng.uniform(0.02, 0.5)
    body = np.clip(inside / soft, 0, 1)
    ring = np.exp(-(np.clip(inside, -1, 1) / rng.uniform(0.02, 0.08)) ** 2 / 2) * (inside > -0.25)
    tints = [(0.93, 0.82, 0.62), (0.9, 0.75, 0.5), (0.96, 0.9, 0.78), (0.88, 0.86, 0.84), (0.93, 0.7, 0.62), (0.7, 0.68, 0.66), (0.98, 0.95, 0.7)]
    tint = np.log(np.array(tints[rng.integers(len(tints))]) * np.exp(0.02 * rng.normal(size=3)))
    much = rng.uniform(0.1, 1.2) * (body * clouds(rng, away.shape, max(3.0, 0.4 * r * k), 0.12)) + (rng.uniform(0.2, 1.2) if rng.random() < 0.6 else 0) * ring
    share[b:d, a:c] *= np.exp(np.minimum(much[..., None] * tint, 0)).astype(np.float32)


def smudge(rng, share, k):
    """A dirty finger: ridges, fading."""
    at, r = np.array([rng.uniform(0, share.shape[1]), rng.uniform(0, share.shape[0])]), rng.uniform(4, 9) * k
    a, b = np.maximum(at - r, 0).astype(int)
    c, d = np.minimum(at + r, [share.shape[1], share.shape[0]]).astype(int)
    yy, xx = np.mgrid[b:d, a:c].astype(np.float32)
    x, y = (xx - at[0]) / r, (yy - at[1]) / r
    ridges = 0.5 + 0.5 * np.cos((np.hypot(x + rng.uniform(-0.4, 0.4), 0.7 * y + rng.uniform(-0.3, 0.3)) + 0.05 * np.sin(5 * x)) * r / k * 2 * np.pi / 0.5)
    here = np.clip(1.3 - 1.4 * np.hypot(x, y), 0, 1) * np.clip(clouds(rng, x.shape, 0.8 * k, 0.5), 0, 1.5)
    share[b:d, a:c] *= (1 - float(rng.uniform(0.03, 0.16)) * (here * ridges)[..., None] * np.array([0.8, 0.9, 1.0])).astype(np.float32)


def stains_of(rng, spec, pieces, outer):
    """Places and radii of stains: strewn, and around pieces from which the paper soaked up oil."""
    few, most = spec["stains"]
    out = [dict(at=(rng.uniform(0, outer[0]), rng.uniform(0, outer[1])), radius=float(np.exp(rng.uniform(np.log(0.25), np.log(11)))))
           for _ in range(int(rng.integers(few, most + 1)))]
    if rng.random() < 0.5:
        share = rng.uniform(0.03, 0.35)
        out += [dict(at=piece["at"], radius=float(piece["reach"].mean() * rng.uniform(1.3, 4))) for piece in pieces if rng.random() < share]
    return out


def sheet(rng, spec, pieces, shape):
    """@param spec    with paper (a kind of KINDS) and stains (least, most)
    @param shape     px of the image, k px per mm, the card's outer size
    @return          (height, width, 3) of reflectances against clean white, and the white"""
    (high, wide), k, outer = shape
    kind = KINDS[spec["paper"]]
    layer = np.full((high, wide, 3), ONE, np.uint8)
    coloured = float(rng.choice([0.0, 0.15, 0.6]))
    lot = lambda key: float(rng.uniform(*kind[key]))
    flecks(rng, layer, k, dict(many=lot("bright"), low=1.16, high=1.02, size=rng.uniform(0.06, 0.14), coloured=0.0))
    flecks(rng, layer, k, dict(many=lot("dark"), low=rng.uniform(0.35, 0.75), high=0.96, size=rng.uniform(0.045, 0.11), coloured=coloured))
    if spec["paper"] in ("recycled", "fibrous", "flecked") and rng.random() < 0.6:  # few large specks
        flecks(rng, layer, k, dict(many=rng.uniform(0.002, 0.03), low=0.4, high=0.9, size=rng.uniform(0.12, 0.25), coloured=coloured))
    fibres(rng, layer, k, lot("fibres"))
    share = cv2.GaussianBlur(layer, (0, 0), float(rng.uniform(0.008, 0.025)) * k).astype(np.float32) / ONE
    sigma = lot("cloud")
    for size in (0.25, 1.0, 4.0):
        share *= clouds(rng, (high, wide), size * k, 0.6 * sigma * rng.uniform(0.3, 1))[..., None]
    if rng.random() < (0.6 if spec["paper"] == "copier" else 0.08):
        shown_through(rng, share, k)
    for one in stains_of(rng, spec, pieces, outer):
        stain(rng, share, k, one)
    for _ in range(int(rng.integers(0, 4)) if rng.random() < 0.35 else 0):
        smudge(rng, share, k)
    cast = np.array(CASTS[rng.integers(len(CASTS))]) ** rng.uniform(0.3, 1.2) if spec["paper"] != "glossy" else np.ones(3)
    return share * cast.astype(np.float32), float(rng.uniform(*kind["white"]))
