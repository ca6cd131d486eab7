# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""The scene in front of the phone, built for Blender: card, surface, pieces, lamps, camera."""
import bpy
import numpy as np

from render import card, cloth, film, lamps, materials
from render.camera import camera_of
from render.looks import look_of
from render.nodes import Nodes
from render.solids import BALL
from render.stage import grid, in_world, mesh

REACH = 400  # mm: how far the table goes


def square(z, side=REACH):
    return [(-side, -side, z), (side, -side, z), (side, side, z), (-side, side, z)]


def build(spec, pieces, known_card, rng):
    bpy.ops.wm.read_factory_settings(use_empty=True)
    layout = known_card["layouts"][spec["layout"]]
    spec["offset"] = np.array(layout["outer"]) / 2
    card.card(spec, pieces, layout, rng)
    if spec["frame"]:
        floor(spec, rng)
    else:
        table(rng)
    debris(spec, pieces, rng)
    clear_things(spec)
    camera_of(spec, rng, layout["outer"])
    lamps.light(rng, spec)


def floor(spec, rng):
    """The surface under the frame."""
    x, y, w, h = spec["window"]
    material = materials.surface(spec, rng)
    if spec["relief"]:
        grid("floor", (x - 3, y - 3, x + w + 3, y + h + 3), (0.4, 0.8), spec["height"], material, spec["offset"])
        mesh("floor around", square(-1.0), [(0, 1, 2, 3)], material)
    else:
        mesh("floor", square(0), [(0, 1, 2, 3)], material)
    if spec["made_of"] in ("felt", "dark felt"):
        cloth.felt(rng, spec)
    if spec["film"]:
        film.film(spec, rng)


def table(rng):
    """The table under a white card."""
    n = Nodes("table")
    base = tuple(float(v) for v in rng.uniform(0.05, 0.5, 3) * 0.3 + rng.uniform(0.01, 0.4))
    grain = n.noise((float(rng.choice([2, 20, 60])), 2.0), 4, turn=float(rng.uniform(0, 3.2)))
    n.link(n.mix(base, tuple(float(rng.uniform(0.4, 1)) * v for v in base), grain), n.shader.inputs["Base Color"])
    n.set(Roughness=float(rng.uniform(0.25, 0.8)), Metallic=float(rng.random() < 0.15))
    n.bump([(n.noise(float(rng.uniform(0.4, 3)), 3), float(rng.uniform(0.0, 0.08)))])
    mesh("table", square(-0.35), [(0, 1, 2, 3)], n.material)


def debris(spec, pieces, rng):
    points, faces, tints, glosses = [], [], [], []
    count = 0
    for piece in pieces:
        solid = piece["solid"]
        tint, gloss = look_of(rng, piece["material"], solid.points, spec)
        own = in_world(solid.points, spec["offset"])
        faces += [(a + count, c + count, b + count) for a, b, c in solid.faces]
        points.append(own)
        tints.append(tint)
        glosses.append(gloss)
        count += len(own)
    if points:
        mesh("pieces", np.vstack(points), faces, materials.pieces_material(), (np.vstack(tints), np.vstack(glosses)))


def clear_things(spec):
    """Things that are not debris: drops and bubbles."""
    for kind, at, size in spec["clear"]:
        ball, triangles = BALL
        points = ball * [size, size, size * (0.35 if kind == "drop" else 0.8)]
        tint = (0.95, 0.95, 0.95) if kind == "bubble" else [(0.85, 0.5, 0.2), (0.85, 0.35, 0.2), (0.9, 0.8, 0.6)][spec["oil"]]
        mesh(kind, in_world(points + [at[0], at[1], 0.0], spec["offset"]), [tuple(t[::-1]) for t in triangles],
             materials.clear_material(tint, kind == "bubble"), smooth=True)
