# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""Pieces strewn over a window, and the truth about them for the photos' truth files."""
import cv2
import numpy as np

from render.solids import Solid, piece_of

FINER = 6  # times
LABELS = dict(close=40, wide=20)  # px per mm


def place_of(rng, spec, pieces, reach):
    """@return where a piece of this reach lies, or None."""
    window = spec["window"]
    for _ in range(30):
        if pieces and rng.random() < spec["clump"]:
            other = pieces[rng.integers(len(pieces))]
            way = rng.uniform(0, 2 * np.pi)
            at = other["at"] + np.array([np.cos(way), np.sin(way)]) * (other["reach"].mean() + reach.mean()) * rng.uniform(0.75, 1.3)
        else:
            at = np.array([rng.uniform(window[0] - 0.5, window[0] + window[2] + 0.5), rng.uniform(window[1] - 0.5, window[1] + window[3] + 0.5)])
        # not under the frame's edge
        if not spec["frame"] or np.all(at - reach > window[:2]) and np.all(at + reach < window[:2] + window[2:]):
            return at
    return None


def lay_pieces(rng, spec):
    """@return the pieces: material, shape, solid in place, where, how far it reaches, how high."""
    pieces = []
    for _ in range(spec["count"]):
        size = float(np.clip(np.exp(rng.normal(np.log(spec["median"]), 0.8)), spec["least"], 5.0))
        material, shape, solid = piece_of(rng, size, spec["mix"])
        reach = np.ptp(solid.points[:, :2], 0) / 2
        at = place_of(rng, spec, pieces, reach)
        if at is None:
            continue
        z = spec["height"](at[0], at[1])
        lift = 0.0
        for other in pieces:  # on top of the pieces already there
            if np.hypot(*(other["at"] - at)) < 0.6 * (other["reach"].mean() + reach.mean()) and material != "fibre":
                lift = max(lift, 0.5 * other["high"])
        points = solid.points + [at[0], at[1], z + lift - spec["sink"] * rng.random() * 0.03]
        pieces.append(dict(material=material, shape=shape, solid=Solid(points, solid.faces), at=at, reach=reach, high=float(np.ptp(points[:, 2]))))
    return pieces + strays(rng, spec)


def strays(rng, spec):
    """Pieces that fell beside the window, on the card or, around a frame, on the surface: shown, never in the truth."""
    outer, window, out = spec["outer"], spec["window"], []
    for _ in range(spec["strays"]):
        size = float(np.clip(np.exp(rng.normal(np.log(spec["median"]), 0.7)), spec["least"], 2.5))
        material, shape, solid = piece_of(rng, size, spec["mix"])
        reach = np.ptp(solid.points[:, :2], 0) / 2
        at = rng.uniform(-0.12, 1.12, 2) * outer
        free = np.any(at + reach < window[:2] - 1) or np.any(at - reach > window[:2] + window[2:] + 1)
        on_card = np.all(at - reach > 0) and np.all(at + reach < outer)
        off_card = np.any(at + reach < -1) or np.any(at - reach > outer + 1)
        if not free or not (on_card or off_card and spec["frame"] and not spec["relief"]):
            continue
        points = solid.points + [at[0], at[1], spec["card_z"] if on_card else 0.0]
        out.append(dict(material=material, shape=shape, solid=Solid(points, solid.faces), at=at, reach=reach, high=float(np.ptp(points[:, 2]))))
    return out


