# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""The lamps over the scene, and the room or sky about it."""
import glob
import os

import bpy
import numpy as np
from mathutils import Vector

LAMPS = ["tubes", "tubes", "window", "window", "bench", "bench", "lamp", "flash", "low", "torch", "torch", "sun", "cloudy", "mixed", "room", "room"]


def lamp(shape, at, size, power, colour):
    data = bpy.data.lights.new("lamp", "AREA")
    data.shape = "RECTANGLE" if shape == "area" else "DISK"
    data.size = size[0]
    if shape == "area":
        data.size_y = size[1]
    data.energy, data.color = power, colour
    thing = bpy.data.objects.new("lamp", data)
    thing.location = at
    thing.rotation_euler = (-Vector(at)).to_track_quat("-Z", "Y").to_euler()
    bpy.context.collection.objects.link(thing)


def sun(way, irradiance, colour):
    data = bpy.data.lights.new("sun", "SUN")
    data.energy, data.angle, data.color = irradiance, np.radians(0.53), colour
    thing = bpy.data.objects.new("sun", data)
    thing.rotation_euler = (-Vector(way)).to_track_quat("-Z", "Y").to_euler()
    bpy.context.collection.objects.link(thing)


def warmth(rng, low, high):
    """A lamp's colour between candle (0) and blue sky (1)."""
    t = float(rng.uniform(low, high))
    stops = np.array([(1, 0.62, 0.3), (1, 0.82, 0.6), (1, 0.96, 0.9), (0.92, 0.96, 1), (0.75, 0.87, 1)])
    return tuple(float(np.interp(t, np.linspace(0, 1, 5), stops[:, c])) for c in range(3))


class Lamps:
    """Irradiances about 1 to 3 at the middle of the card; the phone sets its exposure later."""

    def __init__(self, rng, spec):
        self.rng, self.spec, self.turn = rng, spec, rng.uniform(0, 2 * np.pi) + spec["turned"]
        self.ambient, self.sky = float(rng.uniform(0.15, 0.45)), False

    def lot(self, low, high):
        return float(self.rng.uniform(low, high))

    def add(self, shape, at, size, irradiance, colour):
        at = np.array(at, float)
        far = np.linalg.norm(at)
        lamp(shape, at, size, irradiance * 4 * far ** 2 / max(0.15, at[2] / far), colour)

    def around(self, angle, out, up):
        return out * np.cos(self.turn + angle), out * np.sin(self.turn + angle), up

    def tubes(self, much=1.0):
        cool = warmth(self.rng, 0.45, 0.85)
        self.add("area", self.around(0, self.lot(300, 800), self.lot(900, 1600)), (1200, 30), 1.1 * much, cool)
        self.add("area", self.around(np.pi, self.lot(300, 900), self.lot(900, 1600)), (1200, 30), 0.7 * much, cool)
        if self.rng.random() < 0.3:
            self.add("disk", self.around(1.3, 400, 800), (12, 12), 0.4 * much, warmth(self.rng, 0.1, 0.6))

    def window(self, much=1.0):
        self.add("area", self.around(0, self.lot(900, 1600), self.lot(400, 1100)), (self.lot(600, 1300), self.lot(800, 1500)), 2.0 * much, warmth(self.rng, 0.6, 1))
        if self.rng.random() < 0.3:
            self.add("disk", self.around(2.5, 500, 900), (60, 60), 0.25 * much, warmth(self.rng, 0, 0.5))

    def bench(self):
        """Two or three lamps on arms. The more lamps, the noisier the picture."""
        colour = warmth(self.rng, 0.15, 0.75)
        for i in range(2 if self.rng.random() < 0.7 else 3):
            size = self.lot(20, 180)
            self.add("disk", self.around(i * 2.1 + self.lot(-0.6, 0.6), self.lot(150, 600), self.lot(300, 700)), (size, size), self.lot(0.5, 1.6), colour)

    def lamp(self):
        self.add("disk", self.around(0, self.lot(150, 500), self.lot(300, 700)), (self.lot(8, 120),) * 2, 1.6, warmth(self.rng, 0.1, 0.8))
        self.ambient *= 0.7

    def flash(self):
        side = np.array(self.spec["camera"]["position_mm"]) + [self.lot(-12, 12), self.lot(-12, 12), 3]
        self.add("disk", side, (4, 4), 2.2, (1, 0.98, 0.95))
        self.ambient *= self.lot(0.3, 1.2)

    def low(self):
        self.add("disk", self.around(0, self.lot(250, 400), self.lot(80, 180)), (25, 25), 1.2, warmth(self.rng, 0.1, 0.6))
        self.add("area", self.around(2, 500, 1200), (1200, 40), 0.5, warmth(self.rng, 0.5, 0.9))

    def torch(self):
        """A torch from the side: small and hard, with little else."""
        far = self.lot(4.0, 8.0) * self.spec["offset"][0]
        up = np.radians(self.lot(12, 40))
        size = self.lot(5, 28)
        self.add("disk", self.around(0, far * np.cos(up), far * np.sin(up)), (size, size), 1.6, warmth(self.rng, 0.3, 0.75))
        self.ambient *= self.lot(0.2, 0.8)
        if self.rng.random() < 0.3:
            self.tubes(self.lot(0.1, 0.4))

    def sun(self):
        up = np.radians(self.lot(20, 70))
        sun(self.around(0, np.cos(up), np.sin(up)), 4.0 / np.sin(up), warmth(self.rng, 0.35, 0.6))
        self.ambient, self.sky = self.lot(0.4, 1.2), True

    def cloudy(self):
        self.ambient, self.sky = 2.0, True
        if self.rng.random() < 0.4:  # beneath a gate or a car
            self.add("area", self.around(0, 700, self.lot(300, 900)), (1500, 700), self.lot(0.3, 2), warmth(self.rng, 0.6, 1))

    def mixed(self):
        self.window(self.lot(0.4, 1))
        self.add("disk", self.around(self.lot(1.5, 4), self.lot(200, 500), self.lot(300, 700)), (self.lot(10, 120),) * 2, self.lot(0.5, 1.5), warmth(self.rng, 0, 0.25))

    def room(self):
        """The panorama alone, or with one lamp."""
        self.ambient, self.sky = 2.0, True
        if self.rng.random() < 0.3:
            self.add("disk", self.around(0, self.lot(200, 600), self.lot(300, 800)), (self.lot(10, 100),) * 2, self.lot(0.5, 2), warmth(self.rng, 0.1, 0.8))


