# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""Squares of photos to learn from, made on the accelerator: turned, scaled, laid on other surfaces, under other light."""
import glob
import math
import os

import numpy as np
import torch
import torch.nn.functional as F

from network.data import NO_KIND

CUT, SHOWN = 368, 256   # px a side: the part cut out, and the part left once it is turned
ONTO_ANOTHER = 0.3      # of the squares: pieces of a close photo laid on another photo's surface
PAPER = 146.0           # code of the white paper that pieces are taken from
FINE = 22               # px per mm: from here on a photo is of the close card


class Store:
    """The planes of all photos, one after the other on the accelerator, so that squares of any of them are cut at once."""

    def __init__(self, device):
        self.flat, self.used = torch.zeros(0, dtype=torch.uint8, device=device), 0
        self.photos = []  # start in `flat`, height, width, whether fine, first of its pieces, how many, first of `inside`, how many
        self.places = dict(pieces=[], inside=[])

    def add(self, file):
        saved = np.load(file)
        planes = saved["planes"]
        planes = np.pad(planes, ((0, 0), (0, max(0, CUT - planes.shape[1])), (0, max(0, CUT - planes.shape[2]))))
        if self.used + planes.size > len(self.flat):
            longer = torch.zeros(2 * (self.used + planes.size), dtype=torch.uint8, device=self.flat.device)
            longer[:self.used] = self.flat[:self.used]
            self.flat = longer
        self.flat[self.used:self.used + planes.size] = torch.from_numpy(planes.reshape(-1)).to(self.flat.device)
        row = [self.used, *planes.shape[1:], float(saved["px_per_mm"]) > FINE]
        for name, lists in self.places.items():
            row += [sum(map(len, lists)), len(saved[name])]
            lists.append(saved[name].reshape(-1, 2))
        self.photos.append(row)
        self.used += planes.size

    def ready(self):
        self.start, self.height, self.width, self.fine, *self.ranges = np.array(self.photos, np.int64).T
        self.at = {name: np.concatenate(lists) for name, lists in self.places.items()}

    def cut(self, which, rng):
        """@return a square round a piece or at a place that is asked for of each photo (n x 7 x CUT x CUT)"""
        first, many, first_inside, many_inside = [column[which] for column in self.ranges]
        drawn = lambda first, many: (first + rng.random(len(which)) * many).astype(np.int64)
        on_piece = (many > 0) & (rng.random(len(which)) < 0.7)
        middle = self.at["inside"][drawn(first_inside, many_inside)].astype(np.int64)
        middle[on_piece] = self.at["pieces"][drawn(first, many)[on_piece]] + rng.integers(-110, 111, (on_piece.sum(), 2))
        height, width = self.height[which], self.width[which]
        y, x = np.clip(middle[:, 0] - CUT // 2, 0, height - CUT), np.clip(middle[:, 1] - CUT // 2, 0, width - CUT)
        where, plane, row = [torch.from_numpy(values).to(self.flat.device) for values in (self.start[which] + y * width + x, height * width, width)]
        along = torch.arange(CUT, device=self.flat.device)
        several = torch.arange(7, device=self.flat.device)
        rows = where[:, None, None] + several[:, None] * plane[:, None, None] + along * row[:, None, None]
        return self.flat[rows[..., None] + along]


class Places:
    def __init__(self, ready, wanted, device, seed, often=()):
        """@param often  pairs of a pattern and how many times as often the photos whose names match it are looked at"""
        self.ready, self.wanted, self.device, self.often = ready, wanted, device, often
        self.rng = np.random.default_rng(seed)
        self.store, self.known, self.times = Store(device), set(), []
        self.look_for_more()

    def look_for_more(self):
        names = [os.path.basename(file)[:-4] for file in sorted(glob.glob(os.path.join(self.ready, "*.npz")))]
        more = [name for name in names if name not in self.known and self.wanted(name)]
        for name in more:
            self.store.add(os.path.join(self.ready, name + ".npz"))
            self.times.append(math.prod(times for pattern, times in self.often if pattern.fullmatch(name)))
        self.known |= set(more)
        if more:
            self.store.ready()
            pieces = self.store.ranges[1]
            times = np.array(self.times, float)
            chance = (1.0 + np.log1p(pieces) / 4) * times
            self.chance = chance / chance.sum()
            self.fine = np.nonzero((self.store.fine > 0) & (pieces > 0))[0]
            self.chance_fine = times[self.fine] / times[self.fine].sum()
            print("%d photos to learn from" % len(self.known), flush=True)

    def turns(self, which):
        """@return where each square looks (n x 2 x 3) and how much it is reduced."""
        rng, n = self.rng, len(which)
        angle, mirror = rng.uniform(0, 2 * np.pi, n), rng.choice([-1, 1], n)
        far = (self.store.fine[which] > 0) & (rng.random(n) < 0.5)
        reduced = np.exp(np.where(far, rng.uniform(-0.12, 0.55, n), rng.uniform(-0.15, 0.15, n)))
        straight = rng.random(n) < 0.3
        angle[straight], reduced[straight] = rng.integers(0, 4, straight.sum()) * np.pi / 2, 1.0
        k = reduced * SHOWN / CUT
        turn = np.zeros((n, 2, 3), np.float32)
        turn[:, 0, 0], turn[:, 0, 1] = k * np.cos(angle), -k * np.sin(angle) * mirror
        turn[:, 1, 0], turn[:, 1, 1] = k * np.sin(angle), k * np.cos(angle) * mirror
        turn[:, :, 2] = rng.uniform(-0.06, 0.06, (n, 2))
        return torch.from_numpy(turn).to(self.device), reduced

    def squares(self, which, turn, reduced):
        """@return see (3 planes), covered, seam, kind, weight of each photo's square."""
        raw = self.store.cut(which, self.rng).float()
        grid = F.affine_grid(turn, (len(which), 7, SHOWN, SHOWN), align_corners=False)
        kind = F.grid_sample(raw[:, 5:6], grid, mode="nearest", align_corners=False)[:, 0]
        coarse = torch.from_numpy(np.nonzero(reduced > 1.25)[0]).to(self.device)
        if len(coarse):
            raw[coarse] = 0.4 * raw[coarse] + 0.6 * F.avg_pool2d(raw[coarse], 3, 1, 1)
        seen = F.grid_sample(raw, grid, mode="bilinear", align_corners=False)
        return seen[:, :3], seen[:, 3] / 255, seen[:, 4] / 255, kind, (seen[:, 6] > 250).float()

    def lay_upon(self, below, above):
        """Lays pieces from white paper, with the shadows they cast there, on the squares below."""
        see, covered, seam, kind, _ = below
        top, own, own_seam, own_kind, valid = above
        own = own * valid
        alpha = torch.clamp(1.3 * own, 0, 1)[:, None]
        shade = torch.clamp(top / PAPER, 0.25, 1.15)
        laid = see * shade * (1 - alpha) + top * alpha
        see[:] = laid * valid[:, None] + see * (1 - valid[:, None])
        wide = lambda mask: F.max_pool2d(mask.float()[:, None], 3, 1, 1)[:, 0]
        meet = wide(own > 0.5) * wide((covered > 0.5) & (own < 0.5))
        seam[:] = torch.maximum(torch.maximum(seam * (own < 0.5), own_seam * valid), meet)
        kind[:] = torch.where(own > 0.4, own_kind, kind)
        covered[:] = torch.maximum(covered * (1 - own), own)

    def under_other_light(self, see):
        rng, n = self.rng, len(see)
        by = lambda values: torch.from_numpy(np.asarray(values, np.float32)).to(self.device).reshape(n, -1, 1, 1)
        see = see * by(np.exp(0.06 * rng.normal(size=(n, 1)) + 0.03 * rng.normal(size=(n, 3))))
        see = 150 * torch.clamp(see / 150, 0, 1.7) ** by(np.exp(0.08 * rng.normal(size=n)))
        soft = F.avg_pool2d(F.pad(see, (1, 1, 1, 1), mode="reflect"), 3, 1)
        see = see + by((rng.random(n) < 0.3) * rng.uniform(-0.7, 0.8, n)) * (soft - see)
        return torch.clamp(see + by((rng.random(n) < 0.4) * rng.uniform(0, 6, n)) * torch.randn_like(see), 0, 255)

    def batch(self, n):
        """@return see, covered, seam, kind, weight of n squares."""
        which = self.rng.choice(len(self.chance), n, p=self.chance)
        turn, reduced = self.turns(which)
        squares = self.squares(which, turn, reduced)
        onto = int(n * ONTO_ANOTHER)
        if len(self.fine) and onto:
            tops = self.rng.choice(self.fine, onto, p=self.chance_fine)
            self.lay_upon([plane[:onto] for plane in squares], self.squares(tops, turn[:onto], reduced[:onto]))
        return self.under_other_light(squares[0]), *squares[1:]


def has_kind(covered, kind, weight):
    return (covered > 0.5) & (kind < NO_KIND) & (weight > 0.5)
