# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""The scene in front of the phone, built and traced by Blender: card, surface, pieces, lamps, camera."""
import os

import bpy
import cv2
import numpy as np
from mathutils import Matrix, Vector

from render import materials
from render.solids import BALL, look_of

WIDE, HIGH = 4000, 3000  # px of the photo
RENDERED = 0.75          # of its resolution is rendered
OVERSCAN = 1.05          # so that a bent lens has something to show at the edge
SAMPLES = 9              # per rendered pixel; what noise that leaves is like a sensor's
CARD_PX = dict(close=50, wide=30)  # px per mm of the printed card


def window_of(layout):
    return [float(layout["window"][key]) for key in "xywh"]


def mesh(name, points, faces, material, colours=None):
    data = bpy.data.meshes.new(name)
    data.from_pydata([tuple(p) for p in points], [], faces)
    data.materials.append(material)
    if colours is not None:
        for key, values, kind in (("tint", colours[0], "FLOAT_COLOR"), ("gloss", colours[1], "FLOAT_COLOR")):
            attribute = data.attributes.new(key, kind, "POINT")
            attribute.data.foreach_set("color", np.c_[values, np.ones(len(values))].astype(np.float32).ravel())
    data.update()
    thing = bpy.data.objects.new(name, data)
    bpy.context.collection.objects.link(thing)
    return thing


def in_world(points, offset):
    """Card's millimetres (y down) to the scene's (y up)."""
    points = np.asarray(points, float)
    return np.c_[points[:, 0] - offset[0], -(points[:, 1] - offset[1]), points[:, 2]]


def lamp(kind, at, to, size, power, colour):
    data = bpy.data.lights.new("lamp", "AREA")
    data.shape = "RECTANGLE" if kind == "area" else "DISK"
    data.size = size[0]
    if kind == "area":
        data.size_y = size[1]
    data.energy, data.color = power, colour
    thing = bpy.data.objects.new("lamp", data)
    thing.location = at
    thing.rotation_euler = (Vector(to) - Vector(at)).to_track_quat("-Z", "Y").to_euler()
    bpy.context.collection.objects.link(thing)


def light(rng, camera_at, kind):
    """Irradiances about 1 to 3 at the middle; the phone sets its exposure later."""
    def add(shape, at, size, irradiance, colour):
        at = np.array(at, float)
        far = np.linalg.norm(at)
        lamp(shape, at, (0, 0, 0), size, irradiance * 4 * far ** 2 / max(0.15, at[2] / far), colour)
    warm = (1, float(rng.uniform(0.8, 0.97)), float(rng.uniform(0.55, 0.92)))
    cool = (float(rng.uniform(0.85, 0.95)), 0.97, 1)
    ambient = float(rng.uniform(0.15, 0.45))
    turn = rng.uniform(0, 2 * np.pi)
    around = lambda angle, out, up: (out * np.cos(turn + angle), out * np.sin(turn + angle), up)
    if kind == "tubes":
        add("area", around(0, rng.uniform(300, 800), rng.uniform(900, 1600)), (1200, 30), 1.1, cool)
        add("area", around(np.pi, rng.uniform(300, 900), rng.uniform(900, 1600)), (1200, 30), 0.7, cool)
        if rng.random() < 0.6:
            add("disk", around(1.3, 400, 800), (12, 12), 0.4, warm)
    elif kind == "window":
        add("area", around(0, 1300, rng.uniform(500, 1100)), (1100, 1300), 2.0, cool)
        add("disk", around(2.5, 500, 900), (60, 60), 0.25, warm)
    elif kind == "lamp":
        add("disk", around(0, rng.uniform(150, 500), rng.uniform(300, 700)), (float(rng.uniform(8, 120)),) * 2, 1.6, warm)
        ambient *= 0.7
    elif kind == "flash":
        side = np.array(camera_at) + [rng.uniform(-12, 12), rng.uniform(-12, 12), 3]
        add("disk", side, (4, 4), 2.2, (1, 0.98, 0.95))
    elif kind == "low":
        add("disk", around(0, rng.uniform(250, 400), rng.uniform(80, 180)), (25, 25), 1.2, warm)
        add("area", around(2, 500, 1200), (1200, 40), 0.5, cool)
    world = bpy.context.scene.world or bpy.data.worlds.new("world")
    bpy.context.scene.world = world
    world.use_nodes = True
    tree = world.node_tree
    back = tree.nodes["Background"]
    sky = tree.nodes.new("ShaderNodeTexNoise")
    sky.inputs["Scale"].default_value = 1.5
    where = tree.nodes.new("ShaderNodeTexCoord")
    tree.links.new(where.outputs["Generated"], sky.inputs["Vector"])
    ramp = tree.nodes.new("ShaderNodeValToRGB")
    ramp.color_ramp.elements[0].position, ramp.color_ramp.elements[1].position = 0.35, 0.7
    ramp.color_ramp.elements[0].color = (0.25, 0.25, 0.27, 1)
    ramp.color_ramp.elements[1].color = (1.6, 1.55, 1.5, 1)
    tree.links.new(sky.outputs["Fac"], ramp.inputs["Fac"])
    tree.links.new(ramp.outputs["Color"], back.inputs["Color"])
    back.inputs["Strength"].default_value = ambient


