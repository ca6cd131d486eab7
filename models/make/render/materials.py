# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""What things are made of, for Blender's light tracer: surfaces with their oil, pieces, drops and bubbles."""
import bpy
import numpy as np


class Nodes:
    def __init__(self, name):
        self.material = bpy.data.materials.new(name)
        self.material.use_nodes = True
        self.tree = self.material.node_tree
        self.shader = self.tree.nodes["Principled BSDF"]
        self.out = self.tree.nodes["Material Output"]

    def new(self, kind, **values):
        node = self.tree.nodes.new(kind)
        for key, value in values.items():
            if key in node.inputs.keys():
                node.inputs[key].default_value = value
            else:
                setattr(node, key, value)
        return node

    def link(self, source, target):
        self.tree.links.new(source, target)

    def set(self, **values):
        for key, value in values.items():
            self.shader.inputs[key.replace("_", " ")].default_value = value

    def where(self, scale=(1, 1, 1), turn=0.0):
        geometry = self.new("ShaderNodeNewGeometry")
        mapping = self.new("ShaderNodeMapping")
        mapping.inputs["Scale"].default_value = scale
        mapping.inputs["Rotation"].default_value = (0, 0, turn)
        self.link(geometry.outputs["Position"], mapping.inputs["Vector"])
        return mapping.outputs["Vector"]

    def noise(self, size, detail=4, rough=0.55, turn=0.0, distortion=0.0):
        """Noise with features of about `size` mm (or of two sizes, x and y)."""
        sx, sy = size if isinstance(size, tuple) else (size, size)
        node = self.new("ShaderNodeTexNoise", Scale=1.0, Detail=detail, Roughness=rough, Distortion=distortion)
        self.link(self.where((1 / sx, 1 / sy, 1 / max(sx, sy)), turn), node.inputs["Vector"])
        return node.outputs["Fac"]

    def ramp(self, value, low, high, a=(0, 0, 0), b=(1, 1, 1)):
        node = self.new("ShaderNodeValToRGB")
        node.color_ramp.elements[0].position, node.color_ramp.elements[1].position = low, high
        node.color_ramp.elements[0].color, node.color_ramp.elements[1].color = (*a, 1), (*b, 1)
        self.link(value, node.inputs["Fac"])
        return node.outputs["Color"]

    def mix(self, a, b, amount, how="MIX"):
        node = self.new("ShaderNodeMixRGB", blend_type=how)
        for value, slot in ((a, "Color1"), (b, "Color2"), (amount, "Fac")):
            if isinstance(value, (tuple, list)):
                node.inputs[slot].default_value = (*value, 1)
            elif isinstance(value, (int, float)):
                node.inputs[slot].default_value = value
            else:
                self.link(value, node.inputs[slot])
        return node.outputs["Color"]

    def bump(self, heights):
        """@param heights  list of (value socket, mm of relief)"""
        normal = None
        for value, relief in heights:
            node = self.new("ShaderNodeBump", Strength=1.0, Distance=relief)
            self.link(value, node.inputs["Height"])
            if normal is not None:
                self.link(normal, node.inputs["Normal"])
            normal = node.outputs["Normal"]
        self.link(normal, self.shader.inputs["Normal"])


def oil(n, rng, colour, amount, wet):
    """Oil on a surface: tints in patches, shines."""
    tint = [(0.72, 0.4, 0.2), (0.8, 0.35, 0.25), (0.55, 0.4, 0.22), (0.85, 0.7, 0.45)][rng.integers(4)]
    patches = n.ramp(n.noise(rng.uniform(12, 40), 5, 0.6), rng.uniform(0.3, 0.5), rng.uniform(0.52, 0.8))
    out = n.mix(colour, tint, n.mix((0, 0, 0), patches, amount), "MULTIPLY")
    if wet:
        coat = n.ramp(n.noise(rng.uniform(15, 50), 3), 0.35, 0.55)
        n.link(coat, n.shader.inputs["Clearcoat"])
        n.set(Clearcoat_Roughness=float(rng.uniform(0.02, 0.12)))
    return out


