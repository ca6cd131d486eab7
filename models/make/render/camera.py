# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""The phone's camera over the card, and the tracing of its picture."""
import os
import sys

import bpy
import cv2
import numpy as np
from mathutils import Matrix

from render.nodes import Nodes
from render.stage import OVERSCAN, SAMPLES, mesh, photo_from_card, round_window


def camera_of(spec, rng, outer):
    width, height, share = spec["px"]
    f35, tilt, azimuth = float(rng.uniform(23.5, 28)), np.radians(spec["tilt"]), rng.uniform(0, 2 * np.pi)
    roll = np.radians(rng.normal(0, 4) + (180 if rng.random() < 0.15 else 0))
    f_px = f35 / 43.2666 * np.hypot(width, height)
    out = np.array([np.sin(tilt) * np.cos(azimuth), np.sin(tilt) * np.sin(azimuth), np.cos(tilt)])
    back = out
    right = np.cross([0, 1, 0], back)
    right /= np.linalg.norm(right)
    up = np.cross(back, right)
    right, up = np.cos(roll) * right + np.sin(roll) * up, -np.sin(roll) * right + np.cos(roll) * up
    turn = np.c_[right, up, back]
    corners = np.array([(sx * outer[0] / 2, sy * outer[1] / 2, 0) for sx in (-1, 1) for sy in (-1, 1)])
    fill = rng.uniform(0.76, 0.94)
    far = 60.0
    for _ in range(400):
        at = out * far
        seen = (corners - at) @ turn
        u, v = f_px * seen[:, 0] / -seen[:, 2], f_px * seen[:, 1] / -seen[:, 2]
        if np.abs(u).max() < fill * width / 2 and np.abs(v).max() < fill * height / 2:
            break
        far += 0.7
    spec["camera"] = dict(width=width, height=height, f_px=float(f_px), f35=f35, R_cam_to_world=turn.tolist(), position_mm=at.tolist(), distance_mm=float(far),
                          tilt_deg=spec["tilt"], centre_px=[(width - 1) / 2, (height - 1) / 2], origin_offset_mm=[outer[0] / 2, outer[1] / 2])
    spec["distortion"] = dict(k1=float(rng.uniform(-0.03, 0.03)), k2=float(rng.uniform(-0.012, 0.012)))
    data = bpy.data.cameras.new("camera")
    data.sensor_fit, data.sensor_width = "HORIZONTAL", 36.0
    wide = int(round(width * share * OVERSCAN))
    data.lens = f_px * share * 36.0 / wide
    data.clip_start, data.clip_end = 1, 10000
    thing = bpy.data.objects.new("camera", data)
    frame = np.eye(4)
    frame[:3, :3], frame[:3, 3] = turn, at
    thing.matrix_world = Matrix(frame.tolist())
    bpy.context.collection.objects.link(thing)
    bpy.context.scene.camera = thing
    # the phone itself keeps light off and is mirrored
    n = Nodes("phone")
    n.set(Roughness=0.3)
    n.shader.inputs["Base Color"].default_value = (0.03, 0.03, 0.03, 1)
    behind = np.array(at) + 5 * back
    points = [behind + right * a + up * b for a, b in ((-15, -120), (60, -120), (60, 25), (-15, 25))]
    mesh("phone", points, [(0, 1, 2, 3)], n.material)


def shown(spec):
    """@return the part that is rendered, shares of the picture from its top left: all, a white card with some of its table, or the window alone."""
    if spec["window_alone"]:
        seen = round_window(spec)
    elif spec["frame"]:
        return np.zeros(2), np.ones(2)
    else:
        seen = photo_from_card(spec, np.array([(0, 0), (1, 0), (0, 1), (1, 1)]) * 2 * spec["offset"])
    corners = seen / spec["px"][:2] - 0.5
    more = 0.0 if spec["window_alone"] else 0.03
    return [np.clip(side / OVERSCAN + 0.5 + more, 0, 1) for side, more in ((corners.min(0), -more), (corners.max(0), more))]


def trace_on_accelerator():
    """Needs Blender's kernels for it, which kernel.sh makes."""
    preferences = bpy.context.preferences.addons["cycles"].preferences
    preferences.compute_device_type = "CUDA"
    preferences.get_devices()
    for device in preferences.devices:
        device.use = device.type == "CUDA"
    if not any(device.use for device in preferences.devices):
        sys.exit("Blender finds no accelerator. Make its kernels with models/make/render/kernel.sh, or leave out --on gpu.")
    bpy.context.scene.cycles.device = "GPU"


def trace(spec, seed, out):
    """@return linear light, (height, width, 3), of the photo's whole field and a little more."""
    scene = bpy.context.scene
    scene.render.engine = "CYCLES"
    if spec["on"] == "gpu":
        trace_on_accelerator()
    cycles = scene.cycles
    cycles.samples, cycles.use_denoising, cycles.seed = SAMPLES["frame" if spec["frame"] else "pad"], False, seed
    cycles.use_adaptive_sampling = False
    cycles.max_bounces, cycles.diffuse_bounces, cycles.glossy_bounces, cycles.transmission_bounces, cycles.transparent_max_bounces = 5, 1, 3, 4, 8
    cycles.caustics_reflective = cycles.caustics_refractive = False
    cycles.sample_clamp_indirect = 4.0
    cycles.sample_clamp_direct = 0
    cycles.pixel_filter_type, cycles.filter_width = "BLACKMAN_HARRIS", 1.3
    width, height, share = spec["px"]
    scene.render.resolution_x, scene.render.resolution_y = int(round(width * share * OVERSCAN)), int(round(height * share * OVERSCAN))
    scene.render.resolution_percentage = 100
    low, high = shown(spec)
    scene.render.use_border, scene.render.use_crop_to_border = True, False
    scene.render.border_min_x, scene.render.border_max_x = low[0], high[0]
    scene.render.border_min_y, scene.render.border_max_y = 1 - high[1], 1 - low[1]
    scene.view_settings.view_transform = "Raw"
    scene.render.image_settings.file_format, scene.render.image_settings.color_depth = "OPEN_EXR", "32"
    scene.render.filepath = out
    bpy.ops.render.render(write_still=True)
    image = bpy.data.images.load(out)
    pixels = np.empty(len(image.pixels), np.float32)
    image.pixels.foreach_get(pixels)
    os.remove(out)
    whole = pixels.reshape(scene.render.resolution_y, scene.render.resolution_x, 4)[::-1, :, 2::-1]
    left, top = [int(v) + (3 if v > 0 else 0) for v in low * [whole.shape[1], whole.shape[0]]]
    right, bottom = [int(v) - 3 for v in high * [whole.shape[1], whole.shape[0]]]
    part = np.ascontiguousarray(whole[top:bottom, left:right])
    return cv2.copyMakeBorder(part, top, whole.shape[0] - bottom, left, whole.shape[1] - right, cv2.BORDER_REPLICATE)
