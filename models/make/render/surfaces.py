# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""The material of a surface under the frame. Each function sets colour, gloss and relief on the given nodes and returns
the colour socket and a list of (height socket, mm of relief)."""
import numpy as np

from render import marks


def lot(rng, low, high):
    return float(rng.uniform(low, high))


def grey(value, *times):
    return tuple(float(np.clip(value * t, 0, 1)) for t in times or (1, 1, 1))


def steel(n, rng, spec):
    base = lot(rng, 0.4, 0.62)
    grain = n.noise((lot(rng, 2, 8), lot(rng, 0.06, 0.2)), 3, turn=lot(rng, 0, 3.2))
    n.set(Metallic=1.0, Roughness=lot(rng, 0.28, 0.5))
    return n.mix(grey(base), grey(base * 0.75), grain), [(grain, 0.01), (n.noise(lot(rng, 0.2, 0.6), 5, 0.7), lot(rng, 0.004, 0.02)), (n.noise(25.0, 2), 0.6)]


def stainless(n, rng, spec):
    base = lot(rng, 0.5, 0.68)
    grain = n.noise((lot(rng, 10, 40), lot(rng, 0.05, 0.15)), 2, turn=lot(rng, 0, 3.2))
    n.set(Metallic=1.0, Roughness=lot(rng, 0.18, 0.38))
    return n.mix(grey(base), grey(base * 0.85), grain), [(grain, lot(rng, 0.002, 0.01)), (n.noise(40.0, 2), 0.5)]


def ground_aluminium(n, rng, spec):
    """Ground or brushed, with visible single grooves."""
    base = lot(rng, 0.6, 0.82)
    turn, wide = lot(rng, 0, 3.2), lot(rng, 0.05, 0.35)
    grain = n.noise((lot(rng, 15, 80), wide), 3, 0.65, turn=turn)
    second = n.noise((lot(rng, 5, 30), 2 * wide), 2, turn=turn + lot(rng, -0.1, 0.1))
    n.set(Metallic=1.0, Roughness=lot(rng, 0.2, 0.45))
    colour = n.mix(grey(base), grey(base * 0.7, 1, 1, 1.02), n.ramp(grain, 0.3, 0.7))
    return colour, [(grain, lot(rng, 0.006, 0.03)), (second, lot(rng, 0.004, 0.03)), (n.noise(40.0, 2), 0.4)]


def cast(n, rng, spec):
    base = lot(rng, 0.5, 0.75)
    n.set(Metallic=float(rng.choice([1.0, 1.0, 0.6])), Roughness=lot(rng, 0.35, 0.6))
    return (n.mix(grey(base), grey(base * 0.6), n.noise(lot(rng, 0.3, 2), 4)),
            [(n.noise(lot(rng, 0.5, 1.6), 4, 0.6), lot(rng, 0.05, 0.22)), (n.noise(20.0, 2), 0.6)])


def rough_cast(n, rng, spec):
    """Sand or shot-blasted cast aluminium: round bumps and pits, each with a glint of every lamp."""
    base, size = lot(rng, 0.45, 0.8), lot(rng, 0.45, 2.2)
    bumps, fine = n.domes(size), n.domes(size * lot(rng, 0.3, 0.6))
    n.set(Metallic=float(rng.choice([1.0, 1.0, 0.8, 0.5])), Roughness=lot(rng, 0.22, 0.5))
    dirt = n.ramp(bumps, lot(rng, 0.1, 0.3), lot(rng, 0.5, 1.0))  # dirt stays between the bumps
    colour = n.mix(grey(base), grey(base * lot(rng, 0.5, 0.95), 1, 0.96, 0.92), dirt)
    return colour, [(bumps, -size * lot(rng, 0.03, 0.2)), (fine, -size * lot(rng, 0.02, 0.08)), (n.noise(size * 0.6, 3), size * lot(rng, 0.02, 0.15)), (n.noise(0.2, 4, 0.7), lot(rng, 0.002, 0.02)), (n.noise(25.0, 2), 0.8)]


def galvanised(n, rng, spec):
    """Zinc crystals, each mirroring another way."""
    base = lot(rng, 0.45, 0.65)
    _, one = n.cells(lot(rng, 2, 14))
    parts = n.new("ShaderNodeSeparateRGB")
    n.link(one, parts.inputs["Image"])
    frond = n.noise((lot(rng, 0.2, 0.6), lot(rng, 1, 3)), 5, 0.7, turn=lot(rng, 0, 3.2))
    shade = n.math("MULTIPLY_ADD", frond, 0.5, n.math("MULTIPLY", parts.outputs["R"], 0.6))
    n.set(Metallic=1.0)
    n.link(n.math("MULTIPLY_ADD", parts.outputs["G"], 0.25, lot(rng, 0.2, 0.32)), n.shader.inputs["Roughness"])
    tilt = lot(rng, 0.02, 0.12)
    split = n.new("ShaderNodeSeparateXYZ")
    n.link(n.where(), split.inputs["Vector"])
    y = n.math("MULTIPLY", split.outputs["Y"], n.math("SUBTRACT", parts.outputs["B"], 0.5))
    facet = n.math("MULTIPLY_ADD", split.outputs["X"], n.math("SUBTRACT", parts.outputs["G"], 0.5), y)
    return n.mix(grey(base), grey(base * 0.62, 0.98, 1, 1.04), shade), [(facet, tilt), (frond, 0.01), (n.noise(40.0, 2), 0.5)]


def paint(n, rng, shade, rough):
    """Orange peel, dust under the paint."""
    n.set(Roughness=rough, Specular=0.5)
    if rng.random() < 0.5:
        n.set(Clearcoat=lot(rng, 0.3, 1), Clearcoat_Roughness=lot(rng, 0.02, 0.15))
    colour = n.mix(shade, tuple(lot(rng, 0.75, 1.5) * v for v in shade), n.noise(lot(rng, 3, 30), 5))
    peel = n.noise(lot(rng, 0.5, 3), 2)
    return colour, [(peel, lot(rng, 0.005, 0.06)), (n.noise(0.15, 3), lot(rng, 0, 0.004)), (n.noise(25.0, 2), 0.5)]


def black_paint(n, rng, spec):
    base = lot(rng, 0.006, 0.05)
    return paint(n, rng, grey(base, *(lot(rng, 0.9, 1.15) for _ in range(3))), lot(rng, 0.12, 0.55))


def grey_paint(n, rng, spec):
    base = lot(rng, 0.1, 0.5)
    return paint(n, rng, grey(base, lot(rng, 0.85, 1.1), 1, lot(rng, 0.85, 1.2)), lot(rng, 0.15, 0.6))


def enamel(n, rng, spec):
    """White, cream, blue, black; a third with specks all over."""
    shades = [(0.75, 0.76, 0.76), (0.72, 0.66, 0.5), (0.03, 0.05, 0.16), (0.02, 0.02, 0.02), (0.1, 0.2, 0.12), (0.45, 0.5, 0.52)]
    shade = shades[rng.integers(len(shades))]
    n.set(Roughness=lot(rng, 0.04, 0.2), Specular=0.6)
    colour = n.mix(shade, tuple(0.9 * v for v in shade), n.noise(lot(rng, 5, 30), 3))
    if rng.random() < 0.4:
        speck, _ = n.cells(lot(rng, 0.5, 2.0))
        other = grey(0.7) if max(shade) < 0.3 else grey(lot(rng, 0.03, 0.3))
        colour = n.mix(other, colour, n.ramp(n.math("ADD", speck, n.math("MULTIPLY", n.noise(0.3, 3), lot(rng, 0, 0.3))), lot(rng, 0.15, 0.3), lot(rng, 0.31, 0.4)))
    return colour, [(n.noise(lot(rng, 2, 8), 2), lot(rng, 0.01, 0.12)), (n.noise(30.0, 2), 0.4)]


def filter_paper(n, rng, spec):
    """Filter paper, light to brown; stained and flecked as paper is."""
    kind = str(rng.choice(["plain", "fibrous", "flecked", "recycled"]))
    spec["paper_under"] = kind
    colour = marks.laid(n, spec, marks.flecked(rng, spec, kind), "paper under")
    warm = [(1, 1, 1), (1, 0.96, 0.88), (1, 0.9, 0.72), (0.97, 0.98, 1), (0.9, 0.7, 0.45)][rng.integers(5)]
    colour = n.mix(colour, warm, 1.0, "MULTIPLY")
    colour = n.mix(colour, n.ramp(n.noise(lot(rng, 0.2, 0.8), 6, 0.7), 0.3, 0.7, (0.86,) * 3, (1, 1, 1)), 1.0, "MULTIPLY")
    n.set(Roughness=0.9, Specular=0.2)
    heights = [(n.noise(lot(rng, 0.15, 0.5), 5, 0.7), lot(rng, 0.01, 0.06))]
    if rng.random() < 0.25:  # embossed
        heights.append((n.domes(lot(rng, 0.8, 3)), lot(rng, 0.02, 0.15)))
    return colour, heights


def felt(n, rng, spec):
    base = spec["felt"]
    warm = grey(base, 1, lot(rng, 0.82, 0.97), lot(rng, 0.6, 0.95))
    colour = n.mix(warm, tuple(0.6 * v for v in warm), n.noise(0.3, 6, 0.7))
    n.set(Roughness=1.0 if not spec["oily"] else lot(rng, 0.45, 0.8), Specular=0.1 if not spec["oily"] else 0.5)
    return colour, [(n.noise(0.3, 6, 0.7), 0.1)]


def cloth(n, rng, spec):
    height, shade = marks.weave(rng, spec)
    dyes = [(0.8, 0.8, 0.78), (0.7, 0.62, 0.48), (0.25, 0.35, 0.55), (0.6, 0.14, 0.12), (0.3, 0.3, 0.3), (0.06, 0.06, 0.07), (0.45, 0.5, 0.42)]
    dye = tuple(float(min(1, v * lot(rng, 0.8, 1.3) / 0.6)) for v in dyes[rng.integers(len(dyes))])
    colour = n.mix(marks.laid(n, spec, shade, "shade"), dye, 1.0, "MULTIPLY")
    colour = n.mix(colour, n.ramp(n.noise((0.15, 0.4), 4, 0.7), 0.3, 0.7, (0.75,) * 3, (1.1,) * 3), 1.0, "MULTIPLY")
    n.set(Roughness=0.95, Specular=0.15)
    return colour, [(marks.laid(n, spec, height, "weave"), lot(rng, 0.08, 0.25)), (n.noise(0.12, 4, 0.7), 0.02), (n.noise(15.0, 2), lot(rng, 0, 1.2))]


MADE_OF = {"steel": steel, "black paint": black_paint, "cast": cast, "stainless": stainless, "paper": filter_paper, "pleats": filter_paper,
           "felt": felt, "grey paint": grey_paint, "rough cast": rough_cast, "ground aluminium": ground_aluminium, "galvanised": galvanised,
           "enamel": enamel, "dark felt": felt, "stained paper": filter_paper, "cloth": cloth, "puddle": None}
BARE_METAL = ("steel", "cast", "stainless", "rough cast", "ground aluminium", "galvanised")
HARD = BARE_METAL + ("black paint", "grey paint", "enamel", "puddle")  # oil stays on top; paper and cloth soak it up
UNDER_PUDDLE = ("steel", "cast", "rough cast", "ground aluminium", "galvanised", "grey paint", "black paint", "enamel", "stainless")