def light(rng, spec):
    made = Lamps(rng, spec)
    getattr(made, spec["light"])()
    world = bpy.context.scene.world or bpy.data.worlds.new("world")
    bpy.context.scene.world = world
    world.use_nodes = True
    skies = sorted(glob.glob(os.path.join(spec["sky"], "*.exr")) + glob.glob(os.path.join(spec["sky"], "*.hdr"))) if spec["sky"] else []
    chosen, often = rng.integers(1 << 30), rng.random()
    if skies and (made.sky or often < 0.5):
        panorama(rng, world.node_tree, skies[chosen % len(skies)], made.ambient)
        spec["panorama"] = os.path.basename(skies[chosen % len(skies)])
    else:
        cloud(rng, world.node_tree, made)


def cloud(rng, tree, made):
    """A room of bright and dark patches made of noise; outside, an even sky over a dark horizon."""
    back = tree.nodes["Background"]
    sky = tree.nodes.new("ShaderNodeTexNoise")
    sky.inputs["Scale"].default_value = float(rng.uniform(0.8, 3))
    where = tree.nodes.new("ShaderNodeTexCoord")
    tree.links.new(where.outputs["Generated"], sky.inputs["Vector"])
    ramp = tree.nodes.new("ShaderNodeValToRGB")
    ramp.color_ramp.elements[0].position = 0.35
    ramp.color_ramp.elements[1].position = 0.7 if not made.sky else 0.9
    ramp.color_ramp.elements[0].color = (0.25, 0.25, 0.27, 1)
    bright = 1.6 * np.array(warmth(rng, 0.4, 0.9 if made.sky else 0.6))
    ramp.color_ramp.elements[1].color = (*(float(v) for v in bright), 1)
    tree.links.new(sky.outputs["Fac"], ramp.inputs["Fac"])
    tree.links.new(ramp.outputs["Color"], back.inputs["Color"])
    back.inputs["Strength"].default_value = made.ambient
    bpy.context.scene.world.cycles.sampling_method = "NONE"  # smooth as it is, chance meets it often enough; lamps get all the aim


def panorama(rng, tree, file, ambient):
    """A measured environment, turned by any angle, that gives the card about the irradiance asked for."""
    image = bpy.data.images.load(file)
    values = np.empty(len(image.pixels), np.float32)
    image.pixels.foreach_get(values)
    high = image.size[1]
    lit = values.reshape(high, image.size[0], 4)[high // 2:, :, :3].mean(2)  # rows go from below upwards
    up = (np.arange(len(lit)) + 0.5) / len(lit) * np.pi / 2
    share = np.sin(up) * np.cos(up)
    mean = float((lit * share[:, None]).sum() / (share.sum() * lit.shape[1]))
    texture = tree.nodes.new("ShaderNodeTexEnvironment")
    texture.image = image
    where, turn = tree.nodes.new("ShaderNodeTexCoord"), tree.nodes.new("ShaderNodeMapping")
    turn.inputs["Rotation"].default_value = (0, 0, float(rng.uniform(0, 2 * np.pi)))
    tree.links.new(where.outputs["Generated"], turn.inputs["Vector"])
    tree.links.new(turn.outputs["Vector"], texture.inputs["Vector"])
    back = tree.nodes["Background"]
    tree.links.new(texture.outputs["Color"], back.inputs["Color"])
    back.inputs["Strength"].default_value = ambient / max(mean, 1e-4)
