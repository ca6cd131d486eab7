// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
// Draws what was found over a photo, each type in the line and with the letter that the annotated
// photo has for it, and the legend that says so.

const svg = "http://www.w3.org/2000/svg";
const lineWidth = 2; // pixels of the screen, as .core in style.css has it
const most = (numbers) => numbers.reduce((a, b) => Math.max(a, b));
const least = (numbers) => numbers.reduce((a, b) => Math.min(a, b));

export const bounds = (piece) => {
  const xs = piece.outline.map((p) => p[0]), ys = piece.outline.map((p) => p[1]);
  const x = least(xs), y = least(ys);
  return { x, y, w: most(xs) - x, h: most(ys) - y };
};

const drawn = (name, attributes) => {
  const made = document.createElementNS(svg, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  return made;
};

// A group whose lines are drawn as `mark` says: a core of its own rhythm over a casing.
const groupOf = (mark, classes, shape) => {
  const group = drawn("g", { class: classes });
  group.style.setProperty("--core", mark.core);
  group.style.setProperty("--casing", mark.casing);
  if (mark.rhythm.length > 0)
    group.style.setProperty("--rhythm",
      mark.rhythm.map((part) => `calc(var(--unit) * ${part * lineWidth}px)`).join(" "));
  for (const line of ["casing", "core"]) group.append(drawn(shape.name, { ...shape.is, class: line }));
  return group;
};

const polygon = (outline) => ({ name: "polygon", is: { points: outline.map((p) => p.join(",")).join(" ") } });
const letterOf = (piece) => (piece.doubtful ? `(${piece.letter})` : piece.letter);

const outlined = (data, piece, classes) => {
  const kind = data.kinds.find((one) => one.letter === piece.letter);
  const group = groupOf(kind, classes, polygon(piece.outline));
  const box = bounds(piece);
  const letter = drawn("text", { x: box.x + box.w, y: box.y });
  letter.textContent = letterOf(piece);
  group.append(letter);
  return group;
};

// A cross where a hand took a piece out.
const crossAt = ([x, y]) => {
  const group = groupOf({ core: "#fff", casing: "#000", rhythm: [] }, "out",
    { name: "path", is: { d: "M-5 -5 5 5M5 -5-5 5" } });
  group.style.transform = `translate(${x}px, ${y}px) scale(var(--unit))`;
  return group;
};

export const drawMarks = (marks, data, chosen) => {
  marks.replaceChildren();
  for (const outline of data.magnet ? data.magnet.outlines : [])
    marks.append(groupOf(data.magnet.mark, "rim", polygon(outline)));
  for (const piece of data.pieces)
    marks.append(outlined(data, piece, (piece.doubtful ? "piece doubtful" : "piece") +
      (chosen === piece.number ? " chosen" : "")));
  for (const sliver of data.magnet ? data.magnet.slivers : [])
    marks.append(outlined(data, sliver, "sliver"));
  for (const one of data.takenOut) marks.append(crossAt(one.at));
};

const legendLine = (list, mark, words) => {
  const item = document.createElement("li");
  const sample = drawn("svg", { class: "sample", viewBox: "0 0 40 20", "aria-hidden": "true" });
  sample.append(groupOf(mark, "", { name: "ellipse", is: { cx: 20, cy: 10, rx: 16, ry: 6 } }));
  item.append(sample, words);
  list.append(item);
};

// What the lines mean, of what the photo shows.
export const drawLegend = (list, data) => {
  list.replaceChildren();
  const all = [...data.pieces, ...(data.magnet ? data.magnet.slivers : [])];
  for (const kind of data.kinds) {
    const count = all.filter((one) => one.letter === kind.letter).length;
    if (count > 0) legendLine(list, kind, `${kind.letter} ${kind.words}: ${count}`);
  }
  if (data.magnet && data.magnet.outlines.length > 0)
    legendLine(list, data.magnet.mark, data.magnet.mark.words);
  const doubtful = data.pieces.filter((one) => one.doubtful).length;
  const says = (words) => {
    const item = document.createElement("li");
    item.textContent = words;
    list.append(item);
  };
  if (doubtful > 0) says(`In brackets and thin: doubtful, ${doubtful}`);
  if (data.takenOut.length > 0) says(`Crossed: taken out by hand, ${data.takenOut.length}`);
};
