# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""Materials for Blender's light tracer: surfaces with their oil and marks, pieces, drops and bubbles."""
import numpy as np

from render import marks
from render.nodes import Nodes
from render.surfaces import BARE_METAL, HARD, MADE_OF

TINTS = [(0.72, 0.4, 0.2), (0.8, 0.35, 0.25), (0.55, 0.4, 0.22), (0.85, 0.7, 0.45), (0.35, 0.28, 0.2), (0.2, 0.18, 0.16), (0.9, 0.8, 0.6)]


def oil(n, rng, colour, spec):
    """Oil on a surface: tints in patches, and where it is wet, shines."""
    for _ in range(int(rng.integers(1, 3)) if spec["oily"] else 0):
        tint = TINTS[rng.integers(len(TINTS))]
        low = float(rng.uniform(0.3, 0.55))
        soft = float(rng.choice([0.04, 0.12, 0.3]))  # a visible edge, or none
        patches = n.ramp(n.noise(float(rng.uniform(8, 45)), 5, 0.6), low, low + soft)
        colour = n.mix(colour, tint, n.mix((0, 0, 0), patches, float(rng.uniform(0.1, 0.85))), "MULTIPLY")
    if spec["wet"]:
        coat = n.ramp(n.noise(float(rng.uniform(15, 50)), 3), 0.35, float(rng.choice([0.4, 0.55])))
        n.link(coat, n.shader.inputs["Clearcoat"])
        n.set(Clearcoat_Roughness=float(rng.uniform(0.02, 0.15)))
        n.bump([(n.noise(float(rng.uniform(4, 25)), 2), float(rng.uniform(0.02, 0.3)))], "Clearcoat Normal")
    return colour


def worn(n, rng, colour, spec):
    """Scratches and stampings. @return the colour, more relief"""
    heights = []
    kind = spec["made_of"]
    if kind in HARD and rng.random() < 0.55:
        lines = marks.laid(n, spec, marks.scratches(rng, spec), "scratches")
        bright = (0.75, 0.75, 0.75) if kind in BARE_METAL or rng.random() < 0.4 else tuple(float(rng.uniform(0.1, 0.6)) for _ in range(1)) * 3
        colour = n.mix(colour, bright, n.mix((0, 0, 0), lines, float(rng.uniform(0.1, 0.9))))
        heights.append((lines, -float(rng.uniform(0.005, 0.04))))
    if kind in HARD and rng.random() < 0.35:
        heights.append((marks.laid(n, spec, marks.stamping(rng, spec), "stamping"), float(rng.choice([-1, 1]) * rng.uniform(0.1, 0.6))))
    return colour, heights


def surface(spec, rng):
    n = Nodes("surface")
    colour, heights = MADE_OF[spec["made_of"]](n, rng, spec)
    colour, more = worn(n, rng, colour, spec)
    n.bump(heights + more)
    n.link(oil(n, rng, colour, spec), n.shader.inputs["Base Color"])
    return n.material


def pieces_material():
    """Colour, metallic, roughness and coat of oil come with each piece."""
    n = Nodes("pieces")
    tint = n.new("ShaderNodeAttribute", attribute_name="tint")
    gloss = n.new("ShaderNodeAttribute", attribute_name="gloss")
    parts = n.new("ShaderNodeSeparateRGB")
    n.link(gloss.outputs["Color"], parts.inputs["Image"])
    darker = n.mix(tint.outputs["Color"], (0.45, 0.42, 0.4), 1.0, "MULTIPLY")  # burnt or oxidised in patches
    patches = n.ramp(n.noise(0.12, 4, 0.7), 0.4, 0.7)
    n.link(n.mix(tint.outputs["Color"], darker, patches), n.shader.inputs["Base Color"])
    n.link(parts.outputs["R"], n.shader.inputs["Metallic"])
    n.link(parts.outputs["G"], n.shader.inputs["Roughness"])
    n.link(parts.outputs["B"], n.shader.inputs["Clearcoat"])
    n.set(Clearcoat_Roughness=0.06)
    n.bump([(n.noise(0.06, 5, 0.7), 0.006), (n.noise((0.4, 0.03), 2), 0.003)])
    return n.material


def clear_material(tint, bubble):
    """A drop of oil or a bubble: things behind it show, its skin mirrors. Light, and rays mirrored
    once, pass straight through it; bent rays would only sparkle."""
    n = Nodes("clear")
    n.tree.nodes.remove(n.shader)
    through = n.new("ShaderNodeBsdfTransparent" if bubble else "ShaderNodeBsdfRefraction")
    through.inputs["Color"].default_value = (*tint, 1)
    if not bubble:
        through.inputs["IOR"].default_value = 1.45
        through.inputs["Roughness"].default_value = 0.0
    mirror = n.new("ShaderNodeBsdfGlossy")
    mirror.inputs["Roughness"].default_value = 0.02
    skin = n.new("ShaderNodeFresnel", IOR=1.45)
    seen = n.new("ShaderNodeMixShader")
    n.link(skin.outputs["Fac"], seen.inputs["Fac"])
    n.link(through.outputs["BSDF"], seen.inputs[1])
    n.link(mirror.outputs["BSDF"], seen.inputs[2])
    path = n.new("ShaderNodeLightPath")
    passing = n.new("ShaderNodeBsdfTransparent")
    passing.inputs["Color"].default_value = (*(0.5 + 0.5 * np.array(tint)), 1)
    both = n.new("ShaderNodeMixShader")
    n.link(path.outputs["Is Camera Ray"], both.inputs["Fac"])
    n.link(passing.outputs["BSDF"], both.inputs[1])
    n.link(seen.outputs["Shader"], both.inputs[2])
    n.link(both.outputs["Shader"], n.out.inputs["Surface"])
    return n.material
