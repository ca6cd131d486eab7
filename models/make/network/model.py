# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""One network that answers for each pixel: does it show a piece, do two pieces meet there, what type is the piece?"""
import os

import torch
import torch.nn.functional as F

from network.data import WHITE

# Channels at 1/2, 1/4, 1/8 and 1/16 of the resolution, and blocks at the last three.
WIDTHS = dict(small=((16, 32, 64, 128), (1, 2, 3)), medium=((32, 48, 96, 160), (1, 2, 3)), large=((48, 96, 160, 224), (1, 2, 3)),
              grown=((16, 48, 80, 160), (1, 3, 3)))
TYPES = ["bright metal", "yellow metal", "lining", "polymer", "fibre"]
MAPS = ["piece", "seam"]
SUBPIXELS = 4  # answers of one map for a place at half the resolution: top left, top right, bottom left, bottom right
COARSEST = 16  # px a side of the network's coarsest cell


class Block(torch.nn.Module):
    def __init__(self, channels, reach=1):
        super().__init__()
        self.far = torch.nn.Conv2d(channels, channels, 3, padding=reach, dilation=reach)
        self.near = torch.nn.Conv2d(channels, channels, 3, padding=1)

    def forward(self, seen):
        return seen + self.near(F.relu(self.far(seen)))


def level(channels, blocks):
    """Blocks one after the other, each looking twice as far as the one before."""
    return Block(channels) if blocks == 1 else torch.nn.Sequential(*[Block(channels, 2 ** i) for i in range(blocks)])


class Network(torch.nn.Module):
    """Goes down to a sixteenth of the resolution and back up to half of it; nothing but convolutions, sums and doubling."""

    def __init__(self, width):
        super().__init__()
        conv = torch.nn.Conv2d
        (a, b, c, d), many = WIDTHS[width]
        self.width = width
        self.first, self.first_near = conv(3, a, 5, stride=2, padding=2), conv(a, a, 3, padding=1)
        self.down = torch.nn.ModuleList([conv(x, y, 3, stride=2, padding=1) for x, y in ((a, b), (b, c), (c, d))])
        self.seen = torch.nn.ModuleList([level(channels, blocks) for channels, blocks in zip((b, c, d), many)])
        self.up = torch.nn.ModuleList([conv(x, y, 1) for x, y in ((d, c), (c, b), (b, a))])
        self.back = torch.nn.ModuleList([Block(c), Block(b), conv(a, a, 3, padding=1)])
        self.answer = conv(a, SUBPIXELS * len(MAPS) + len(TYPES), 3, padding=1)

    def forward(self, see):
        half = F.relu(self.first(see))
        levels = [half + F.relu(self.first_near(half))]
        for down, seen in zip(self.down, self.seen):
            levels.append(seen(F.relu(down(levels[-1]))))
        answer = levels.pop()
        for up, back in zip(self.up, self.back):
            answer = levels.pop() + F.interpolate(up(answer), scale_factor=2, mode="nearest")
            answer = back(answer) if isinstance(back, Block) else F.relu(answer + F.relu(back(answer)))
        return self.answer(answer)


def grow_from(network, smaller):
    """Gives a network the numbers of a smaller one (its state), so that it answers as that one does: further channels count
    nothing at first, and further blocks pass on what they see. A level with one block must keep it alone."""
    own = network.state_dict()
    with torch.no_grad():
        for name, known in smaller.items():
            values = own.pop(name)
            if known.dim() > 1:
                values[:len(known), known.shape[1]:] = 0
            values[tuple(slice(side) for side in known.shape)] = known
        for name, values in own.items():
            if ".near." in name:
                values.zero_()


def maps_of(answer):
    """@return logits of piece and seam for each pixel (n x 2 x height x width), of the types for every second one."""
    many = SUBPIXELS * len(MAPS)
    return F.pixel_shuffle(answer[:, :many].float(), 2), answer[:, many:].float()


def as_input(see):
    """@param see  codes of data.py, 0 to 255. @return the network's input, about -0.8 to 0.9; paper is 0.2."""
    return see / WHITE - 0.8


def save(network, file):
    save_state(network.width, network.state_dict(), file)


def save_state(width, state, file):
    state = {key: value.detach().half().cpu() for key, value in state.items()}
    torch.save(dict(width=width, state=state), file + ".part")
    os.replace(file + ".part", file)


def load(file, device):
    saved = torch.load(file, map_location=device)
    network = Network(saved["width"]).to(device).eval()
    network.load_state_dict({key: value.float() for key, value in saved["state"].items()})
    return network
