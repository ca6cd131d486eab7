# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""Turns linear light into a photo as a phone writes it: lens, focus, shake, exposure, noise, denoising, tone, sharpening."""
import cv2
import numpy as np

from render.stage import photo_from_card, round_window

EDGE = 16  # px round a window that is rendered alone, so that no filter sees where the picture ends


def part_of(spec):
    """@return the part of the photo that shows what was rendered: left, top, right, bottom, px"""
    whole = [spec["camera"]["width"], spec["camera"]["height"]]
    if not spec["window_alone"]:
        return 0, 0, *whole
    corners = round_window(spec)
    return *np.clip(corners.min(0) - EDGE, 0, whole).astype(int), *np.clip(corners.max(0) + EDGE, 0, whole).astype(int)


def through_lens(linear, spec, part):
    """Bends a part of the rendered picture as the lens does, at the photo's size. @return the picture, how far from the middle (0 to 1 at the side)"""
    camera, lens = spec["camera"], spec["distortion"]
    left, top, right, bottom = part
    v, u = np.mgrid[top:bottom, left:right].astype(np.float32)
    x, y = (u - camera["centre_px"][0]) / camera["f_px"], (v - camera["centre_px"][1]) / camera["f_px"]
    bent = np.sqrt(x * x + y * y)
    r = bent.copy()
    for _ in range(6):
        r2 = r * r
        r = bent / (1 + r2 * (lens["k1"] + lens["k2"] * r2))
    ratio = np.where(bent > 1e-9, r / np.maximum(bent, 1e-9), 1).astype(np.float32)
    f = camera["f_px"] * spec["px"][2]
    mapx = (x * ratio * f + (linear.shape[1] - 1) / 2).astype(np.float32)
    mapy = (y * ratio * f + (linear.shape[0] - 1) / 2).astype(np.float32)
    away = bent * (camera["f_px"] * 2 / camera["width"])
    return cv2.remap(linear, mapx, mapy, cv2.INTER_CUBIC, borderMode=cv2.BORDER_REPLICATE), away


def unsharp(seen, rng):
    """Lens, focus a little off, a little shake: within what is usable."""
    seen = cv2.GaussianBlur(seen, (0, 0), float(rng.uniform(0.45, 0.9)))
    if rng.random() < 0.25:  # out of focus
        r = float(rng.uniform(0.7, 1.9))
        yy, xx = np.mgrid[-3:4, -3:4]
        disk = np.clip(r + 0.5 - np.hypot(xx, yy), 0, 1).astype(np.float32)
        seen = cv2.filter2D(seen, -1, disk / disk.sum())
    if rng.random() < 0.25:  # shaken
        line = np.zeros((9, 9), np.uint8)
        way, length = rng.uniform(0, np.pi), rng.uniform(0.6, 1.8)
        ends = [np.int32((4 + sign * length * np.array([np.cos(way), np.sin(way)])) * 256) for sign in (-1, 1)]
        cv2.line(line, tuple(int(e) for e in ends[0]), tuple(int(e) for e in ends[1]), 255, 1, cv2.LINE_AA, 8)
        seen = cv2.filter2D(seen, -1, (line / line.sum()).astype(np.float32))
    return np.maximum(seen, 0)


def exposed(seen, away, card, rng):
    """The white of the card, somewhere near the window, sets the exposure; the balance may be too warm or too cool."""
    wrong = np.array([1, 0, -1]) * rng.normal(0, 0.07) + np.array([0, 1, 0]) * rng.normal(0, 0.02)  # blue, green, red
    seen = seen * (card.mean() / card * np.exp(wrong) * rng.uniform(0.42, 0.72) / card.mean())
    return (seen * (1 - rng.uniform(0, 0.25) * away ** 2)[..., None]).astype(np.float32)