def printed(card, layout, rng):
    """The card as an image of reflectances."""
    what = card["layouts"][layout]
    k = CARD_PX[layout]
    wide, high = what["outer"]
    white, black = float(rng.uniform(0.74, 0.86)), float(rng.uniform(0.03, 0.06))
    ink = np.zeros((int(high * k), int(wide * k)), np.float32)
    words = cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_APRILTAG_36h11)
    px = lambda mm: int(round(mm * k))
    side = what["marker_size"]
    for number, at in what["markers"].items():
        tag = cv2.aruco.drawMarker(words, int(number), px(side))
        u, v = px(at[0] - side / 2), px(at[1] - side / 2)
        ink[v:v + tag.shape[0], u:u + tag.shape[1]] = (255 - tag) / 255
    side = what["patch_size"]
    for one in what["patches"]:
        u, v, s = px(one["at"][0] - side / 2), px(one["at"][1] - side / 2), px(side)
        share = one["ink"]
        share = share + float(0.5 * share * (1 - share))
        ink[v:v + s, u:u + s] = share
        if one["ink"] == 0:
            cv2.rectangle(ink, (u, v), (u + s, v + s), 0.5, max(1, px(0.2)))
    side = what["slanted_size"]
    for at in what["slanted"]:
        box = cv2.boxPoints(((at[0] * k - 0.5, at[1] * k - 0.5), (side * k, side * k), 5.0))
        cv2.fillPoly(ink, [np.round(box * 16).astype(np.int32)], 1.0, cv2.LINE_AA, 4)
    bar = what["check_bar"]
    cv2.rectangle(ink, (px(bar["x0"]), px(bar["y"] - 0.15)), (px(bar["x1"]), px(bar["y"] + 0.15)), 1.0, -1)
    x, y, w, h = window_of(what)
    cv2.rectangle(ink, (px(x), px(y)), (px(x + w), px(y + h)), 0.35, max(1, px(0.2)))
    cv2.rectangle(ink, (0, 0), (ink.shape[1] - 1, ink.shape[0] - 1), 0.35, max(1, px(0.2)))
    return white * (1 - ink) + black * ink


