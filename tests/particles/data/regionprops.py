#!/usr/bin/env python3
# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""Region properties of a label image by scikit-image, as JSON on standard output.

    regionprops.py labels.png          measure
    regionprops.py --draw labels.png   draw the label image of this folder anew (seeded)

Exit code 77: scikit-image is not installed here.
"""
import json
import sys

try:
    import numpy as np
    from skimage import draw, io, measure
    from skimage import __version__ as version
except ImportError:
    sys.exit(77)

# The test array of scikit-image's own measure/tests/test_regionprops.py, row by row.
SAMPLE = ["000000000101100000", "000000001111000000", "000000001110000000", "000000001110000000",
          "000000111111000000", "000000111111111110", "000000111111111110", "101001101100111110",
          "011111110110001111", "011001110000000011"]


def rod(image, label, centre, length, width, degrees):
    turn = np.radians(degrees)
    rows, columns = np.mgrid[: image.shape[0], : image.shape[1]]
    dx, dy = columns - centre[0], rows - centre[1]
    along = np.clip(dx * np.cos(turn) + dy * np.sin(turn), -length / 2, length / 2)
    distance = np.hypot(dx - along * np.cos(turn), dy - along * np.sin(turn))
    image[distance <= width / 2] = label


def arc(image, label, centre, radius, width, degrees):
    rows, columns = np.mgrid[: image.shape[0], : image.shape[1]]
    dx, dy = columns - centre[0], rows - centre[1]
    angle = np.degrees(np.arctan2(dy, dx)) % 360
    image[(np.abs(np.hypot(dx, dy) - radius) <= width / 2) & (angle <= degrees)] = label


def keep_largest(image, label):
    """A polygon's sharp corner can come off in pixels: only the largest piece stays."""
    pieces = measure.label(image == label, connectivity=1)
    largest = 1 + np.argmax(np.bincount(pieces.ravel())[1:])
    image[(pieces > 0) & (pieces != largest)] = 0


def draw_labels():
    image = np.zeros((360, 520), np.uint8)
    random = np.random.default_rng(7)
    image[10:26, 10:26] = 1  # the 16 x 16 block of scikit-image's tests
    sample = np.array([[int(c) for c in row] for row in SAMPLE], np.uint8)
    image[10:20, 40:58][sample == 1] = 2
    label = 3
    for i in range(6):
        a, b = random.uniform(4, 22), random.uniform(3, 12)
        rows, columns = draw.ellipse(70 + random.uniform(), 40 + 80 * i + random.uniform(), a, b,
                                     image.shape, random.uniform(0, np.pi))
        image[rows, columns] = label
        label += 1
    for i in range(6):
        rod(image, label, (45 + 80 * i, 150), random.uniform(10, 60), random.uniform(3, 9),
            random.uniform(0, 180))
        label += 1
    for i in range(4):
        arc(image, label, (60 + 120 * i, 245), random.uniform(15, 38), random.uniform(3, 7),
            random.uniform(90, 300))
        label += 1
    for i in range(6):
        angles = np.sort(random.uniform(0, 2 * np.pi, 9))
        radii = random.uniform(6, 24, 9)
        rows, columns = draw.polygon(325 + radii * np.sin(angles),
                                     45 + 80 * i + radii * np.cos(angles), image.shape)
        image[rows, columns] = label
        keep_largest(image, label)
        label += 1
    return image


def main():
    if sys.argv[1] == "--draw":
        io.imsave(sys.argv[2], draw_labels(), check_contrast=False)
        return
    regions = []
    for r in measure.regionprops(io.imread(sys.argv[1])):
        top, left, bottom, right = r.bbox
        regions.append(dict(label=r.label, area=int(r.area), filled_area=int(r.filled_area),
                            holes=int(1 - r.euler_number), x=r.centroid[1], y=r.centroid[0],
                            feret_diameter_max=r.feret_diameter_max, solidity=r.solidity,
                            equivalent_diameter=r.equivalent_diameter, width=right - left,
                            height=bottom - top))
    json.dump(dict(made_by="scikit-image " + version, regions=regions), sys.stdout, indent=1)
    print()


main()
