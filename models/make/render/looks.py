# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""How a piece looks: clean or tarnished, tinted by heat, oxidised, under a film of oil."""
import numpy as np

CLEAN = dict(steel=[(0.55, 0.56, 0.58), (0.42, 0.43, 0.45), (0.32, 0.33, 0.36), (0.62, 0.62, 0.62)], aluminium=[(0.8, 0.81, 0.82), (0.7, 0.71, 0.72)],
             brass=[(0.75, 0.55, 0.2), (0.7, 0.45, 0.18), (0.6, 0.4, 0.22), (0.8, 0.6, 0.3), (0.78, 0.42, 0.25)],
             friction=[(0.03, 0.028, 0.025), (0.06, 0.05, 0.04), (0.09, 0.065, 0.045), (0.02, 0.02, 0.02), (0.16, 0.11, 0.07)],
             polymer=[(0.3, 0.12, 0.04), (0.4, 0.2, 0.08), (0.2, 0.09, 0.05), (0.07, 0.06, 0.06), (0.6, 0.55, 0.42), (0.1, 0.12, 0.2)],
             fibre=[(0.6, 0.58, 0.55), (0.75, 0.74, 0.72), (0.2, 0.2, 0.28), (0.25, 0.18, 0.12), (0.1, 0.1, 0.1), (0.3, 0.1, 0.1)])
# Heat draws these over steel, from the cool side to the hot one.
HEAT = np.array([(0.56, 0.56, 0.57), (0.62, 0.52, 0.3), (0.5, 0.33, 0.15), (0.3, 0.16, 0.25), (0.1, 0.13, 0.35), (0.2, 0.3, 0.42), (0.28, 0.28, 0.3)])
TARNISH = [(0.3, 0.18, 0.07), (0.22, 0.14, 0.08), (0.4, 0.26, 0.1), (0.16, 0.16, 0.1)]


def heat_tinted(rng, points):
    """Colour by place, as one end was hotter."""
    along = points[:, :2] @ rng.normal(size=2)
    along = (along - along.min()) / max(1e-9, np.ptp(along))
    at = rng.uniform(0.3, len(HEAT) - 1) + rng.uniform(0, 2.5) * (along - 0.5)
    return np.stack([np.interp(at, np.arange(len(HEAT)), HEAT[:, c]) for c in range(3)], 1)


def metal_of(rng, material, points):
    """@return colours of the points, metallic, roughness"""
    colours = CLEAN[material]
    colour = np.tile(colours[rng.integers(len(colours))], (len(points), 1))
    kind, rough = rng.random(), float(rng.uniform(0.1, 0.55))
    if material == "steel":
        if kind < 0.12:
            return heat_tinted(rng, points), 1.0, rough
        if kind < 0.24:  # grey to black oxide
            return colour * rng.uniform(0.1, 0.5), float(rng.uniform(0.3, 1)), float(rng.uniform(0.4, 0.8))
        if kind < 0.29:  # rust
            return colour * 0 + [0.22, 0.1, 0.05], float(rng.uniform(0, 0.4)), 0.85
    if material == "brass" and kind < 0.35:
        share = rng.uniform(0.4, 1)
        return colour * (1 - share) + share * np.array(TARNISH[rng.integers(len(TARNISH))]), float(rng.uniform(0.4, 1)), float(rng.uniform(0.4, 0.8))
    if material == "aluminium" and kind < 0.4:  # dull, oxidised
        return colour * rng.uniform(0.45, 0.9), float(rng.uniform(0.5, 1)), float(rng.uniform(0.55, 0.9))
    return colour, 1.0, rough


def look_of(rng, material, points, spec):
    """@return the points' tints (n, 3) and gloss (n, 3): metallic, roughness, coat of oil"""
    if material in ("steel", "aluminium", "brass"):
        colour, metal, rough = metal_of(rng, material, points)
    else:
        colour = np.tile(CLEAN[material][rng.integers(len(CLEAN[material]))], (len(points), 1))
        metal, rough = 0.0, float(rng.uniform(0.55, 1.0))
    colour = colour * np.exp(0.15 * rng.normal()) * np.exp(0.04 * rng.normal(size=3))
    coat = 1.0 if spec["wet"] else float(rng.random() < 0.2)
    if rng.random() < spec["soaked"]:  # a film of old oil, dark amber
        colour = colour * np.array([(0.7, 0.42, 0.18), (0.5, 0.3, 0.15), (0.8, 0.6, 0.35), (0.35, 0.25, 0.18)][rng.integers(4)]) ** rng.uniform(0.4, 1.2)
        coat = 1.0
    if material == "friction" and rng.random() < 0.3:  # caked: patches of another shade
        colour = colour * np.exp(0.4 * rng.normal(size=(len(points), 1)))
    gloss = np.tile([metal, rough, coat], (len(points), 1))
    return np.clip(colour, 0.006, 0.95), gloss