def build(spec, pieces, card, rng):
    bpy.ops.wm.read_factory_settings(use_empty=True)
    layout = card["layouts"][spec["layout"]]
    offset = np.array(layout["outer"]) / 2
    spec["offset"] = offset
    x, y, w, h = window_of(layout)
    wide, high = layout["outer"]
    # the card
    reflect = printed(card, spec["layout"], rng)
    image = bpy.data.images.new("card", reflect.shape[1], reflect.shape[0], float_buffer=True)
    image.colorspace_settings.name = "Non-Color"
    pixels = np.ones((*reflect.shape, 4), np.float32)
    tint = np.array([1, float(rng.uniform(0.985, 1.01)), float(rng.uniform(0.96, 1.03))])
    pixels[..., :3] = np.clip(reflect[::-1, :, None] * tint, 0, 1)
    image.pixels.foreach_set(pixels.ravel())
    n = materials.Nodes("card")
    texture = n.new("ShaderNodeTexImage")
    texture.image, texture.interpolation, texture.extension = image, "Linear", "EXTEND"
    place = n.where((1 / wide, 1 / high, 1))
    shift = n.new("ShaderNodeVectorMath", operation="ADD")
    shift.inputs[1].default_value = (0.5, 0.5, 0)
    n.link(place, shift.inputs[0])
    n.link(shift.outputs["Vector"], texture.inputs["Vector"])
    fibre = n.noise(0.25, 5, 0.7)
    n.link(n.mix(texture.outputs["Color"], n.ramp(fibre, 0.2, 0.8, (0.96,) * 3, (1, 1, 1)), 1.0, "MULTIPLY"), n.shader.inputs["Base Color"])
    n.set(Roughness=0.8, Specular=0.25)
    n.bump([(fibre, 0.01)])
    z = spec["card_z"]
    strips = [(0, 0, wide, y), (0, y + h, wide, high), (0, y, x, y + h), (x + w, y, wide, y + h)] if spec["frame"] else [(0, 0, wide, high)]
    for a, b, c, d in strips:
        points = in_world([(a, b, z), (c, b, z), (c, d, z), (a, d, z), (a, b, z - 0.3), (c, b, z - 0.3), (c, d, z - 0.3), (a, d, z - 0.3)], offset)
        mesh("card", points, [(3, 2, 1, 0), (0, 1, 5, 4), (1, 2, 6, 5), (2, 3, 7, 6), (3, 0, 4, 7)], n.material)
    # what lies beneath
    reach = 400
    if spec["frame"]:
        material = materials.surface(spec["surface"], rng, spec["wet"])
        if spec["relief"]:
            gx, gy = np.arange(x - 3, x + w + 3, 0.4), np.arange(y - 3, y + h + 3, 0.8)
            xx, yy = np.meshgrid(gx, gy)
            points = np.c_[xx.ravel(), yy.ravel(), spec["height"](xx, yy).ravel()]
            nx = len(gx)
            a = (np.arange(len(gy) - 1)[:, None] * nx + np.arange(nx - 1)).ravel()
            mesh("floor", in_world(points, offset), np.c_[a, a + nx, a + nx + 1, a + 1].tolist(), material)
        else:
            mesh("floor", [(-reach, -reach, 0), (reach, -reach, 0), (reach, reach, 0), (-reach, reach, 0)], [(0, 1, 2, 3)], material)
        if spec["surface"] == "felt":
            felt(rng, (x, y, w, h), offset, z)
    else:
        n = materials.Nodes("table")
        base = tuple(float(v) for v in rng.uniform(0.05, 0.5, 3) * 0.3 + rng.uniform(0.03, 0.4))
        n.link(n.mix(base, tuple(0.6 * v for v in base), n.noise((20.0, 2.0), 4)), n.shader.inputs["Base Color"])
        mesh("table", [(-reach, -reach, -0.35), (reach, -reach, -0.35), (reach, reach, -0.35), (-reach, reach, -0.35)], [(0, 1, 2, 3)], n.material)
        if spec["stains"]:
            stain_on_pad(spec, rng, offset, (x, y, w, h))
    # the pieces
    points, faces, tints, glosses = [], [], [], []
    count = 0
    for piece in pieces:
        colour, metal, rough = look_of(rng, piece["material"])
        own = in_world(piece["solid"].points, offset)
        faces += [(a + count, c + count, b + count) for a, b, c in piece["solid"].faces]
        points.append(own)
        tints.append(np.tile(colour, (len(own), 1)))
        glosses.append(np.tile([metal, rough, 0], (len(own), 1)))
        count += len(own)
    if points:
        mesh("pieces", np.vstack(points), faces, materials.pieces_material(spec["wet"]), (np.vstack(tints), np.vstack(glosses)))
    # what is no debris
    for kind, at, size in spec["clear"]:
        ball, triangles = BALL
        flat = 0.35 if kind == "drop" else 0.8
        points = ball * [size, size, size * flat] + [0, 0, 0.0]
        tint = (0.95, 0.95, 0.95) if kind == "bubble" else [(0.85, 0.5, 0.2), (0.85, 0.35, 0.2), (0.9, 0.8, 0.6)][spec["oil"]]
        thing = mesh(kind, in_world(points + [at[0], at[1], 0.0], offset), [tuple(t[::-1]) for t in triangles], materials.clear_material(tint, kind == "bubble"))
        for face in thing.data.polygons:
            face.use_smooth = True
    camera_of(spec, rng, (wide, high))
    light(rng, spec["camera"]["position_mm"], spec["light"])


