# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""What swarfbook_candidates finds in photos with truth, and which true piece each find is."""
import argparse
import glob
import json
import os
import re
import subprocess

import numpy as np

import truth as known

LEAST = dict(close=0.2, wide=0.4)  # mm: shorter pieces count little in the fits and not at all in the figures
FOLDS = 5
SMALL = 0.2      # weight of a piece shorter than three quarters of LEAST
OWN = 0.15       # share of an unmatched find: if a true piece covers more of it, the find is a part of that piece
RESOLVED = 0.8   # of the resolution limit: shorter finds are not shown, nor learnt from


# ---------------------------------------------------------------- stages
def names_of(photos, left_out):
    for file in sorted(glob.glob(os.path.join(photos, "truth", "*.json"))):
        name = os.path.basename(file)[:-5]
        with open(file) as opened:
            on_magnet = json.load(opened)["place"] == "magnet"
        if not name.startswith("bad-") and not on_magnet and not left_out.fullmatch(name):
            yield name


def word_of(photos, name):
    with open(os.path.join(photos, "truth", name + ".json")) as file:
        truth = json.load(file)
    bar = "" if truth["print_scale"] == 1 else "%.2f:" % (truth["print_scale"] * (80 if truth["layout"] == "close" else 150))
    return "%s:%s%s" % (truth["place"], bar, os.path.join(photos, truth["photo"]))


def given_photos(doc, out, contacts):
    """Reads the command line and writes the stages that are missing.
    @param contacts  the trust in contacts that pieces are found with, unless the command line names another; "-": contacts alone
    @return the arguments, and a list of folders and names of the photos that have stages"""
    words = argparse.ArgumentParser(description=doc, formatter_class=argparse.RawDescriptionHelpFormatter)
    words.add_argument("stages")
    words.add_argument("photos", nargs="+")
    words.add_argument("--program", default="build/benchmark/tests/benchmark/swarfbook_candidates")
    words.add_argument("--network", default="models/pieces.onnx")
    words.add_argument("--out", default=out)
    words.add_argument("--leave-out", default="")
    if contacts != "-":
        words.add_argument("--contacts", default=contacts)
    given = words.parse_args()
    given.contacts = getattr(given, "contacts", contacts)
    left_out = re.compile(given.leave_out or "$^")
    sources = [(photos, name) for photos in given.photos for name in names_of(photos, left_out)]
    os.makedirs(given.stages, exist_ok=True)
    write_stages(given, sources)
    return given, [(photos, name) for photos, name in sources if os.path.exists(os.path.join(given.stages, name + ".json"))]


def write_stages(given, sources):
    missing = [word_of(photos, name) for photos, name in sources if not os.path.exists(os.path.join(given.stages, name + ".json"))]
    if missing:
        subprocess.run([given.program, given.network, given.contacts, given.stages, *missing], check=True)


# ---------------------------------------------------------------- truth
def in_sight(truth, document):
    """Places of pieces and finds as the camera sees them, mm: high or deep things appear displaced on the card."""
    scale = document["px_per_mm"]
    for piece in truth["particles"]:
        height = piece.get("z_top_mm", piece["height_mm"]) - 0.5 * piece["height_mm"]
        seen = known.photo_from_card(truth, [[piece["x_mm"], piece["y_mm"]]], height)[0]
        piece["card_x_mm"], piece["card_y_mm"] = piece["x_mm"], piece["y_mm"]
        piece["x_mm"], piece["y_mm"] = seen / scale
    by_id = {piece["id"]: piece for piece in truth["particles"]}
    for cluster in truth["clusters"]:
        moved = [(by_id[i]["x_mm"] - by_id[i]["card_x_mm"], by_id[i]["y_mm"] - by_id[i]["card_y_mm"]) for i in cluster["members"]]
        seen = known.photo_from_card(truth, [[cluster["x_mm"], cluster["y_mm"]]])[0] / scale
        if moved:
            seen = np.mean(moved, 0) + [cluster["x_mm"], cluster["y_mm"]]
        cluster["x_mm"], cluster["y_mm"] = seen
    for one in document["candidates"]:
        one["card_x_mm"], one["card_y_mm"] = one["x_mm"], one["y_mm"]
        outline = np.array(one["outline_px"])
        x, y = outline.T
        cross = x * np.roll(y, -1) - np.roll(x, -1) * y
        middle = np.array([((x + np.roll(x, -1)) * cross).sum(), ((y + np.roll(y, -1)) * cross).sum()]) / (3 * cross.sum() + 1e-12)
        one["x_mm"], one["y_mm"] = (middle + document["origin_px"]) / scale


