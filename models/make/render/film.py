# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""Oil on the surface as a body of its own: a film or puddles with a curved edge that partly cover pieces."""
import numpy as np

from render import paper
from render.materials import clear_material
from render.stage import grid

BENEATH = -0.02  # mm: depth at which the film's mesh continues under the surface outside its edge
OILS = [(0.9, 0.6, 0.3), (0.85, 0.4, 0.22), (0.92, 0.82, 0.6), (0.7, 0.45, 0.2), (0.8, 0.75, 0.7)]


def depth_of(spec, rng):
    """@return depth (mm) over a place of the card: a slow field cut off at zero, its edge as steep as a drop's."""
    x, y, w, h = spec["window"]
    box = (x - 55, y - 55, x + w + 55, y + h + 55)
    size = int(box[3] - box[1]) * 3, int(box[2] - box[0]) * 3
    field = paper.clouds(rng, size, float(rng.uniform(20, 90)), 1.0) - 1
    field += 0.15 * (paper.clouds(rng, size, 8.0, 1.0) - 1)
    inside = field - np.quantile(field, 1 - rng.uniform(0.15, 0.95))  # so much of the window is under oil
    yy, xx = np.mgrid[0:size[0], 0:size[1]] / 3.0 - 55
    beside = np.hypot(np.maximum(0, np.maximum(-xx, xx - w)), np.maximum(0, np.maximum(-yy, yy - h)))
    inside = inside - 0.12 * np.maximum(0, beside - 30)  # it ends before the mesh does
    deep, steep = float(rng.uniform(0.08, 0.45)), float(rng.uniform(2, 8))
    depth = np.where(inside > 0, deep * np.sqrt(1 - np.exp(-steep * np.maximum(inside, 0))), BENEATH)

    def at(px, py):
        u = np.clip(((np.asarray(px) - box[0]) * 3).astype(int), 0, size[1] - 1)
        v = np.clip(((np.asarray(py) - box[1]) * 3).astype(int), 0, size[0] - 1)
        return depth[v, u]
    return at, box


def film(spec, rng):
    at, box = depth_of(spec, rng)
    tint = np.array(OILS[rng.integers(len(OILS))]) ** float(rng.uniform(0.1, 0.8))
    under_card = spec["card_z"] - 0.05
    x, y, w, h = spec["window"]

    def height(px, py):
        beside = (px < x + 0.3) | (px > x + w - 0.3) | (py < y + 0.3) | (py > y + h - 0.3)
        return np.where(beside, np.minimum(at(px, py), under_card), at(px, py))
    grid("film", box, (1 / 3, 1 / 3), height, clear_material([float(v) for v in np.clip(tint, 0, 1)], False), spec["offset"])
