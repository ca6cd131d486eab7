# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""Linear light to a photo as a phone writes it: lens, exposure, noise, tone, sharpening."""
import cv2
import numpy as np

from render.scene import HIGH, RENDERED, WIDE, photo_from_card


def phone(linear, spec, rng):
    """Linear light to the photo as a phone writes it."""
    camera, lens = spec["camera"], spec["distortion"]
    v, u = np.mgrid[0:HIGH, 0:WIDE].astype(np.float32)
    x, y = (u - camera["centre_px"][0]) / camera["f_px"], (v - camera["centre_px"][1]) / camera["f_px"]
    bent = np.sqrt(x * x + y * y)
    r = bent.copy()
    for _ in range(8):
        r = bent / (1 + lens["k1"] * r ** 2 + lens["k2"] * r ** 4)
    ratio = np.where(bent > 1e-9, r / np.maximum(bent, 1e-9), 1).astype(np.float32)
    f = camera["f_px"] * RENDERED
    mapx = x * ratio * f + (linear.shape[1] - 1) / 2
    mapy = y * ratio * f + (linear.shape[0] - 1) / 2
    seen = cv2.remap(linear, mapx, mapy, cv2.INTER_CUBIC, borderMode=cv2.BORDER_REPLICATE)
    seen = np.maximum(cv2.GaussianBlur(seen, (0, 0), float(rng.uniform(0.45, 0.9))), 0)
    # the white of the card, somewhere near the window, sets the exposure
    card = known_white(seen, spec)
    balance = card.mean() / card * np.exp(0.03 * rng.normal(size=3))
    seen = seen * balance / card.mean() * rng.uniform(0.5, 0.72)
    vignette = 1 - rng.uniform(0, 0.25) * ((u - WIDE / 2) ** 2 + (v - HIGH / 2) ** 2) / (WIDE ** 2 / 4 + HIGH ** 2 / 4)
    seen *= vignette[..., None].astype(np.float32)
    iso = np.exp(rng.uniform(np.log(1e-5), np.log(1.5e-4)))
    noise = np.sqrt(iso * 4 * seen + iso * 0.05).astype(np.float32)
    seen = seen + noise * rng.normal(size=seen.shape).astype(np.float32) * [0.9, 0.7, 0.9]
    seen = np.clip(seen, 0, 1).astype(np.float32)
    coded = np.where(seen <= 0.0031308, 12.92 * seen, 1.055 * np.power(np.maximum(seen, 1e-6), 1 / 2.4) - 0.055)
    s = rng.uniform(0, 0.25)
    coded = (1 - s) * coded + s * (3 * coded ** 2 - 2 * coded ** 3)
    picture = np.clip(coded * 255, 0, 255).astype(np.float32)
    calm = cv2.bilateralFilter(picture, 5, float(rng.uniform(6, 16)), 1.5)
    picture = picture + rng.uniform(0.4, 0.9) * (calm - picture)
    soft = cv2.GaussianBlur(picture, (0, 0), 1.1)
    picture = picture + rng.uniform(0.2, 0.8) * (picture - soft)
    return np.clip(np.round(picture), 0, 255).astype(np.uint8)


def known_white(seen, spec):
    x, y, w, h = spec["window"]
    places = [(x + w * t, beside) for beside in (y - 1.5, y + h + 1.5) for t in (0.2, 0.5, 0.8)]
    places += [(beside, y + h * t) for beside in (x - 1.5, x + w + 1.5) for t in (0.3, 0.7)]
    values = []
    for u, v in photo_from_card(spec, np.array(places)):
        part = seen[int(v) - 6:int(v) + 7, int(u) - 6:int(u) + 7]
        values.append(np.median(part.reshape(-1, 3), 0))
    return np.percentile(np.array(values), 70, axis=0)