def is_part(truth, one):
    """Whether an unmatched find may be a part of a piece or a crumb of gasket."""
    k, window = truth["label_px_per_mm"], truth["window_mm"]
    u, v = int((one["card_x_mm"] - window["x"]) * k), int((one["card_y_mm"] - window["y"]) * k)
    reach = max(1, int(0.5 * one["min_feret_mm"] * k))
    under = truth["labels"][max(0, v - reach):v + reach + 1, max(0, u - reach):u + reach + 1]
    if under.size and (under > 0).mean() > OWN:
        return True
    return any(thing["kind"] == "gasket" and
               np.hypot(one["card_x_mm"] - thing["x_mm"], one["card_y_mm"] - thing["y_mm"]) < 0.75 * thing["max_feret_mm"]
               for thing in truth["confounders"])


def rows_of(photos, name, stages):
    """@return the document, and a row for each find: features, debris (1, 0; -1: not known), look (or ""), log of true over
    outlined size (or NaN), true size, whether it counts."""
    with open(os.path.join(stages, name + ".json")) as opened:
        document = json.load(opened)
    truth = known.read(photos, name)
    in_sight(truth, document)
    found = document["candidates"]
    rows = [[one["features"], -1, "", np.nan, 0.0] for one in found]
    matched = set()
    for i, j in known.match(truth["particles"], found):
        piece = truth["particles"][i]
        matched.add(j)
        rows[j][1:3] = 1, known.LOOK[piece["material"]]
        if not piece["touching_window_edge"] and piece.get("visible_fraction", 1) >= 0.5:
            rows[j][3:5] = np.log(piece["max_feret_mm"] / found[j]["max_feret_mm"]), piece["max_feret_mm"]
    rest = [j for j in range(len(found)) if j not in matched]
    several = [cluster for cluster in truth["clusters"] if len(cluster["members"]) > 1]
    clusters = {rest[j] for _, j in known.match(several, [found[j] for j in rest])}
    for j in rest:
        rows[j][1] = 1 if j in clusters else -1 if is_part(truth, found[j]) else 0
    document["layout"], document["scene"], document["photos"] = truth["layout"], known.scene(truth), photos
    document["maker"] = "ours" if truth.get("rendered") else "another"
    return document, rows


class Finds:
    """All finds of all photos, one row each."""

    def __init__(self, documents, rows):
        every = [row for own in rows for row in own]
        self.names = documents[0]["feature_names"]
        features = np.array([row[0] for row in every], float)
        self.features = np.clip(np.nan_to_num(features, nan=0, posinf=20, neginf=-20), -20, 20)
        self.debris, self.look, self.log, self.size = [np.array([row[i] for row in every]) for i in range(1, 5)]
        repeat = lambda key: np.repeat([document[key] for document in documents], [len(own) for own in rows])
        self.layout = repeat("layout")
        self.set = repeat("photos")
        self.maker = repeat("maker")
        self.photo = np.repeat(np.arange(len(documents)), [len(own) for own in rows])
        scenes = sorted({document["scene"] for document in documents})
        self.fold = np.repeat([scenes.index(document["scene"]) % FOLDS for document in documents], [len(own) for own in rows])
        self.least = np.array([LEAST[layout] for layout in self.layout])
        length = np.repeat([document["seen_from_mm"] for document in documents], [len(own) for own in rows])
        outlined = np.array([one["max_feret_mm"] for document in documents for one in document["candidates"]])
        self.shown = outlined >= RESOLVED * length
        self.outlined = outlined

    def counts(self):
        """Weight of a find: small ones count little."""
        return np.where(np.maximum(self.size, self.outlined) >= 0.75 * self.least, 1.0, SMALL)

    def counts_by_maker(self):
        """The same, those of all photos of one maker as much as those of another, of however many photos: what is fitted
        is meant for photos of neither."""
        counts = self.counts()
        makers = sorted(set(self.maker))
        for maker in makers:
            counts[self.maker == maker] *= len(counts) / len(makers) / (self.maker == maker).sum()
        return counts

    def counts_by_folder(self):
        """The same, but all finds of a photo together only as the root of their number, as they share lamp and surface, and
        all finds of a folder as much as those of another."""
        counts = self.counts() / np.sqrt(np.bincount(self.photo))[self.photo]
        for folder in set(self.set):
            counts[self.set == folder] *= len(counts) / counts[self.set == folder].sum()
        return counts
