# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""Surfaces to learn from beside those of the photos: drawn ones (felt, cast, brushed, scratched, woven, stained),
and pieces of one photo laid on the surface of another. Light on a surface multiplies, so a shadow keeps its share
of the light that the surface sends back; a piece keeps its own light."""
import cv2
import numpy as np

EDGE = 0.65    # px, sigma of the blur that a phone's lens leaves at a sharp edge (edges 1.8 px wide)


def _noise(rng, size, along, across):
    """Gaussian noise of unit spread, its grain `along` by `across` pixels (sigma)."""
    grain = cv2.GaussianBlur(rng.normal(size=size).astype(np.float32), (0, 0), sigmaX=along, sigmaY=across)
    return grain / grain.std()


def _turned(picture, degrees):
    size = picture.shape[::-1]
    turn = cv2.getRotationMatrix2D((size[0] / 2, size[1] / 2), degrees, 1)
    return cv2.warpAffine(picture, turn, size, flags=cv2.INTER_LINEAR, borderMode=cv2.BORDER_REFLECT)


def _grain(rng, size):
    coarse = np.exp(rng.uniform(np.log(0.7), np.log(8)))
    return rng.uniform(0.005, 0.045) * _noise(rng, size, coarse, coarse)


def _felt(rng, size):
    """Threads over threads, each lighter or darker than what lies beneath."""
    out = np.zeros(size, np.float32)
    strength = rng.uniform(0.015, 0.09)
    for _ in range(int(rng.uniform(0.002, 0.01) * out.size)):
        at, way = rng.uniform(0, size[::-1]), rng.uniform(0, 2 * np.pi)
        steps = np.cumsum(rng.normal(0, 0.25, 8)) + way
        line = at + np.cumsum(np.c_[np.cos(steps), np.sin(steps)] * rng.uniform(3, 12), 0)
        shade = float(strength * rng.normal())
        cv2.polylines(out, [np.round(line * 16).astype(np.int32)], False, shade, int(rng.integers(1, 4)), cv2.LINE_AA, 4)
    return cv2.GaussianBlur(out, (0, 0), rng.uniform(0.5, 1.0))


def _cast(rng, size):
    """Bumps under a lamp from one side: light follows the slope; here and there a glint."""
    height = sum(_noise(rng, size, grain, grain) * grain ** 0.8 for grain in rng.uniform(1.5, 9, 2))
    way = rng.uniform(0, 2 * np.pi)
    slope = cv2.Sobel(height, -1, 1, 0) * np.cos(way) + cv2.Sobel(height, -1, 0, 1) * np.sin(way)
    slope = (slope / slope.std()).astype(np.float32)
    glint = np.clip(slope - rng.uniform(1.8, 3.0), 0, 1.5) * rng.uniform(0, 0.4)
    return rng.uniform(0.015, 0.1) * slope + glint


def _brushed(rng, size):
    return _turned(rng.uniform(0.005, 0.05) * _noise(rng, size, rng.uniform(15, 60), rng.uniform(0.6, 1.5)), rng.uniform(0, 180))


def _woven(rng, size):
    y, x = np.mgrid[0:size[0], 0:size[1]].astype(np.float32)
    x += 4 * _noise(rng, size, 30, 30)
    pitch = rng.uniform(6, 40)
    wave = np.sin(2 * np.pi * x / pitch) * (np.sin(2 * np.pi * y / (pitch * rng.uniform(0.5, 2))) if rng.random() < 0.6 else 1)
    return _turned((rng.uniform(0.01, 0.07) * wave).astype(np.float32), rng.uniform(0, 180))


def _marks(rng, size):
    """What is no debris and lies on any surface: scratches, rings, stains, drops."""
    out = np.zeros(size, np.float32)
    area = out.size / 384 ** 2
    for _ in range(int(rng.uniform(0, 12 * area))):
        a = rng.uniform(0, size[::-1])
        b = a + rng.normal(0, 120, 2)
        cv2.line(out, tuple(np.round(a * 16).astype(int).tolist()), tuple(np.round(b * 16).astype(int).tolist()),
                 float(rng.choice((-1, 1)) * rng.uniform(0.05, 0.45)), int(rng.integers(1, 3)), cv2.LINE_AA, 4)
    for _ in range(int(rng.uniform(0, 6 * area))):
        at, wide = rng.integers(0, size[::-1]).tolist(), int(rng.integers(3, 40))
        if rng.random() < 0.5:  # a bubble or the rim of a dried drop
            cv2.circle(out, at, wide, float(rng.uniform(-0.3, 0.3)), int(rng.integers(1, 3)), cv2.LINE_AA)
            cv2.circle(out, (at[0] - wide // 3, at[1] - wide // 3), max(1, wide // 8), float(rng.uniform(0.1, 0.8)), -1, cv2.LINE_AA)
        else:                   # a stain: no edge
            stain = np.zeros_like(out)
            cv2.circle(stain, at, wide, float(rng.uniform(-0.4, 0.1)), -1)
            out += cv2.GaussianBlur(stain, (0, 0), 0.25 * wide + 1)
    return cv2.GaussianBlur(out, (0, 0), rng.uniform(0.5, 0.9))


def _rings_and_distance(size, at, radius):
    y, x = np.ogrid[:size[0], :size[1]]
    return np.hypot(x - at[0], y - at[1]).astype(np.float32) / radius


def _bubble(window, at, radius, rng):
    """A dark rim, a lighter one within, a glint towards the lamp."""
    away = _rings_and_distance(window.shape[:2], at, radius)
    wide = rng.uniform(0.06, 0.2) + 0.6 / radius
    rim = -rng.uniform(0.12, 0.75) * np.exp(-((away - 1) / wide) ** 2)
    inner = rng.uniform(0, 0.25) * np.exp(-((away - 1 + 1.6 * wide) / wide) ** 2)
    window *= (1 + rim + inner)[..., None]


def _drop(window, at, radius, rng):
    """Oil: amber where it is deep, its rim darker."""
    away = _rings_and_distance(window.shape[:2], at, radius * (1 + 0.1 * rng.normal()))
    inside = np.clip((1 - away) * radius / 1.2 + 0.5, 0, 1)[..., None]
    amber = np.array([rng.uniform(0.05, 0.7), rng.uniform(0.4, 0.9), rng.uniform(0.8, 1.0)], np.float32)
    deep = 1 - rng.uniform(0, 0.4) * np.clip(away, 0, 1)[..., None] ** 3
    window *= 1 + inside * (amber * deep - 1)


def wet(window, rng, count):
    """Bubbles and drops on a window (8 bit), single and in groups: no debris. @return the window with them."""
    out = window.astype(np.float32)
    way = rng.uniform(0, 2 * np.pi)
    for _ in range(count):
        radius = float(np.exp(rng.uniform(np.log(2.0), np.log(22.0))))
        make = _bubble if rng.random() < 0.65 else _drop
        at = rng.uniform(0, window.shape[1::-1])
        for _ in range(1 + (rng.integers(1, 4) if rng.random() < 0.25 else 0)):
            reach = int(radius * 1.6) + 4
            x0, y0 = (np.maximum(at - reach, 0)).astype(int)
            part = out[y0:int(at[1]) + reach, x0:int(at[0]) + reach]
            if part.size:
                make(part, at - (x0, y0), radius, rng)
                for _ in range(rng.integers(0, 3)):
                    where = at - (x0, y0) + radius * rng.uniform(0.2, 0.6) * np.array([np.cos(way), np.sin(way)]) + rng.normal(0, 0.1 * radius, 2)
                    spot = np.exp(-(_rings_and_distance(part.shape[:2], where, 0.6 + rng.uniform(0.02, 0.12) * radius)) ** 2)
                    part += (rng.uniform(20, 200) * spot)[..., None]
            at = at + rng.normal(0, 1.6 * radius, 2)
    return np.clip(out, 0, 255).astype(np.uint8)


COLOURS = np.array([(235, 238, 240), (205, 222, 232), (150, 185, 205), (150, 155, 158), (105, 110, 112),
                    (70, 74, 78), (32, 33, 36), (60, 95, 120), (178, 182, 184)], np.float32)  # paper to black paint


def drawn(rng, size=(384, 384), strength=1.0):
    """@param strength  how much the light varies, against what photos of pans and filters show
    @return a window and the surface estimated beneath it, as a photo would show them (8 bit, BGR)."""
    kinds = [_grain, _felt, _cast, _brushed, _woven]
    light = sum(kinds[i](rng, size) for i in rng.choice(len(kinds), rng.integers(1, 3), replace=False))
    light = strength * light + _marks(rng, size)
    base = COLOURS[rng.integers(len(COLOURS))] * rng.uniform(0.6, 0.95) * (1 + 0.03 * rng.normal(size=3))
    slow = 1 + 0.06 * _noise(rng, size, 90, 90)
    window = base * (slow * np.clip(1 + light, 0.02, None))[..., None]
    window = cv2.GaussianBlur(window, (0, 0), 0.5) + rng.normal(0, rng.uniform(0.6, 2.0), window.shape)
    surface = cv2.GaussianBlur(base * slow[..., None], (0, 0), 12) * np.median(1 + light)
    return [np.clip(picture, 0, 255).astype(np.uint8) for picture in (window, surface)]


def _light_of_pieces(photo, surface, share):
    """The pieces' own light carried over their rims, where paper shines through the blur."""
    core = (share > 0.97).astype(np.uint8)
    unmixed = (photo - (1 - share[..., None]) * surface) / np.maximum(share, 0.3)[..., None]
    if not core.any():
        return np.clip(unmixed, 0, 255)
    away, nearest = cv2.distanceTransformWithLabels(1 - core, cv2.DIST_L2, 5, labelType=cv2.DIST_LABEL_PIXEL)
    at = np.zeros(nearest.max() + 1, int)
    flat = np.flatnonzero(core)
    at[nearest.ravel()[flat]] = flat
    carried = photo.reshape(-1, 3)[at[nearest.ravel()]].reshape(photo.shape)
    return np.where((away < 4)[..., None], carried, np.clip(unmixed, 0, 255))


def laid_upon(piece, below, rng):
    """@param piece  window, surface (8 bit, BGR) and covered share (0 to 1) of a place
    @param below  window and surface of another place, as large
    @return window and surface of the piece lying there."""
    photo, surface, share = piece[0].astype(np.float32), piece[1].astype(np.float32), piece[2]
    share = cv2.GaussianBlur(share, (0, 0), EDGE)
    own = _light_of_pieces(photo, surface, share) * rng.uniform(0.6, 1.15)
    shade = np.clip(photo / np.maximum(surface, 8), 0, 1.05)
    # Under a piece its shadow is as its surroundings: the rim's light is the piece's, not the surface's.
    shade = cv2.inpaint((shade * 160).astype(np.uint8), (share > 0.2).astype(np.uint8), 3, cv2.INPAINT_NS) / 160.0 \
        if (share > 0.2).any() and share.size < 40000 else shade
    lit = below[0].astype(np.float32) * shade ** rng.uniform(0.6, 1.3)
    share = share[..., None]
    return np.clip(share * own + (1 - share) * lit, 0, 255).astype(np.uint8), below[1]