def tone_mapped(seen, rng):
    """Brings bright and dark parts closer together and keeps detail, as phones do."""
    light = np.log2(seen.mean(2) + 0.02)
    small = cv2.resize(light, None, fx=1 / 16, fy=1 / 16, interpolation=cv2.INTER_AREA)
    base = cv2.bilateralFilter(small, -1, float(rng.uniform(0.5, 1.5)), float(rng.uniform(6, 20)))
    base = cv2.resize(base, (seen.shape[1], seen.shape[0]), interpolation=cv2.INTER_LINEAR)
    gain = np.exp2(-float(rng.uniform(0.05, 0.3)) * (base - np.log2(0.6)))
    return (seen * np.clip(gain, 0.7, 3)[..., None]).astype(np.float32)


def calmed(picture, iso, rng):
    """Noise is smeared away, colour more than light: fine texture goes with it."""
    strong = float(np.interp(np.log(iso), [np.log(1e-5), np.log(3e-4)], [6, 26]) * rng.uniform(0.7, 1.5))
    calm = cv2.bilateralFilter(picture, 5, strong, 1.5)
    picture = picture + float(rng.uniform(0.4, 1.0)) * (calm - picture)
    if rng.random() < 0.6:
        both = cv2.cvtColor(picture, cv2.COLOR_BGR2YCrCb)
        both[..., 1:] = cv2.GaussianBlur(both[..., 1:], (0, 0), float(rng.uniform(0.8, 3)))
        picture = cv2.cvtColor(both, cv2.COLOR_YCrCb2BGR)
    return picture


def sharpened(picture, rng):
    halo = rng.random() < 0.35
    soft = cv2.GaussianBlur(picture, (0, 0), float(rng.uniform(1.3, 2.5)) if halo else 1.1)
    return picture + float(rng.uniform(0.5, 1.3) if halo else rng.uniform(0.1, 0.8)) * (picture - soft)


def phone(linear, spec, rng):
    """Turns linear light into the photo as a phone writes it."""
    part = part_of(spec)
    seen, away = through_lens(np.minimum(linear, 60), spec, part)
    seen = unsharp(seen, rng)
    seen = exposed(seen, away, known_white(seen, spec, part), rng)
    if rng.random() < 0.5:
        seen = tone_mapped(seen, rng)
    iso = float(np.exp(rng.uniform(np.log(1e-5), np.log(3e-4))))
    noise = np.sqrt(iso * 4 * seen + iso * 0.05)
    grain = cv2.randn(np.empty(seen.shape, np.float32), (0, 0, 0), (0.9, 0.7, 0.9))
    seen = np.clip(seen + noise * grain, 0, 1).astype(np.float32)
    coded = np.where(seen <= 0.0031308, 12.92 * seen, 1.055 * cv2.pow(np.maximum(seen, 1e-6), 1 / 2.4) - 0.055)
    s = float(rng.uniform(0, 0.3))
    coded = (1 - s) * coded + s * (3 * coded ** 2 - 2 * coded ** 3)
    picture = np.clip(coded * 255, 0, 255).astype(np.float32)
    picture = sharpened(calmed(picture, iso, rng), rng)
    picture = np.clip(np.round(picture), 0, 255).astype(np.uint8)
    left, top, right, bottom = part
    whole = np.full((spec["camera"]["height"], spec["camera"]["width"], 3), 128, np.uint8)
    whole[top:bottom, left:right] = picture
    return whole


def known_white(seen, spec, part):
    x, y, w, h = spec["window"]
    places = [(x + w * t, beside) for beside in (y - 1.5, y + h + 1.5) for t in (0.2, 0.5, 0.8)]
    places += [(beside, y + h * t) for beside in (x - 1.5, x + w + 1.5) for t in (0.3, 0.7)]
    values = []
    for u, v in photo_from_card(spec, np.array(places)) - part[:2]:
        beside = seen[int(v) - 6:int(v) + 7, int(u) - 6:int(u) + 7]
        values.append(np.median(beside.reshape(-1, 3), 0))
    return np.maximum(np.percentile(np.array(values), 70, axis=0), 1e-4)
