#!/usr/bin/env python3
# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""Fits the network to the data of data.py, on an accelerator if there is one, and writes it for PyTorch and as ONNX.

    fit.py READY OUT [--width medium] [--minutes 20] [--leave-out REGEX] [--only REGEX] [--squares 48] [--seed 0]
           [--from EARLIER] [--fastest 2.5e-3] [--types 0.1] [--often TIMES:REGEX]

Writes OUT.pt and OUT.onnx, and checks that OpenCV, which reads the ONNX file, answers as PyTorch does. Photos that data.py
--watch adds meanwhile are learnt from as well. --from: goes on from that network (.onnx or .pt), which fit.py wrote and which
may be smaller than --width (then it grows); .onnx needs the Python package onnx; --fastest: the greatest step; --types: how much
the types weigh against the pieces; --often: photos whose names match are looked at so many times as often. OUT.pt is written
every 45 s as well. Needs python3-torch, python3-opencv."""
import argparse
import math
import os
import re
import sys
import time

import cv2
import numpy as np
import torch
import torch.nn.functional as F

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), ".."))
from network import model, places  # noqa: E402

RARE = [0.8, 1.3, 1.1, 1.4, 1.4]  # weight of a pixel of each type: rare types weigh more
SMOOTHED = 0.999   # the weights that are kept are a running mean
EXPORTER = dict(dynamo=False) if tuple(map(int, torch.__version__.split(".")[:2])) >= (2, 5) else {}  # the one whose files OpenCV reads
AGREES = 1e-3      # of logits: OpenCV against PyTorch


def loss_of(answers, type_weight, covered, seam, kind, weight):
    both, types = model.maps_of(answers)
    of_piece = F.binary_cross_entropy_with_logits(both[:, 0], covered, weight=weight * (1 + 2 * covered))
    rare = weight * (covered > 0.1) * (1 + 9 * seam)
    of_seam = F.binary_cross_entropy_with_logits(both[:, 1], seam, weight=rare)
    known = places.has_kind(covered, kind, weight)
    asked = torch.where(known, kind, torch.full_like(kind, -1)).long()
    chosen = F.interpolate(types, scale_factor=2, mode="nearest")
    of_type = F.cross_entropy(chosen, asked, torch.tensor(RARE, device=asked.device), ignore_index=-1, reduction="sum") / known.sum().clamp(min=1)
    return of_piece + 0.5 * of_seam + type_weight * of_type, of_piece.detach(), of_type.detach()


def pace(share, fastest):
    return fastest * (share / 0.04 if share < 0.04 else 0.5 * (1 + math.cos(math.pi * (share - 0.04) / 0.96))) + 1e-6


class Ahead:
    """Squares made on the accelerator while it learns from those before."""

    def __init__(self, squares, many, device):
        self.squares, self.many = squares, many
        self.beside = torch.cuda.Stream() if device == "cuda" else None
        self.next = self.made()

    def made(self):
        if not self.beside:
            return self.squares.batch(self.many)
        self.beside.wait_stream(torch.cuda.current_stream())
        with torch.cuda.stream(self.beside):
            return self.squares.batch(self.many)

    def batch(self):
        if self.beside:
            torch.cuda.current_stream().wait_stream(self.beside)
            for values in self.next:
                values.record_stream(torch.cuda.current_stream())
        now, self.next = self.next, self.made()
        return now


def fit(network, squares, given, device):
    optimiser = torch.optim.AdamW(network.parameters(), lr=given.fastest, weight_decay=1e-2, **(dict(fused=True) if device == "cuda" else {}))
    kept = {key: value.clone() for key, value in network.state_dict().items()}
    ahead = Ahead(squares, given.squares, device)
    start = looked = time.time()
    step, sums = 0, torch.zeros(2, device=device)
    while (share := (time.time() - start) / (60 * given.minutes)) < 1:
        if time.time() - looked > 45:
            if device == "cuda":
                torch.cuda.synchronize()  # the squares' photos may move
            squares.look_for_more()
            model.save_state(given.width, kept, given.out + ".pt")
            looked = time.time()
        for group in optimiser.param_groups:
            group["lr"] = pace(share, given.fastest)
        see, *asked = ahead.batch()
        with torch.autocast(device, torch.bfloat16, enabled=device == "cuda"):
            answers = network(model.as_input(see).contiguous(memory_format=torch.channels_last))
        loss, of_piece, of_type = loss_of(answers, given.types, *asked)
        optimiser.zero_grad(set_to_none=True)
        loss.backward()
        torch.nn.utils.clip_grad_norm_(network.parameters(), 1.0)
        optimiser.step()
        for key, value in network.state_dict().items():
            kept[key].lerp_(value, 1 - min(SMOOTHED, (step + 1) / (step + 10)))
        sums += torch.stack([of_piece, of_type])
        if step % 500 == 499:
            print("step %d, %.0f s, piece %.4f, type %.3f" % (step + 1, time.time() - start, *(sums / 500).tolist()), flush=True)
            sums.zero_()
        step += 1
    network.load_state_dict(kept)
    print("%d steps" % step)


def go_on_from(network, file):
    if file.endswith(".pt"):
        return model.grow_from(network, {name: values.float() for name, values in torch.load(file, map_location="cpu")["state"].items()})
    import onnx.numpy_helper  # Debian 12's python3-onnx; only here
    known = {one.name: torch.from_numpy(onnx.numpy_helper.to_array(one).copy()) for one in onnx.load(file).graph.initializer}
    model.grow_from(network, {name: values for name, values in known.items() if name.endswith((".weight", ".bias"))})


def export(network, file):
    """Writes ONNX and runs it by OpenCV on noise."""
    see = torch.rand(1, 3, 4 * model.COARSEST, 6 * model.COARSEST) - 0.4
    free = {2: "height", 3: "width"}
    torch.onnx.export(network, see, file, opset_version=11, input_names=["see"], output_names=["answer"],
                      dynamic_axes={name: free for name in ("see", "answer")}, **EXPORTER)
    reader = cv2.dnn.readNetFromONNX(file)
    reader.setInput(see.numpy())
    with torch.no_grad():
        off = np.abs(reader.forward() - network(see).numpy()).max()
    if not off < AGREES:
        sys.exit("OpenCV answers otherwise than PyTorch, by up to %g: %s is not to be used." % (off, file))
    print("OpenCV agrees within %.1e" % off)


def main():
    words = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    words.add_argument("ready")
    words.add_argument("out")
    words.add_argument("--width", choices=model.WIDTHS, default="medium")
    words.add_argument("--minutes", type=float, default=20)
    words.add_argument("--leave-out", default="")
    words.add_argument("--only", default="")
    words.add_argument("--squares", type=int, default=48, help="learnt from at once")
    words.add_argument("--seed", type=int, default=0)
    words.add_argument("--from", dest="earlier", default="")
    words.add_argument("--fastest", type=float, default=2.5e-3)
    words.add_argument("--types", type=float, default=0.1)
    words.add_argument("--often", action="append", default=[])
    given = words.parse_args()
    device = "cuda" if torch.cuda.is_available() else "cpu"
    torch.manual_seed(given.seed)
    left_out, only = re.compile(given.leave_out or "$^"), re.compile(given.only or ".*")
    wanted = lambda name: not name.endswith(".unfinished") and not left_out.fullmatch(name) and bool(only.fullmatch(name))
    network = model.Network(given.width).to(device).to(memory_format=torch.channels_last)
    print("%s: %d numbers" % (given.width, sum(values.numel() for values in network.parameters())), flush=True)
    if given.earlier:
        go_on_from(network, given.earlier)
    often = [(re.compile(pattern), float(times)) for times, pattern in (one.split(":", 1) for one in given.often)]
    fit(network, places.Places(given.ready, wanted, device, given.seed, often), given, device)
    model.save(network, given.out + ".pt")
    export(model.load(given.out + ".pt", "cpu"), given.out + ".onnx")


if __name__ == "__main__":
    main()
