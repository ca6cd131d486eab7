# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""Images laid over a surface in the window: scratches, stampings, weave, flecks."""
import cv2
import numpy as np

from render import paper
from render.stage import image_of

PX = dict(close=36, wide=20)  # px per mm
AROUND = 4.0                  # mm beyond the window; the image is repeated there, the seam lies under the card


def box_of(spec):
    x, y, w, h = spec["window"]
    return (x - AROUND, y - AROUND, x + w + AROUND, y + h + AROUND)


def blank(spec):
    box, k = box_of(spec), int(PX[spec["layout"]] * spec["detail"])
    return np.zeros((int((box[3] - box[1]) * k), int((box[2] - box[0]) * k)), np.uint8), k


def laid(n, spec, values, name):
    """@return the image's colour socket."""
    return n.image(image_of(name, values), box_of(spec), spec["offset"], "REPEAT")


def scratches(rng, spec):
    """Scratches and rub marks, 0 to 1: single ones, and bundles of one direction."""
    image, k = blank(spec)
    high, wide = image.shape

    def one(at, way, length, strong, thick):
        bend = rng.normal(0, 0.15)
        t = np.linspace(0, 1, 12)
        line = at + np.c_[np.cos(way + bend * t), np.sin(way + bend * t)] * (t * length * k)[:, None]
        cv2.polylines(image, [np.int32(line * 16)], False, int(strong * 255), thick, cv2.LINE_AA, 4)
    for _ in range(int(rng.integers(3, 60))):
        one(rng.uniform(0, 1, 2) * [wide, high], rng.uniform(0, 2 * np.pi), np.exp(rng.normal(1.6, 0.9)), rng.uniform(0.2, 1), int(rng.choice([1, 1, 1, 2, 3])))
    for _ in range(int(rng.integers(0, 5))):
        at, way = rng.uniform(0, 1, 2) * [wide, high], rng.uniform(0, 2 * np.pi)
        for _ in range(int(rng.integers(5, 60))):
            one(at + rng.normal(0, 3 * k, 2), way + rng.normal(0, 0.06), np.exp(rng.normal(1.8, 0.6)), rng.uniform(0.1, 0.6), 1)
    return cv2.GaussianBlur(image, (0, 0), 0.7).astype(np.float32) / 255


def stamping(rng, spec):
    """Letters and figures, a ring or a rib pressed into sheet or cast with it, 0 to 1."""
    image, k = blank(spec)
    high, wide = image.shape
    for _ in range(int(rng.integers(1, 4))):
        text = "".join(rng.choice(list("ABCDEFHKLMNPRSTUVXYZ0123456789-  "), int(rng.integers(2, 9))))
        size = rng.uniform(2.5, 12)
        layer = np.zeros_like(image)
        at = rng.uniform(0.05, 0.75, 2) * [wide, high]
        cv2.putText(layer, text, tuple(int(v) for v in at), cv2.FONT_HERSHEY_SIMPLEX, size * k / 22, 255, max(1, int(rng.uniform(0.1, 0.18) * size * k)), cv2.LINE_AA)
        turn = cv2.getRotationMatrix2D(tuple(at), float(rng.choice([0, 90, 180, 270]) + rng.normal(0, 8)), 1)
        image = np.maximum(image, cv2.warpAffine(layer, turn, (wide, high)))
    for _ in range(int(rng.integers(0, 4))):
        middle = tuple(int(v) for v in rng.uniform(0, 1, 2) * [wide, high])
        cv2.circle(image, middle, int(rng.uniform(2, 12) * k), 255, int(rng.choice([-1, 1, 1]) * max(1, rng.uniform(0.5, 3) * k)), cv2.LINE_AA)
    return cv2.GaussianBlur(image, (0, 0), float(rng.uniform(0.12, 0.7)) * k).astype(np.float32) / 255


def weave(rng, spec):
    """Plain or twill weave. @return height, 0 to 1, and how bright each thread is"""
    image, k = blank(spec)
    yy, xx = np.mgrid[0:image.shape[0], 0:image.shape[1]].astype(np.float32) / k
    turn, pitch = rng.uniform(0, np.pi), rng.uniform(0.35, 1.3)
    u = (xx * np.cos(turn) + yy * np.sin(turn)) / pitch + 0.6 * (paper.clouds(rng, xx.shape, 8 * k, 0.5) - 1)
    v = (yy * np.cos(turn) - xx * np.sin(turn)) / (pitch * rng.uniform(0.85, 1.2)) + 0.6 * (paper.clouds(rng, xx.shape, 8 * k, 0.5) - 1)
    i, j = np.floor(u), np.floor(v)
    over = ((i + j) % 2 if rng.random() < 0.6 else ((i + j) % 4 < 2)) > 0
    round_u, round_v = 1 - (2 * (u - i) - 1) ** 2, 1 - (2 * (v - j) - 1) ** 2
    height = np.where(over, round_u * (0.4 + 0.6 * np.sqrt(round_v)), round_v * (0.4 + 0.6 * np.sqrt(round_u)))
    each = np.exp(rng.uniform(0.02, 0.15) * rng.normal(size=4000)).astype(np.float32)
    shade = np.where(over, each[i.astype(int) % 4000], each[(j.astype(int) + 1777) % 4000])
    return height.astype(np.float32), (0.6 * shade * (0.55 + 0.45 * height)).astype(np.float32)


def flecked(rng, spec, kind):
    """Reflectance of paper laid under the frame, 0 to 1."""
    image, k = blank(spec)
    box = box_of(spec)
    local = dict(spec, paper=kind, stains=spec["stains"])
    share, white = paper.sheet(rng, local, [], (image.shape, k, (box[2] - box[0], box[3] - box[1])))
    return share * white