def stain_on_pad(spec, rng, offset, window):
    """Oil stains as thin tinted skins over the pad."""
    x, y, w, h = window
    for _ in range(spec["stains"]):
        r = rng.uniform(1, 6)
        at = (rng.uniform(x, x + w), rng.uniform(y, y + h))
        n = materials.Nodes("stain")
        n.tree.nodes.remove(n.shader)
        clear = n.new("ShaderNodeBsdfTransparent")
        tint = np.array([0.93, 0.85, 0.7]) ** rng.uniform(0.3, 1.6)
        geometry = n.new("ShaderNodeNewGeometry")
        away = n.new("ShaderNodeVectorMath", operation="DISTANCE")
        away.inputs[1].default_value = tuple(in_world([(at[0], at[1], 0.002)], offset)[0])
        n.link(geometry.outputs["Position"], away.inputs[0])
        frayed = n.new("ShaderNodeMath", operation="MULTIPLY_ADD")  # paper drinks unevenly
        frayed.inputs[1].default_value = float(rng.uniform(0.2, 0.7) * r)
        n.link(n.noise(float(rng.uniform(0.3, 1.5)), 4, 0.6), frayed.inputs[0])
        n.link(away.outputs["Value"], frayed.inputs[2])
        scaled = n.new("ShaderNodeMath", operation="DIVIDE")
        scaled.inputs[1].default_value = 1.4 * r
        n.link(frayed.outputs["Value"], scaled.inputs[0])
        ramp = n.ramp(scaled.outputs["Value"], float(rng.uniform(0.1, 0.6)), 1.0, tuple(float(v) for v in tint), (1, 1, 1))
        ramp.node.color_ramp.interpolation = "EASE"
        n.link(ramp, clear.inputs["Color"])
        n.link(clear.outputs["BSDF"], n.out.inputs["Surface"])
        side = 1.5 * r
        square = np.array([(-1, -1), (1, -1), (1, 1), (-1, 1)]) * side + at
        mesh("stain", in_world(np.c_[square, np.full(4, 0.002 + 0.0005 * rng.random())], offset), [(0, 1, 2, 3)], n.material)


def felt(rng, window, offset, top):
    """Threads over threads."""
    x, y, w, h = window
    n = materials.Nodes("thread")
    tint = n.new("ShaderNodeAttribute", attribute_name="tint")
    n.link(tint.outputs["Color"], n.shader.inputs["Base Color"])
    n.set(Roughness=0.9, Specular=0.2)
    many = int(w * h * rng.uniform(2.0, 5.0))
    steps, sides = 7, 3
    way = rng.uniform(0, 2 * np.pi, many)[:, None] + np.cumsum(rng.normal(0, 0.35, (many, steps)), 1)
    length = rng.uniform(1.5, 5, many)[:, None]
    start = np.c_[rng.uniform(x - 1, x + w + 1, many), rng.uniform(y - 1, y + h + 1, many)]
    px = start[:, :1] + np.cumsum(np.cos(way) * length / steps, 1)
    py = start[:, 1:] + np.cumsum(np.sin(way) * length / steps, 1)
    z = np.repeat(rng.uniform(-0.05, 0.06, many)[:, None], steps, 1) + rng.normal(0, 0.012, (many, steps))
    radius = rng.uniform(0.008, 0.02, many)[:, None]
    normal = np.stack([-np.sin(way), np.cos(way)], 2)
    rings = []
    for j in range(sides):
        angle = 2 * np.pi * j / sides
        rings.append(np.stack([px + radius * np.cos(angle) * normal[..., 0], py + radius * np.cos(angle) * normal[..., 1], z + radius * np.sin(angle)], 2))
    points = np.stack(rings, 2).reshape(-1, 3)
    first = (np.arange(many)[:, None, None] * steps * sides + np.arange(steps - 1)[None, :, None] * sides)
    j = np.arange(sides)
    quads = np.stack([first + j, first + (j + 1) % sides, first + (j + 1) % sides + sides, first + j + sides], 3).reshape(-1, 4)
    base = rng.uniform(0.35, 0.8)
    shade = np.clip(base * np.exp(0.18 * rng.normal(size=many)), 0.05, 0.95)[:, None] * np.array([1, rng.uniform(0.85, 1), rng.uniform(0.65, 1)])
    tints = np.repeat(shade, steps * sides, 0)
    mesh("felt", in_world(points, offset), quads.tolist(), n.material, (tints, tints))