def surface(kind, rng, wet):
    n = Nodes("surface")
    colour_in = n.shader.inputs["Base Color"]
    amount = float(rng.uniform(0.2, 0.9))
    heights = []
    if kind == "steel":
        base = float(rng.uniform(0.4, 0.62))
        grain = n.noise((float(rng.uniform(2, 8)), float(rng.uniform(0.06, 0.2))), 3, turn=float(rng.uniform(0, 3.2)))
        colour = n.mix((base,) * 3, (base * 0.75,) * 3, grain)
        n.set(Metallic=1.0, Roughness=float(rng.uniform(0.28, 0.5)))
        heights += [(grain, 0.01), (n.noise(float(rng.uniform(0.2, 0.6)), 5, 0.7), float(rng.uniform(0.004, 0.02))), (n.noise(25.0, 2), 0.6)]
    elif kind == "black paint":
        base = float(rng.uniform(0.008, 0.05))
        colour = n.mix((base,) * 3, tuple(base * v for v in (1.6, 1.5, 1.4)), n.noise(float(rng.uniform(3, 30)), 5))
        n.set(Roughness=float(rng.uniform(0.15, 0.5)), Specular=0.5)
        heights += [(n.noise(float(rng.uniform(0.5, 1.5)), 2), float(rng.uniform(0.005, 0.03))), (n.noise(0.15, 3), 0.002), (n.noise(25.0, 2), 0.5)]
    elif kind == "grey paint":
        base = float(rng.uniform(0.12, 0.45))
        shade = (base * float(rng.uniform(0.9, 1.1)), base, base * float(rng.uniform(0.9, 1.15)))
        colour = n.mix(shade, tuple(0.8 * v for v in shade), n.noise(float(rng.uniform(3, 30)), 5))
        n.set(Roughness=float(rng.uniform(0.2, 0.6)))
        heights += [(n.noise(float(rng.uniform(0.5, 2)), 2), float(rng.uniform(0.005, 0.03)))]
    elif kind == "cast":
        base = float(rng.uniform(0.5, 0.75))
        colour = n.mix((base,) * 3, (base * 0.6,) * 3, n.noise(float(rng.uniform(0.3, 2)), 4))
        n.set(Metallic=float(rng.choice([1.0, 1.0, 0.6])), Roughness=float(rng.uniform(0.35, 0.6)))
        heights += [(n.noise(float(rng.uniform(0.5, 1.6)), 4, 0.6), float(rng.uniform(0.05, 0.22))), (n.noise(20.0, 2), 0.6)]
    elif kind == "stainless":
        base = float(rng.uniform(0.5, 0.68))
        turn = float(rng.uniform(0, 3.2))
        grain = n.noise((float(rng.uniform(10, 40)), float(rng.uniform(0.05, 0.15))), 2, turn=turn)
        colour = n.mix((base,) * 3, (base * 0.85,) * 3, grain)
        n.set(Metallic=1.0, Roughness=float(rng.uniform(0.18, 0.38)))
        heights += [(grain, float(rng.uniform(0.002, 0.01))), (n.noise(40.0, 2), 0.5)]
    elif kind in ("paper", "pleats"):
        base = float(rng.uniform(0.55, 0.85))
        warm = [(1, 1, 1), (1, 0.96, 0.88), (1, 0.9, 0.75), (0.97, 0.98, 1)][rng.integers(4)]
        shade = tuple(base * v for v in warm)
        colour = n.mix(shade, tuple(0.88 * v for v in shade), n.noise(float(rng.uniform(0.2, 0.8)), 6, 0.7))
        n.set(Roughness=0.9, Specular=0.2)
        heights += [(n.noise(float(rng.uniform(0.15, 0.5)), 5, 0.7), float(rng.uniform(0.01, 0.05)))]
    elif kind == "felt":
        base = float(rng.uniform(0.3, 0.7))
        colour = n.mix((base, base * 0.9, base * 0.75), (base * 0.6, base * 0.52, base * 0.4), n.noise(0.3, 6, 0.7))
        n.set(Roughness=1.0, Specular=0.1)
        heights += [(n.noise(0.3, 6, 0.7), 0.1)]
    else:
        raise ValueError(kind)
    colour = oil(n, rng, colour, amount if kind not in ("paper",) or rng.random() < 0.7 else 0.0, wet)
    n.link(colour, colour_in)
    n.bump(heights)
    return n.material


def pieces_material(wet):
    n = Nodes("pieces")
    tint = n.new("ShaderNodeAttribute", attribute_name="tint")
    gloss = n.new("ShaderNodeAttribute", attribute_name="gloss")
    parts = n.new("ShaderNodeSeparateRGB")
    n.link(gloss.outputs["Color"], parts.inputs["Image"])
    grain = n.noise(0.06, 5, 0.7)
    darker = n.mix(tint.outputs["Color"], (0.45, 0.42, 0.4), 1.0, "MULTIPLY")  # burnt or oxidised in patches
    patches = n.ramp(n.noise(0.12, 4, 0.7), 0.4, 0.7)
    n.link(n.mix(tint.outputs["Color"], darker, patches), n.shader.inputs["Base Color"])
    n.link(parts.outputs["R"], n.shader.inputs["Metallic"])
    n.link(parts.outputs["G"], n.shader.inputs["Roughness"])
    n.set(Clearcoat=1.0 if wet else 0.0, Clearcoat_Roughness=0.05)
    n.bump([(grain, 0.006)])
    return n.material


def clear_material(tint, bubble):
    """A drop of oil or a bubble: what lies behind shows, its skin mirrors; light passes."""
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
    n.link(path.outputs["Is Shadow Ray"], both.inputs["Fac"])
    n.link(seen.outputs["Shader"], both.inputs[1])
    n.link(passing.outputs["BSDF"], both.inputs[2])
    n.link(both.outputs["Shader"], n.out.inputs["Surface"])
    return n.material
