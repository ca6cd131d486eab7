# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""Pieces of debris as solids, in millimetres: flakes, slivers, curls, lumps, threads."""
import cv2
import numpy as np


class Solid:
    def __init__(self, points, faces):
        self.points, self.faces = np.asarray(points, float), [tuple(int(i) for i in face) for face in faces]


def smooth_ring(rng, count, roughness):
    """Radii round a ring: some slow waves, some jags."""
    angles = np.linspace(0, 2 * np.pi, count, endpoint=False)
    radius = np.ones(count)
    for wave in range(1, 5):
        radius += roughness * rng.normal() / wave ** 0.7 * np.cos(wave * angles + rng.uniform(0, 7))
    radius += 0.6 * roughness * np.repeat(rng.normal(size=(count + 2) // 3), 3)[:count]
    return angles, np.maximum(radius, 0.25)


def plate(rng, aspect, bend, bump, thick):
    """A torn flake: a disc of rings, uneven, bent about one axis."""
    count, rings = 24, 5
    angles, radius = smooth_ring(rng, count, 0.2)
    xy = [np.zeros((1, 2))]
    for ring in range(1, rings + 1):
        xy.append((radius * ring / rings)[:, None] * np.c_[np.cos(angles), np.sin(angles)])
    xy = np.vstack(xy)
    xy[:, 1] *= aspect
    waves = rng.normal(size=(6, 2)) * rng.uniform(1, 4, (6, 1))
    z = sum(bump * rng.normal() * np.sin(xy @ wave + rng.uniform(0, 7)) / 2 for wave in waves)
    way = rng.uniform(0, np.pi)
    along = xy @ [np.cos(way), np.sin(way)]
    if abs(bend) > 1e-3:
        across = xy @ [-np.sin(way), np.cos(way)]
        bent = np.sin(along * bend) / bend
        z = z + (1 - np.cos(along * bend)) / bend
        xy = bent[:, None] * [np.cos(way), np.sin(way)] + across[:, None] * [-np.sin(way), np.cos(way)]
    top = np.c_[xy, z + thick / 2]
    low = np.c_[xy, z - thick / 2]
    n = len(top)
    ring = lambda r, i: 1 + (r - 1) * count + i % count
    faces = [(0, ring(1, i), ring(1, i + 1)) for i in range(count)]
    for r in range(1, rings):
        for i in range(count):
            faces += [(ring(r, i), ring(r + 1, i), ring(r + 1, i + 1)), (ring(r, i), ring(r + 1, i + 1), ring(r, i + 1))]
    faces += [(c + n, b + n, a + n) for a, b, c in faces]
    for i in range(count):
        a, b = ring(rings, i), ring(rings, i + 1)
        faces += [(a, a + n, b + n), (a, b + n, b)]
    return Solid(np.vstack([top, low]), faces)


def icosphere():
    t = (1 + 5 ** 0.5) / 2
    p = [(-1, t, 0), (1, t, 0), (-1, -t, 0), (1, -t, 0), (0, -1, t), (0, 1, t), (0, -1, -t), (0, 1, -t), (t, 0, -1), (t, 0, 1), (-t, 0, -1), (-t, 0, 1)]
    f = [(0, 11, 5), (0, 5, 1), (0, 1, 7), (0, 7, 10), (0, 10, 11), (1, 5, 9), (5, 11, 4), (11, 10, 2), (10, 7, 6), (7, 1, 8),
         (3, 9, 4), (3, 4, 2), (3, 2, 6), (3, 6, 8), (3, 8, 9), (4, 9, 5), (2, 4, 11), (6, 2, 10), (8, 6, 7), (9, 8, 1)]
    p = [np.array(q) / np.linalg.norm(q) for q in p]
    for _ in range(2):
        middle, out = {}, []

        def half(a, b):
            key = (min(a, b), max(a, b))
            if key not in middle:
                q = p[a] + p[b]
                p.append(q / np.linalg.norm(q))
                middle[key] = len(p) - 1
            return middle[key]
        for a, b, c in f:
            ab, bc, ca = half(a, b), half(b, c), half(c, a)
            out += [(a, ab, ca), (b, bc, ab), (c, ca, bc), (ab, bc, ca)]
        f = out
    return np.array(p), f


BALL = icosphere()


def lump(rng, roughness, flat, corners):
    points, faces = BALL
    radius = np.ones(len(points))
    for _ in range(14):
        way = rng.normal(size=3) * rng.uniform(0.7, 4)
        radius += roughness * rng.normal() * np.sin(points @ way + rng.uniform(0, 7))
    if corners:  # broken along planes
        for _ in range(rng.integers(3, 9)):
            way = rng.normal(size=3)
            way /= np.linalg.norm(way)
            reach = points @ way
            radius = np.minimum(radius, np.where(reach > 0.2, rng.uniform(0.45, 0.9) / np.maximum(reach, 0.2), 9))
    radius = np.maximum(radius, 0.3)
    out = points * radius[:, None] * [1, rng.uniform(0.55, 1), flat]
    return Solid(out, faces)


def tube(line, radius, sides=6):
    line = np.asarray(line, float)
    ahead = np.gradient(line, axis=0)
    ahead /= np.linalg.norm(ahead, axis=1, keepdims=True)
    side = np.cross(ahead, [0, 0, 1.0])
    side /= np.maximum(np.linalg.norm(side, axis=1, keepdims=True), 1e-9)
    up = np.cross(side, ahead)
    angles = np.linspace(0, 2 * np.pi, sides, endpoint=False)
    points = (line[:, None] + radius * (np.cos(angles)[None, :, None] * side[:, None] + np.sin(angles)[None, :, None] * up[:, None])).reshape(-1, 3)
    faces = []
    for i in range(len(line) - 1):
        for j in range(sides):
            a, b = i * sides + j, i * sides + (j + 1) % sides
            faces += [(a, b, b + sides), (a, b + sides, a + sides)]
    return Solid(points, faces)


def thread(rng, length, radius):
    steps = 40
    turn, way = np.cumsum(rng.normal(0, rng.uniform(0.03, 0.35), steps)), rng.uniform(0, 2 * np.pi)
    turn = turn + way
    line = np.cumsum(np.c_[np.cos(turn), np.sin(turn)] * length / steps, 0)
    z = radius + length * 0.04 * np.abs(np.convolve(rng.normal(size=steps + 12), np.ones(13) / 13, "valid"))
    return tube(np.c_[line, z], radius)


def curl(rng):
    """A rolled ribbon."""
    steps, turns = 26, rng.uniform(0.5, 1.6)
    angle = np.linspace(0, 2 * np.pi * turns, steps)
    radius = 0.5 * (1 + 0.15 * angle / (2 * np.pi))
    middle = np.c_[radius * np.cos(angle), np.linspace(0, rng.uniform(0.1, 0.7), steps), radius * np.sin(angle)]
    half = rng.uniform(0.15, 0.4)
    width = half * np.clip(np.minimum(np.arange(steps), steps - 1 - np.arange(steps)) / 4 + 0.3, 0, 1)
    thick = 0.03
    normal = np.c_[np.cos(angle), np.zeros(steps), np.sin(angle)]
    rows = [middle + [0, 1, 0] * width[:, None] + normal * thick, middle - [0, 1, 0] * width[:, None] + normal * thick,
            middle - [0, 1, 0] * width[:, None] - normal * thick, middle + [0, 1, 0] * width[:, None] - normal * thick]
    points = np.stack(rows, 1).reshape(-1, 3)
    faces = []
    for i in range(steps - 1):
        for j in range(4):
            a, b = i * 4 + j, i * 4 + (j + 1) % 4
            faces += [(a, b, b + 4), (a, b + 4, a + 4)]
    faces += [(0, 1, 2), (0, 2, 3), (4 * steps - 4, 4 * steps - 3, 4 * steps - 2), (4 * steps - 4, 4 * steps - 2, 4 * steps - 1)]
    return Solid(points, faces)


def turned(rng, points, tilt):
    """About the upright by any angle, and tipped by some degrees about a level axis."""
    a, b, t = rng.uniform(0, 2 * np.pi), rng.uniform(0, 2 * np.pi), np.radians(tilt)
    about = lambda angle: np.array([[np.cos(angle), -np.sin(angle), 0], [np.sin(angle), np.cos(angle), 0], [0, 0, 1]])
    tip = np.array([[1, 0, 0], [0, np.cos(t), -np.sin(t)], [0, np.sin(t), np.cos(t)]])
    return points @ (about(a) @ tip @ about(b)).T


def turning(rng):
    """A chip from turning: a ribbon wound as a screw."""
    steps, turns = 48, rng.uniform(1.2, 4)
    angle = np.linspace(0, 2 * np.pi * turns, steps)
    along = np.linspace(0, rng.uniform(0.5, 2.5), steps) + 0.05 * np.cumsum(rng.normal(0, 0.3, steps)) / 6
    radius = rng.uniform(0.15, 0.4) * (1 + rng.uniform(-0.4, 0.4) * np.linspace(0, 1, steps))
    middle = np.c_[radius * np.cos(angle), along, radius * np.sin(angle)]
    half, thick = rng.uniform(0.05, 0.2), 0.012
    normal = np.c_[np.cos(angle), np.zeros(steps), np.sin(angle)]
    corners = [(1, 1), (-1, 1), (-1, -1), (1, -1)]
    points = np.stack([middle + [0, a * half, 0] + b * thick * normal for a, b in corners], 1).reshape(-1, 3)
    faces = []
    for i in range(steps - 1):
        for j in range(4):
            a, b = i * 4 + j, i * 4 + (j + 1) % 4
            faces += [(a, b, b + 4), (a, b + 4, a + 4)]
    return Solid(points, faces)


def together(solids):
    points, faces, count = [], [], 0
    for one in solids:
        points.append(one.points)
        faces += [tuple(i + count for i in face) for face in one.faces]
        count += len(one.points)
    return Solid(np.vstack(points), faces)


def agglomerate(rng, threads):
    """Crumbs caked into one, perhaps with threads standing out."""
    parts = []
    for i in range(int(rng.integers(3, 8))):
        part = lump(rng, 0.1, rng.uniform(0.4, 0.9), rng.random() < 0.5)
        size = rng.uniform(0.35, 0.8)
        way = rng.uniform(0, 2 * np.pi)
        parts.append(Solid(part.points * size + [0.6 * np.cos(way), 0.6 * np.sin(way), rng.uniform(-0.15, 0.15)], part.faces))
    for _ in range(int(rng.integers(1, 6)) if threads else 0):
        one = thread(rng, rng.uniform(0.6, 1.6), rng.uniform(0.015, 0.04))
        parts.append(Solid(one.points - one.points[0] + [*rng.uniform(-0.5, 0.5, 2), 0], one.faces))
    return together(parts)


def metal_shape(rng, material):
    """@return shape, solid, tilt (degrees)"""
    kind = rng.random()
    if kind < 0.03:
        return "curl", turning(rng), abs(rng.normal(0, 12))
    if kind < 0.06:
        return "sphere", lump(rng, 0.006, rng.uniform(0.9, 1.0), False), 0.0
    if kind < 0.16:  # a thin flake that leans on something
        return "flake", plate(rng, rng.uniform(0.4, 1.0), rng.normal(0, 0.5), 0.08, rng.uniform(0.015, 0.05)), rng.uniform(12, 50)
    if kind < 0.2:
        return "fragment", agglomerate(rng, False), abs(rng.normal(0, 9))
    tilt, kind = abs(rng.normal(0, 9)), rng.random()
    if material == "steel":
        if kind < 0.80:
            return "flake", plate(rng, rng.uniform(0.45, 0.95), rng.normal(0, 0.55), 0.1, rng.uniform(0.04, 0.16)), tilt
        if kind < 0.96:
            return "sliver", plate(rng, rng.uniform(0.08, 0.3), rng.normal(0, 0.4), 0.06, rng.uniform(0.04, 0.12)), abs(rng.normal(0, 6))
        return "curl", curl(rng), tilt
    if material == "aluminium":
        return "flake", plate(rng, rng.uniform(0.5, 1.0), rng.normal(0, 0.7), 0.18, rng.uniform(0.08, 0.3)), abs(rng.normal(0, 14))
    if kind < 0.15:
        return "curl", curl(rng), tilt
    if kind < 0.58:
        return "chip", plate(rng, rng.uniform(0.45, 0.9), rng.normal(0, 0.6), 0.1, rng.uniform(0.08, 0.25)), tilt
    return "chip", lump(rng, 0.05, rng.uniform(0.3, 0.6), True), tilt


def fibre(rng):
    length = min(9.0, max(0.4, np.exp(rng.normal(np.log(1.6), 0.7))))
    solid = thread(rng, length, float(np.exp(rng.uniform(np.log(0.004), np.log(0.02)))))
    points = turned(rng, solid.points, 0)
    points[:, :2] -= points[:, :2].mean(0)
    return Solid(points, solid.faces)


def piece_of(rng, size, mix):
    """@return material, shape, solid of about this size, standing on z = 0."""
    material = str(rng.choice(list(mix), p=np.array(list(mix.values())) / sum(mix.values())))
    tilt = abs(rng.normal(0, 9))
    if material == "fibre":
        return material, "fibre", fibre(rng)
    if material in ("steel", "aluminium", "brass"):
        shape, solid, tilt = metal_shape(rng, material)
    elif material == "friction":
        shape, solid = "fragment", lump(rng, 0.09, rng.uniform(0.25, 0.6), rng.random() < 0.4)
        if rng.random() < 0.3:
            solid = agglomerate(rng, rng.random() < 0.6)
    else:
        shape, solid = "crumb", lump(rng, 0.05, rng.uniform(0.45, 0.95), rng.random() < 0.3)
    points = turned(rng, solid.points, min(tilt, max(12, 50 / max(0.7, size))))  # large pieces lie flat
    points -= [*((points[:, :2].min(0) + points[:, :2].max(0)) / 2), points[:, 2].min()]
    hull = cv2.convexHull(points[:, :2].astype(np.float32))[:, 0]
    longest = max(np.hypot(*(hull - one).T).max() for one in hull)
    return material, shape, Solid(points * size / longest, solid.faces)
