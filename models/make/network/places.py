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


def read(file, device):
    saved = np.load(file)
    return dict(planes=torch.from_numpy(saved["planes"]).to(device), pieces=saved["pieces"], inside=saved["inside"],
                fine=float(saved["px_per_mm"]) > FINE)


class Places:
    def __init__(self, ready, wanted, device, seed):
        self.ready, self.wanted, self.device = ready, wanted, device
        self.rng = np.random.default_rng(seed)
        self.photos = {}
        self.look_for_more()

    def look_for_more(self):
        names = [os.path.basename(file)[:-4] for file in sorted(glob.glob(os.path.join(self.ready, "*.npz")))]
        more = [name for name in names if name not in self.photos and self.wanted(name)]
        for name in more:
            self.photos[name] = read(os.path.join(self.ready, name + ".npz"), self.device)
        if more:
            self.all = list(self.photos.values())
            chance = np.array([1.0 + math.log1p(len(photo["pieces"])) / 4 for photo in self.all])
            self.chance = chance / chance.sum()
            self.fine = [photo for photo in self.all if photo["fine"] and len(photo["pieces"])]
            print("%d photos to learn from" % len(self.all), flush=True)

    def cut(self, photo):
        rng = self.rng
        if len(photo["pieces"]) and rng.random() < 0.7:
            y, x = photo["pieces"][rng.integers(len(photo["pieces"]))] + rng.integers(-110, 111, 2)
        else:
            y, x = photo["inside"][rng.integers(len(photo["inside"]))]
        height, width = photo["planes"].shape[1:]
        y, x = [int(np.clip(at - CUT // 2, 0, max(0, most - CUT))) for at, most in ((y, height), (x, width))]
        part = photo["planes"][:, y:y + CUT, x:x + CUT]
        return F.pad(part, (0, CUT - part.shape[2], 0, CUT - part.shape[1]))

    def turns(self, photos):
        """@return where each square looks (n x 2 x 3) and how much it is reduced."""
        rng, n = self.rng, len(photos)
        angle, mirror = rng.uniform(0, 2 * np.pi, n), rng.choice([-1, 1], n)
        reduced = np.exp([rng.uniform(-0.12, 0.55) if photo["fine"] and rng.random() < 0.5 else rng.uniform(-0.15, 0.15) for photo in photos])
        straight = rng.random(n) < 0.3
        angle[straight], reduced[straight] = rng.integers(0, 4, straight.sum()) * np.pi / 2, 1.0
        k = reduced * SHOWN / CUT
        turn = np.zeros((n, 2, 3), np.float32)
        turn[:, 0, 0], turn[:, 0, 1] = k * np.cos(angle), -k * np.sin(angle) * mirror
        turn[:, 1, 0], turn[:, 1, 1] = k * np.sin(angle), k * np.cos(angle) * mirror
        turn[:, :, 2] = rng.uniform(-0.06, 0.06, (n, 2))
        return torch.from_numpy(turn).to(self.device), reduced

    def squares(self, photos, turn, reduced):
        """@return see (3 planes), covered, seam, kind, weight of each photo's square."""
        raw = torch.stack([self.cut(photo) for photo in photos]).float()
        grid = F.affine_grid(turn, (len(photos), 7, SHOWN, SHOWN), align_corners=False)
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
        photos = [self.all[i] for i in self.rng.choice(len(self.all), n, p=self.chance)]
        turn, reduced = self.turns(photos)
        squares = self.squares(photos, turn, reduced)
        onto = int(n * ONTO_ANOTHER)
        if self.fine and onto:
            tops = [self.fine[self.rng.integers(len(self.fine))] for _ in range(onto)]
            self.lay_upon([plane[:onto] for plane in squares], self.squares(tops, turn[:onto], reduced[:onto]))
        return self.under_other_light(squares[0]), *squares[1:]


def has_kind(covered, kind, weight):
    return (covered > 0.5) & (kind < NO_KIND) & (weight > 0.5)
