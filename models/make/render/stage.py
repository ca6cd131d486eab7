# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""Common parts of the rendered scene: the photo's size, where the card's millimetres lie, meshes."""
import bpy
import numpy as np

BESIDE = 5.5  # mm of the card beside a window that is rendered alone, which data.py needs
OVERSCAN = 1.05  # so that a distorting lens has picture up to the edge
# Per rendered pixel, under a frame and for a white card; the remaining noise is like a sensor's.
SAMPLES = dict(frame=7, pad=9)
# px of the photo, and how much of its resolution is rendered
SIZES = [(4000, 3000, 0.75), (3264, 2448, 0.9), (5664, 4248, 0.55)]


def size_of(rng, share):
    """@param share  1 for the full size, 0.5 for a quick look"""
    wide, high, rendered = SIZES[rng.choice(len(SIZES), p=[0.84, 0.1, 0.06])]
    if share < 1:
        return int(wide * share), int(high * share), min(1.0, rendered * 1.2)
    return wide, high, rendered


def window_of(layout):
    return [float(layout["window"][key]) for key in "xywh"]


def in_world(points, offset):
    """Card's millimetres (y down) to the scene's (y up)."""
    points = np.asarray(points, float)
    return np.c_[points[:, 0] - offset[0], -(points[:, 1] - offset[1]), points[:, 2]]


def photo_from_card(spec, points):
    camera, lens, offset = spec["camera"], spec["distortion"], spec["offset"]
    world = in_world(np.c_[points, np.full(len(points), spec["card_z"])], offset)
    seen = (world - np.array(camera["position_mm"])) @ np.array(camera["R_cam_to_world"])
    u, v = seen[:, 0] / -seen[:, 2], -seen[:, 1] / -seen[:, 2]
    r2 = u * u + v * v
    bend = camera["f_px"] * (1 + lens["k1"] * r2 + lens["k2"] * r2 * r2)
    return np.c_[camera["centre_px"][0] + bend * u, camera["centre_px"][1] + bend * v]


def round_window(spec):
    """@return corners, px, of what is rendered if the window is rendered alone"""
    unit = np.array([(0, 0), (1, 0), (0, 1), (1, 1)])
    return photo_from_card(spec, spec["window"][:2] - BESIDE + unit * (spec["window"][2:] + 2 * BESIDE))


def mesh(name, points, faces, material, colours=None, smooth=False):
    """@param colours  values of the attributes tint and gloss for each point"""
    data = bpy.data.meshes.new(name)
    data.from_pydata(np.asarray(points, float).tolist(), [], faces)
    data.materials.append(material)
    if colours is not None:
        for key, values in (("tint", colours[0]), ("gloss", colours[1])):
            attribute = data.attributes.new(key, "FLOAT_COLOR", "POINT")
            attribute.data.foreach_set("color", np.c_[values, np.ones(len(values))].astype(np.float32).ravel())
    if smooth:
        data.polygons.foreach_set("use_smooth", [True] * len(data.polygons))
    data.update()
    thing = bpy.data.objects.new(name, data)
    bpy.context.collection.objects.link(thing)
    return thing


def grid(name, box, step, height, material, offset):
    """A floor of the given height over a box (x0, y0, x1, y1) of the card's millimetres."""
    xs, ys = np.arange(box[0], box[2] + step[0], step[0]), np.arange(box[1], box[3] + step[1], step[1])
    xx, yy = np.meshgrid(xs, ys)
    points = np.c_[xx.ravel(), yy.ravel(), height(xx, yy).ravel()]
    a = (np.arange(len(ys) - 1)[:, None] * len(xs) + np.arange(len(xs) - 1)).ravel()
    faces = np.c_[a, a + len(xs), a + len(xs) + 1, a + 1].tolist()
    return mesh(name, in_world(points, offset), faces, material, smooth=True)


def image_of(name, values):
    """@param values  (height, width) or (height, width, 3), 0 to 1, first row at the card's top
    @return           Blender's image of it, taken as it is (no colour curve)."""
    image = bpy.data.images.new(name, values.shape[1], values.shape[0], alpha=False, float_buffer=False)
    image.colorspace_settings.name = "Non-Color"
    pixels = np.ones((*values.shape[:2], 4), np.float32)
    pixels[..., :3] = np.clip(values[::-1] if values.ndim == 3 else values[::-1, :, None], 0, 1)
    image.pixels.foreach_set(pixels.ravel())
    return image
