# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""Blender's material nodes, in short words."""
import bpy


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

    def cells(self, size):
        """Cells of about `size` mm. @return distance from the cell's middle, random colour of each cell"""
        node = self.new("ShaderNodeTexVoronoi", Scale=1.0, voronoi_dimensions="2D")
        self.link(self.where((1 / size, 1 / size, 1)), node.inputs["Vector"])
        return node.outputs["Distance"], node.outputs["Color"]

    def domes(self, size):
        """Hollows of about `size` mm that meet in ridges; domes, if taken upside down."""
        away, _ = self.cells(size)
        return self.math("MULTIPLY", away, away)

    def image(self, image, box, offset, extension="EXTEND"):
        """An image laid over a box (x0, y0, x1, y1) of the card's millimetres."""
        texture = self.new("ShaderNodeTexImage", interpolation="Linear", extension=extension)
        texture.image = image
        wide, high = box[2] - box[0], box[3] - box[1]
        shift = self.new("ShaderNodeVectorMath", operation="ADD")
        shift.inputs[1].default_value = ((offset[0] - box[0]) / wide, (box[3] - offset[1]) / high, 0)
        self.link(self.where((1 / wide, 1 / high, 1)), shift.inputs[0])
        self.link(shift.outputs["Vector"], texture.inputs["Vector"])
        return texture.outputs["Color"]

    def math(self, operation, a, b=0.0, c=0.0):
        node = self.new("ShaderNodeMath", operation=operation)
        for slot, value in enumerate((a, b, c)):
            if isinstance(value, (int, float)):
                node.inputs[slot].default_value = value
            else:
                self.link(value, node.inputs[slot])
        return node.outputs["Value"]

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

    def bump(self, heights, slot="Normal"):
        """@param heights  list of (value socket, mm of relief) @param slot  whose normal: that of the body or of its clear coat"""
        normal = None
        for value, relief in heights:
            node = self.new("ShaderNodeBump", Strength=1.0, Distance=relief)
            self.link(value, node.inputs["Height"])
            if normal is not None:
                self.link(normal, node.inputs["Normal"])
            normal = node.outputs["Normal"]
        if normal is not None:
            self.link(normal, self.shader.inputs[slot])
