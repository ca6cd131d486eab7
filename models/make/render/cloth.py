# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""Felt: threads over threads, light to black, dry or oily."""
import numpy as np

from render.nodes import Nodes
from render.stage import in_world, mesh

STEPS, SIDES = 7, 3  # of each thread


def tubes(line, radius):
    """Points and faces of many threads at once. @param line  (many, STEPS, 3) @param radius  (many, 1)"""
    many = len(line)
    ahead = np.gradient(line, axis=1)
    length = np.maximum(np.hypot(ahead[..., 0], ahead[..., 1]), 1e-9)
    side = np.stack([-ahead[..., 1] / length, ahead[..., 0] / length], 2)
    rings = []
    for j in range(SIDES):
        angle = 2 * np.pi * j / SIDES
        rings.append(np.concatenate([line[..., :2] + (radius * np.cos(angle))[..., None] * side, line[..., 2:] + (radius * np.sin(angle))[..., None]], 2))
    points = np.stack(rings, 2).reshape(-1, 3)
    first = np.arange(many)[:, None, None] * STEPS * SIDES + np.arange(STEPS - 1)[None, :, None] * SIDES
    j = np.arange(SIDES)
    quads = np.stack([first + j, first + (j + 1) % SIDES, first + (j + 1) % SIDES + SIDES, first + j + SIDES], 3).reshape(-1, 4)
    return points, quads.tolist()


def felt(rng, spec):
    """Threads over the whole window and a little around."""
    x, y, w, h = spec["window"]
    n = Nodes("thread")
    tint = n.new("ShaderNodeAttribute", attribute_name="tint")
    patches = n.ramp(n.noise(float(rng.uniform(8, 40)), 5, 0.6), 0.4, float(rng.uniform(0.45, 0.8)))  # soaked
    soaked = (0.45, 0.33, 0.22) if spec["oily"] else (1, 1, 1)
    n.link(n.mix(tint.outputs["Color"], soaked, patches, "MULTIPLY"), n.shader.inputs["Base Color"])
    n.set(Roughness=0.9 if not spec["oily"] else float(rng.uniform(0.3, 0.6)), Specular=0.2 if not spec["oily"] else 0.6)
    many = int(w * h * rng.uniform(2.0, 5.0))
    way = rng.uniform(0, 2 * np.pi, many)[:, None] + np.cumsum(rng.normal(0, 0.35, (many, STEPS)), 1)
    length = rng.uniform(1.5, 5, many)[:, None]
    start = np.c_[rng.uniform(x - 1, x + w + 1, many), rng.uniform(y - 1, y + h + 1, many)]
    px = start[:, :1] + np.cumsum(np.cos(way) * length / STEPS, 1)
    py = start[:, 1:] + np.cumsum(np.sin(way) * length / STEPS, 1)
    z = np.repeat(rng.uniform(-0.05, 0.06, many)[:, None], STEPS, 1) + rng.normal(0, 0.012, (many, STEPS))
    points, faces = tubes(np.stack([px, py, z], 2), rng.uniform(0.008, 0.02, many)[:, None])
    base = spec["felt"] * rng.uniform(0.9, 1.2)
    shade = np.clip(base * np.exp(rng.uniform(0.1, 0.4) * rng.normal(size=many)), 0.005, 0.95)[:, None] * np.array([1, rng.uniform(0.85, 1), rng.uniform(0.65, 1)])
    if rng.random() < 0.3:  # some of another shade
        other = rng.random(many) < rng.uniform(0.005, 0.06)
        shade[other] *= rng.uniform(0.4, 1.6) * np.exp(0.15 * rng.normal(size=3))
    tints = np.repeat(shade, STEPS * SIDES, 0)
    mesh("felt", in_world(points, spec["offset"]), faces, n.material, (tints, tints))