def camera_of(spec, rng, outer):
    f35, tilt, azimuth = float(rng.uniform(23.5, 28)), np.radians(spec["tilt"]), rng.uniform(0, 2 * np.pi)
    roll = np.radians(rng.normal(0, 4) + (180 if rng.random() < 0.15 else 0))
    f_px = f35 / 43.2666 * np.hypot(WIDE, HIGH)
    out = np.array([np.sin(tilt) * np.cos(azimuth), np.sin(tilt) * np.sin(azimuth), np.cos(tilt)])
    back = out
    right = np.cross([0, 1, 0], back)
    right /= np.linalg.norm(right)
    up = np.cross(back, right)
    right, up = np.cos(roll) * right + np.sin(roll) * up, -np.sin(roll) * right + np.cos(roll) * up
    turn = np.c_[right, up, back]
    corners = np.array([(sx * outer[0] / 2, sy * outer[1] / 2, 0) for sx in (-1, 1) for sy in (-1, 1)])
    fill = rng.uniform(0.86, 0.94)
    far = 60.0
    for _ in range(400):
        at = out * far
        seen = (corners - at) @ turn
        u, v = f_px * seen[:, 0] / -seen[:, 2], f_px * seen[:, 1] / -seen[:, 2]
        if np.abs(u).max() < fill * WIDE / 2 and np.abs(v).max() < fill * HIGH / 2:
            break
        far += 0.7
    spec["camera"] = dict(width=WIDE, height=HIGH, f_px=float(f_px), f35=f35, R_cam_to_world=turn.tolist(), position_mm=at.tolist(), distance_mm=float(far),
                          tilt_deg=spec["tilt"], centre_px=[(WIDE - 1) / 2, (HIGH - 1) / 2], origin_offset_mm=[outer[0] / 2, outer[1] / 2])
    spec["distortion"] = dict(k1=float(rng.uniform(-0.03, 0.03)), k2=float(rng.uniform(-0.012, 0.012)))
    data = bpy.data.cameras.new("camera")
    data.sensor_fit, data.sensor_width = "HORIZONTAL", 36.0
    wide = int(round(WIDE * RENDERED * OVERSCAN))
    data.lens = f_px * RENDERED * 36.0 / wide
    data.clip_start, data.clip_end = 1, 10000
    thing = bpy.data.objects.new("camera", data)
    frame = np.eye(4)
    frame[:3, :3], frame[:3, 3] = turn, at
    thing.matrix_world = Matrix(frame.tolist())
    bpy.context.collection.objects.link(thing)
    bpy.context.scene.camera = thing
    # the phone itself keeps light off and is mirrored
    n = materials.Nodes("phone")
    n.set(Roughness=0.3)
    n.shader.inputs["Base Color"].default_value = (0.03, 0.03, 0.03, 1)
    behind = np.array(at) + 5 * back
    points = [behind + right * a + up * b for a, b in ((-15, -120), (60, -120), (60, 25), (-15, 25))]
    mesh("phone", points, [(0, 1, 2, 3)], n.material)


def trace(spec, seed, out):
    scene = bpy.context.scene
    scene.render.engine = "CYCLES"
    cycles = scene.cycles
    cycles.samples, cycles.use_denoising, cycles.seed = SAMPLES, False, seed
    cycles.use_adaptive_sampling = False
    cycles.max_bounces, cycles.diffuse_bounces, cycles.glossy_bounces, cycles.transmission_bounces, cycles.transparent_max_bounces = 5, 2, 3, 4, 8
    cycles.caustics_reflective = cycles.caustics_refractive = False
    cycles.sample_clamp_indirect = 4.0
    cycles.sample_clamp_direct = 0
    cycles.pixel_filter_type, cycles.filter_width = "BLACKMAN_HARRIS", 1.3
    scene.render.resolution_x, scene.render.resolution_y = int(round(WIDE * RENDERED * OVERSCAN)), int(round(HIGH * RENDERED * OVERSCAN))
    scene.render.resolution_percentage = 100
    corners = photo_from_card(spec, np.array([(0, 0), (1, 0), (0, 1), (1, 1)]) * 2 * spec["offset"]) / [WIDE, HIGH] - 0.5
    low, high = [np.clip(side / OVERSCAN + 0.5 + more, 0, 1) for side, more in ((corners.min(0), -0.015), (corners.max(0), 0.015))]
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
    whole = pixels.reshape(scene.render.resolution_y, scene.render.resolution_x, 4)[::-1, :, 2::-1].copy()
    left, right = int(low[0] * whole.shape[1]) + 3, int(high[0] * whole.shape[1]) - 3
    top, bottom = int(low[1] * whole.shape[0]) + 3, int(high[1] * whole.shape[0]) - 3
    part = np.ascontiguousarray(whole[top:bottom, left:right])  # beyond the card: nothing anybody looks at
    return cv2.copyMakeBorder(part, top, whole.shape[0] - bottom, left, whole.shape[1] - right, cv2.BORDER_REPLICATE)


def photo_from_card(spec, points):
    camera, lens, offset = spec["camera"], spec["distortion"], spec["offset"]
    world = in_world(np.c_[points, np.full(len(points), spec["card_z"])], offset)
    seen = (world - np.array(camera["position_mm"])) @ np.array(camera["R_cam_to_world"])
    u, v = seen[:, 0] / -seen[:, 2], -seen[:, 1] / -seen[:, 2]
    r2 = u * u + v * v
    bend = camera["f_px"] * (1 + lens["k1"] * r2 + lens["k2"] * r2 * r2)
    return np.c_[camera["centre_px"][0] + bend * u, camera["centre_px"][1] + bend * v]
