# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""Photos with exact truth: where a true point lies in the photo, which pixels a piece covers, which
true piece a measured one is. The truth files' own page explains shapes, places and units."""
import json
import os

import cv2
import numpy as np
from scipy.optimize import linear_sum_assignment
from skimage import measure

FINE = 4  # parts of a pixel's side in which coverage is counted
LOOK = dict(steel="bright metal", aluminium="bright metal", brass="yellow metal",
            friction="lining", polymer="polymer", fibre="fibre")


def read(folder, name):
    with open(os.path.join(folder, "truth", name + ".json")) as file:
        truth = json.load(file)
    truth["labels"] = cv2.imread(os.path.join(folder, "truth", name + ".label.png"), -1)
    return truth


def scene(truth):
    """Photos of the same sample belong together: none may be judged by a fit to another."""
    if "scene" in truth:
        return truth["scene"]
    sample = truth.get("sample")
    if not sample:
        return truth["name"]
    return "%s %d" % (sample["series"], sample["step"]) if sample["series"] == "history" else sample["series"]


def photo_from_card(truth, points_mm, height_mm=None):
    """True millimetres on the card (at a height above the scene's floor) to upright pixels."""
    camera, lens, offset = truth["camera"], truth["distortion"], truth["camera"]["origin_offset_mm"]
    points = np.asarray(points_mm, float)
    z = truth["card_plane_z_mm"] if height_mm is None else height_mm
    world = np.c_[points[:, 0] - offset[0], -(points[:, 1] - offset[1]), np.full(len(points), z)]
    seen = (world - np.array(camera["position_mm"])) @ np.array(camera["R_cam_to_world"])
    u, v = seen[:, 0] / -seen[:, 2], -seen[:, 1] / -seen[:, 2]
    r2 = u * u + v * v
    bend = camera["f_px"] * (1 + lens["k1"] * r2 + lens["k2"] * r2 * r2)
    return np.c_[camera["centre_px"][0] + bend * u, camera["centre_px"][1] + bend * v]


def ellipse(side):
    return cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (side, side))


def coverage(truth, piece):
    """Share of each pixel that a piece covers, seen at half its height. Threads narrower than a
    pixel count as one and a half wide: their length matters, not their width."""
    k, window = truth["label_px_per_mm"], truth["window_mm"]
    x0, y0, x1, y1 = [int((value - origin) * k) + more for value, origin, more in
                      zip(piece["bbox_mm"], (window["x"], window["y"]) * 2, (-2, -2, 3, 3))]
    x0, y0 = max(0, x0), max(0, y0)
    mask = (truth["labels"][y0:y1, x0:x1] == piece["id"]).astype(np.float32)
    if not mask.any():
        return None
    height = piece.get("z_top_mm", piece["height_mm"]) - 0.5 * piece["height_mm"]
    outlines = [photo_from_card(truth, np.c_[(line[:, 1] - 0.5 + x0) / k + window["x"],
                                             (line[:, 0] - 0.5 + y0) / k + window["y"]], height)
                for line in measure.find_contours(np.pad(mask, 1), 0.5)]
    every = np.vstack(outlines)
    low = np.floor(every.min(0)).astype(int) - 1
    high = np.ceil(every.max(0)).astype(int) + 2
    fine = np.zeros(((high[1] - low[1]) * FINE, (high[0] - low[0]) * FINE), np.uint8)
    cv2.fillPoly(fine, [np.round(((line - low + 0.5) * FINE - 0.5) * 16).astype(np.int32)
                        for line in outlines], 255, cv2.LINE_8, 4)
    thick = cv2.morphologyEx(fine, cv2.MORPH_OPEN, ellipse(2 * FINE + 1))
    thin = cv2.subtract(fine, cv2.dilate(thick, ellipse(4 * FINE + 1)))
    fine = np.maximum(fine, cv2.dilate(thin, ellipse(2 * FINE - 1)))
    return low, cv2.resize(fine, tuple(high - low), interpolation=cv2.INTER_AREA)


def coverage_and_seams(truth, size):
    """@return two pictures of the photo's (height, width), 0 to 255: how much of a pixel is piece,
    and whether two pieces meet in it."""
    covered, touched = np.zeros(size, np.uint8), np.zeros(size, np.uint8)
    for piece in truth["particles"]:
        found = coverage(truth, piece)
        if found is None:
            continue
        (u, v), part = found
        a, b = max(u, 0), max(v, 0)
        target = covered[b:v + part.shape[0], a:u + part.shape[1]]
        own = part[b - v:b - v + target.shape[0], a - u:a - u + target.shape[1]]
        np.maximum(target, own, out=target)
        touched[b:v + part.shape[0], a:u + part.shape[1]] += cv2.dilate(own, np.ones((3, 3), np.uint8)) > 127
    return covered, ((touched > 1) * 255).astype(np.uint8)


def match(true, found, length="max_feret_mm"):
    """One to one by place (a third of the size) and size (a factor of 2.5). @return index pairs."""
    if not true or not found:
        return []
    column = lambda pieces, key: np.array([piece[key] for piece in pieces], float)
    away = np.hypot(column(true, "x_mm")[:, None] - column(found, "x_mm"),
                    column(true, "y_mm")[:, None] - column(found, "y_mm"))
    of, is_ = column(true, "max_feret_mm")[:, None], column(found, length)
    reach = np.maximum(0.15, 0.35 * np.maximum(of, is_))
    ratio = np.abs(np.log(np.maximum(is_, 1e-3) / np.maximum(of, 1e-3)))
    cost = 0.7 * away / reach + 0.3 * ratio / np.log(2.5)
    cost[(away > reach) | (ratio > np.log(2.5))] = 9.0
    return [(i, j) for i, j in zip(*linear_sum_assignment(cost)) if cost[i, j] < 1.0]