def truth_of(spec, pieces):
    """Labels of the window seen from above; the truth's entries."""
    k, window = LABELS[spec["layout"]], spec["window"]
    size = (int(round(window[3] * k)), int(round(window[2] * k)))
    labels = np.zeros(size, np.uint16)
    entries = []
    order = sorted(range(len(pieces)), key=lambda i: pieces[i]["solid"].points[:, 2].max())
    for i in order:
        piece = pieces[i]
        points = piece["solid"].points
        xy = (points[:, :2] - window[:2]) * k
        low = np.floor(xy.min(0)).astype(int) - 1
        high = np.ceil(xy.max(0)).astype(int) + 2
        # drawn finer first: OpenCV fills half a pixel beyond the outline
        fine = np.zeros((FINER * (high[1] - low[1]), FINER * (high[0] - low[0])), np.uint8)
        local = np.round(((xy - low) * FINER - 0.5) * 16).astype(np.int32)
        for face in piece["solid"].faces:
            cv2.fillConvexPoly(fine, local[list(face)], 255, cv2.LINE_8, 4)
        mask = (cv2.resize(fine, None, fx=1 / FINER, fy=1 / FINER, interpolation=cv2.INTER_AREA) > 127).astype(np.uint8)
        piece["low"], piece["mask"] = low, mask
        a, b = max(low[0], 0), max(low[1], 0)
        c, d = min(high[0], size[1]), min(high[1], size[0])
        if c <= a or d <= b:
            continue
        part = mask[b - low[1]:d - low[1], a - low[0]:c - low[0]]
        labels[b:d, a:c][part > 0] = i + 1
    seen = np.bincount(labels.ravel(), minlength=len(pieces) + 1)
    for i, piece in enumerate(pieces):
        low, mask = piece["low"], piece["mask"]
        points = piece["solid"].points
        hull = cv2.convexHull(points[:, :2].astype(np.float32))[:, 0]
        area = mask.sum() / k ** 2
        moments = cv2.moments(mask, True)
        centre = (np.array([moments["m10"], moments["m01"]]) / max(moments["m00"], 1) + low + 0.5) / k + window[:2]
        box = [*points[:, :2].min(0), *points[:, :2].max(0)]
        outside = box[2] < window[0] or box[3] < window[1] or box[0] > window[0] + window[2] or box[1] > window[1] + window[3]
        if outside:
            continue
        touching = box[0] < window[0] or box[1] < window[1] or box[2] > window[0] + window[2] or box[3] > window[1] + window[3]
        entries.append(dict(id=i + 1, material=piece["material"], shape=piece["shape"], x_mm=float(centre[0]), y_mm=float(centre[1]),
                            max_feret_mm=float(longest_of(hull)), min_feret_mm=float(thinnest_of(hull)), area_mm2=float(area), height_mm=float(np.ptp(points[:, 2])),
                            z_top_mm=float(points[:, 2].max()), touching_window_edge=bool(touching), bbox_mm=[float(v) for v in box],
                            visible_fraction=float(seen[i + 1] / max(1, mask.sum())), ecd_mm=float(np.sqrt(4 * area / np.pi))))
    return labels, entries


def longest_of(hull):
    return max(np.hypot(*(hull - point).T).max() for point in hull)


def thinnest_of(hull):
    return min(np.ptp(hull @ [np.cos(angle), np.sin(angle)]) for angle in np.radians(np.arange(0, 180, 1.5)))


def clusters_of(labels, entries, k, window):
    """Touching pieces, seen from above, as one outline; a single piece is a cluster of one."""
    known = {one["id"]: one for one in entries}
    count, parts = cv2.connectedComponents((labels > 0).astype(np.uint8), connectivity=8)
    pairs = np.unique(np.c_[parts.ravel(), labels.ravel()][parts.ravel() > 0], axis=0)
    clusters, seen = [], set()
    for part in range(1, count):
        members = [int(i) for i in pairs[pairs[:, 0] == part, 1] if int(i) in known]
        if not members or tuple(members) in seen:
            continue
        seen.add(tuple(members))
        cluster = dict(id=len(clusters) + 1, members=members)
        if len(members) == 1:
            cluster.update({key: known[members[0]][key] for key in ("x_mm", "y_mm", "max_feret_mm", "min_feret_mm", "area_mm2", "material",
                                                                    "touching_window_edge")})
        else:
            where = np.column_stack(np.nonzero(parts == part))[:, ::-1]
            hull = cv2.convexHull(where.astype(np.float32))[:, 0]
            middle = (where.mean(0) + 0.5) / k + window[:2]
            biggest = max(members, key=lambda member: known[member]["area_mm2"])
            cluster.update(x_mm=float(middle[0]), y_mm=float(middle[1]), max_feret_mm=float(longest_of(hull) + 1) / k,
                           min_feret_mm=float(thinnest_of(hull) + 1) / k, area_mm2=len(where) / k ** 2, material=known[biggest]["material"],
                           touching_window_edge=any(known[member]["touching_window_edge"] for member in members))
        clusters.append(cluster)
    return clusters
