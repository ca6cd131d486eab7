// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
// What the photo's page shows and says of one piece.
import { bounds } from "/marks.js";

const byId = (id) => document.getElementById(id);

// The piece enlarged, out of the photo that the page shows.
export const crop = (picture, width, piece) => {
  const box = bounds(piece), canvas = byId("crop");
  const side = Math.max(box.w, box.h) * 1.6 + 8;
  const pen = canvas.getContext("2d");
  pen.clearRect(0, 0, canvas.width, canvas.height);
  const ratio = picture.naturalWidth / width || 1;
  pen.drawImage(picture, (box.x + box.w / 2 - side / 2) * ratio,
    (box.y + box.h / 2 - side / 2) * ratio, side * ratio, side * ratio, 0, 0,
    canvas.width, canvas.height);
};

const fact = (list, name, value) => {
  if (!value) return;
  const term = document.createElement("dt"), said = document.createElement("dd");
  term.textContent = name;
  said.textContent = value;
  list.append(term, said);
};

export const factsOf = (piece) => {
  const facts = byId("facts");
  facts.replaceChildren();
  fact(facts, "Width", piece.width);
  fact(facts, "Size class", piece.class);
  fact(facts, "Certainty", piece.corrected ? "" : piece.certainty);
  fact(facts, "Glint", piece.glint);
  fact(facts, "Magnetic", piece.magnetic);
  fact(facts, "By hand", [piece.regrouped, piece.corrected].filter(Boolean).join(" "));
};

// The pieces that a hand took out, each with a button that brings it back by calling bringBack(number).
export const listTakenOut = (all, bringBack) => {
  const old = byId("out");
  if (old) old.remove();
  if (all.length === 0) return;
  const section = document.createElement("section"), list = document.createElement("ul");
  section.id = "out";
  const head = document.createElement("h2");
  head.textContent = "Taken out by hand";
  list.className = "rows";
  for (const one of all) {
    const item = document.createElement("li"), text = document.createElement("div");
    const undo = document.createElement("button");
    item.className = "row";
    text.textContent = one.said;
    undo.type = "button";
    undo.textContent = `Undo piece ${one.number}`;
    undo.addEventListener("click", () => bringBack(one.number));
    item.append(text, undo);
    list.append(item);
  }
  section.append(head, list);
  byId("bench").after(section);
};

export const toldOf = (number, is) => {
  if (is === "one") return "Kept: they are one piece.";
  if (is === "two") return `Kept: piece ${number} is two pieces. Their sizes are less sure.`;
  if (is === "as found") return "The pieces are again as they were found.";
  if (is === "left over") return `Kept: piece ${number} is left over from assembly.`;
  return is ? `Kept: piece ${number} is ${is}.` : `Piece ${number} is again as it was measured.`;
};

// What takes a correction back; nothing for one that itself took something back.
export const undoOf = (number, is) => {
  if (!is || is === "as found") return null;
  return { number, is: is === "one" || is === "two" ? "as found" : "" };
};
