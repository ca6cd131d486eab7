# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""The printed card in the scene: ink on paper, laid whole as a white card or cut as a frame."""
import cv2
import numpy as np

from render import paper
from render.nodes import Nodes
from render.stage import image_of, in_world, mesh, window_of

CARD_PX = dict(close=40, wide=26)  # px per mm of the printed card
DEEP = 0.3                         # mm: how far the frame's edges go down


def inked(layout, k):
    """@return the share of ink at each place, 0 to 1, at k px per mm."""
    wide, high = layout["outer"]
    ink = np.zeros((int(high * k), int(wide * k)), np.float32)
    words = cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_APRILTAG_36h11)
    px = lambda mm: int(round(mm * k))
    side = layout["marker_size"]
    for number, at in layout["markers"].items():
        tag = cv2.aruco.drawMarker(words, int(number), px(side))
        u, v = px(at[0] - side / 2), px(at[1] - side / 2)
        ink[v:v + tag.shape[0], u:u + tag.shape[1]] = (255 - tag) / 255
    side = layout["patch_size"]
    for one in layout["patches"]:
        u, v, s = px(one["at"][0] - side / 2), px(one["at"][1] - side / 2), px(side)
        ink[v:v + s, u:u + s] = one["ink"] + 0.5 * one["ink"] * (1 - one["ink"])  # ink spreads
        if one["ink"] == 0:
            cv2.rectangle(ink, (u, v), (u + s, v + s), 0.5, max(1, px(0.2)))
    side = layout["slanted_size"]
    for at in layout["slanted"]:
        box = cv2.boxPoints(((at[0] * k - 0.5, at[1] * k - 0.5), (side * k, side * k), layout["slanted_turn_deg"]))
        cv2.fillPoly(ink, [np.round(box * 16).astype(np.int32)], 1.0, cv2.LINE_AA, 4)
    bar = layout["check_bar"]
    cv2.rectangle(ink, (px(bar["x0"]), px(bar["y"] - 0.15)), (px(bar["x1"]), px(bar["y"] + 0.15)), 1.0, -1)
    x, y, w, h = window_of(layout)
    cv2.rectangle(ink, (px(x), px(y)), (px(x + w), px(y + h)), 0.35, max(1, px(0.2)))
    cv2.rectangle(ink, (0, 0), (ink.shape[1] - 1, ink.shape[0] - 1), 0.35, max(1, px(0.2)))
    return ink


def printed(layout, name, rng, k):
    """Ink as a printer lays it, k px per mm: grey as dots or even, a line of words, lean or full black."""
    ink = inked(layout, k)
    if rng.random() < 0.6:
        x, y, w, h = window_of(layout)
        at = (int((x + 1) * k), int((y + h + 3.2) * k))
        cv2.putText(ink, "print at 100 %% - %s" % name, at, cv2.FONT_HERSHEY_SIMPLEX, 2.4 * k / 30, 1.0, max(1, int(0.22 * k)), cv2.LINE_AA)
    if rng.random() < 0.55:  # grey as dots
        dot = max(1.0, float(rng.uniform(0.04, 0.13)) * k)
        coarse = rng.random((int(ink.shape[0] / dot) + 2, int(ink.shape[1] / dot) + 2)).astype(np.float32)
        level = cv2.resize(coarse, (ink.shape[1], ink.shape[0]), interpolation=cv2.INTER_NEAREST)
        ink = np.where((ink > 0.02) & (ink < 0.98), (level < ink).astype(np.float32), ink)
    ink = cv2.GaussianBlur(ink, (0, 0), max(0.4, 0.015 * k))
    if rng.random() < 0.3:  # toner that covers unevenly
        ink = np.clip(ink * paper.clouds(rng, ink.shape, 0.3 * k, float(rng.uniform(0.01, 0.05))), 0, 1)
    return ink


def material_of(spec, image, offset, outer, rng):
    n = Nodes("card")
    colour = n.image(image, (0, 0, *outer), offset)
    fibre = n.noise(0.25, 5, 0.7)
    n.link(n.mix(colour, n.ramp(fibre, 0.2, 0.8, (0.96,) * 3, (1, 1, 1)), 1.0, "MULTIPLY"), n.shader.inputs["Base Color"])
    if spec["gloss"] == "glossy":
        n.set(Roughness=float(rng.uniform(0.28, 0.5)), Specular=0.5)
        n.bump([(fibre, 0.003), (n.noise(12.0, 2), 0.15)])
    elif spec["gloss"] == "laminated":
        n.set(Roughness=0.6, Specular=0.3, Clearcoat=1.0, Clearcoat_Roughness=float(rng.uniform(0.02, 0.12)))
        n.bump([(n.noise(float(rng.uniform(5, 20)), 3), float(rng.uniform(0.05, 0.25)))], "Clearcoat Normal")
    else:
        n.set(Roughness=0.85, Specular=0.2)
        n.bump([(fibre, float(rng.uniform(0.005, 0.02))), (n.noise(20.0, 2), float(rng.uniform(0, 0.3)))])
    return n.material


def card(spec, pieces, layout, rng):
    """Puts the card into the scene."""
    outer, offset, k = layout["outer"], spec["offset"], int(CARD_PX[spec["layout"]] * spec["detail"])
    ink = printed(layout, spec["layout"], rng, k)
    share, white = paper.sheet(rng, spec, pieces, (ink.shape, k, outer))
    black = float(rng.uniform(0.025, 0.07))
    reflect = share * (white * (1 - ink) + black * ink)[..., None]
    reflect += np.float32(rng.uniform(-0.5, 0.5, ink.shape) / 255)[..., None]  # no steps between the image's 256 levels
    material = material_of(spec, image_of("card", reflect), offset, outer, rng)
    x, y, w, h = window_of(layout)
    wide, high, z = outer[0], outer[1], spec["card_z"]
    strips = [(0, 0, wide, y), (0, y + h, wide, high), (0, y, x, y + h), (x + w, y, wide, y + h)] if spec["frame"] else [(0, 0, wide, high)]
    for a, b, c, d in strips:
        points = [(a, b, z), (c, b, z), (c, d, z), (a, d, z), (a, b, z - DEEP), (c, b, z - DEEP), (c, d, z - DEEP), (a, d, z - DEEP)]
        mesh("card", in_world(points, offset), [(3, 2, 1, 0), (0, 1, 5, 4), (1, 2, 6, 5), (2, 3, 7, 6), (3, 0, 4, 7)], material)
