// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
// Draws the marks over the photo, zooms and pans, shows a piece that is tapped and records what a
// hand says of it. What is counted and how is worked out by the program alone.
import { watchFingers, watchSwipes } from "/fingers.js";
import { bounds, drawLegend, drawMarks } from "/marks.js";
import { crop, factsOf, listTakenOut, toldOf, undoOf } from "/piece.js";

const byId = (id) => document.getElementById(id);
const photo = byId("photo").dataset.photo;
const view = byId("view"), picture = byId("picture"), marks = byId("marks");
const form = byId("piece"), sheet = byId("sheet");
let data = null, chosen = null;
let undoing = null; // what takes the last correction back
let keeping = false; // a correction is on its way
let joining = null; // the piece of which another part is looked for
let oneAfterAnother = false; // the doubtful pieces, each as soon as the one before was said
let scale = 1, left = 0, top_ = 0, least = 1, windowScale = 1;
const lettersFrom = 2; // times the scale that shows the window: before, they would hide small pieces

const place = () => {
  const how = `translate(${left}px, ${top_}px) scale(${scale})`;
  picture.style.transform = how;
  marks.style.transform = how;
  marks.style.setProperty("--unit", 1 / scale);
  marks.classList.toggle("near", scale >= lettersFrom * windowScale);
};
const within = () => {
  const box = view.getBoundingClientRect();
  const keep = (at, length, room) =>
    length <= room ? (room - length) / 2 : Math.min(0, Math.max(room - length, at));
  left = keep(left, data.width * scale, box.width);
  top_ = keep(top_, data.height * scale, box.height);
  place();
};
const zoom = (factor, x, y) => {
  const next = Math.min(Math.max(scale * factor, least), 16);
  left = x - ((x - left) * next) / scale;
  top_ = y - ((y - top_) * next) / scale;
  scale = next;
  within();
};
// Shows the card's window, or the whole photo if no card was found.
const showWindow = () => {
  const box = view.getBoundingClientRect();
  least = Math.min(box.width / data.width, box.height / data.height);
  const spots = data.window || [[0, 0], [data.width, data.height]];
  const xs = spots.map((p) => p[0]), ys = spots.map((p) => p[1]);
  const room = 1.08; // a little more than the window
  const wide = (Math.max(...xs) - Math.min(...xs)) * room, high = (Math.max(...ys) - Math.min(...ys)) * room;
  scale = windowScale = Math.max(least, Math.min(box.width / wide, box.height / high));
  left = box.width / 2 - ((Math.max(...xs) + Math.min(...xs)) / 2) * scale;
  top_ = box.height / 2 - ((Math.max(...ys) + Math.min(...ys)) / 2) * scale;
  within();
};
const middle = () => [view.clientWidth / 2, view.clientHeight / 2];

const draw = () => drawMarks(marks, data, chosen);

// While the other part of a piece is looked for: which piece was tapped for it.
const showJoining = () => {
  byId("joining").hidden = joining === null;
  sheet.scrollTop = 0; // what is asked or shown stands at its top
  if (joining === null) return;
  const found = chosen !== null && chosen !== joining;
  byId("join").hidden = !found;
  byId("other").textContent = found
    ? `Is piece ${chosen} a part of piece ${joining}?`
    : `Tap the other part of piece ${joining} on the photo, or go to it with Before and Next.`;
};

const told = (sentence, undo) => {
  byId("told").textContent = sentence;
  undoing = undo || null;
  byId("undo-last").hidden = !undoing;
  byId("undo-last").textContent = undoing && undoing.is ? "Undo: as found" : "Undo: as measured";
};

// On a phone the sheet lies over the page: the photo is moved up from under it.
const keepInSight = () => {
  if (getComputedStyle(sheet).position !== "fixed") return;
  const box = view.getBoundingClientRect(), covered = box.bottom - sheet.getBoundingClientRect().top;
  const by = Math.min(covered, box.top) - 8;
  if (by > 0) window.scrollBy(0, by);
};

const show = (number, move) => {
  const piece = data.pieces.find((one) => one.number === number);
  chosen = piece ? number : null;
  draw();
  form.hidden = !piece;
  showJoining();
  byId("hint").hidden = Boolean(piece);
  if (!piece) return;
  byId("name").textContent = `Piece ${piece.number}: ${piece.type}` +
    (piece.doubtful ? " (doubtful)" : "");
  byId("size").textContent = [`Longest side: ${piece.size}.`, piece.mind].join(" ");
  factsOf(piece);
  const right = byId("right");
  right.hidden = !piece.doubtful || !piece.known;
  right.value = piece.type;
  right.textContent = `Right: it is ${piece.type}`;
  byId("undo").hidden = !piece.corrected;
  byId("apart").hidden = !piece.regrouped;
  crop(picture, data.width, piece);
  if (move) {
    const box = bounds(piece);
    scale = Math.min(Math.max(view.clientHeight / (6 * Math.max(box.w, box.h, 10)), least), 8);
    left = view.clientWidth / 2 - (box.x + box.w / 2) * scale;
    top_ = view.clientHeight / 2 - (box.y + box.h / 2) * scale;
    within();
    byId("name").focus({ preventScroll: true });
  }
  keepInSight();
};

const step = (by, wanted) => {
  const all = data.pieces.filter(wanted);
  if (all.length === 0) {
    told("There is no such piece.");
    return;
  }
  const at = all.findIndex((one) => one.number === chosen);
  const next = at < 0 ? (by > 0 ? 0 : all.length - 1) : (at + by + all.length) % all.length;
  show(all[next].number, true);
};

// The next doubtful piece after one that may be doubtful no more.
const stepFrom = (number) => {
  const next = data.pieces.find((one) => one.doubtful && one.number > number);
  show((next || data.pieces.find(isDoubtful)).number, true);
};

// The nearest piece to a tap, within a finger's breadth.
const tapped = (x, y) => {
  const px = (x - left) / scale, py = (y - top_) / scale;
  let best = null, nearest = 24 / scale;
  for (const piece of data.pieces) {
    const box = bounds(piece);
    const dx = Math.max(box.x - px, 0, px - box.x - box.w);
    const dy = Math.max(box.y - py, 0, py - box.y - box.h);
    const off = Math.hypot(dx, dy);
    if (off < nearest || (off === nearest && best && box.w * box.h < bounds(best).w * bounds(best).h)) {
      nearest = off;
      best = piece;
    }
  }
  oneAfterAnother = false;
  told("");
  show(best ? best.number : null, false);
  const out = best ? null : data.takenOut.find((one) =>
    Math.hypot(one.at[0] - px, one.at[1] - py) < 24 / scale);
  if (out) told(out.said, { number: out.number, is: "" });
};

watchFingers(view, {
  pan: (dx, dy) => {
    left += dx;
    top_ += dy;
    within();
  },
  zoom,
  tap: tapped,
});

byId("closer").addEventListener("click", () => zoom(1.6, ...middle()));
byId("farther").addEventListener("click", () => zoom(1 / 1.6, ...middle()));
byId("hide").addEventListener("click", (event) => {
  const hidden = marks.toggleAttribute("hidden");
  event.target.setAttribute("aria-pressed", String(hidden));
});
const isDoubtful = (piece) => piece.doubtful;
const stepOver = (by, doubtful) => {
  oneAfterAnother = doubtful;
  told("");
  step(by, doubtful ? isDoubtful : () => true);
};
for (const [name, by, doubtful] of [["before", -1, false], ["after", 1, false], ["doubtful", 1, true]])
  byId(name).addEventListener("click", () => stepOver(by, doubtful));
byId("piece-before").addEventListener("click", () => stepOver(-1, oneAfterAnother));
byId("piece-after").addEventListener("click", () => stepOver(1, oneAfterAnother));
byId("close").addEventListener("click", () => {
  told("");
  show(null, false);
});
byId("undo-last").addEventListener("click", () => undoing && record(undoing.number, undoing.is));
// A swipe over the enlarged piece: on to the next, or back.
watchSwipes(byId("crop"), (by) => stepOver(by, oneAfterAnother));
const countDoubtful = () => {
  const left = data.pieces.filter(isDoubtful).length;
  byId("doubtful").textContent = left === 0 ? "Nothing is doubtful" : `Next doubtful of ${left}`;
  byId("doubtful").disabled = left === 0;
};

const busy = (now) => {
  keeping = now;
  sheet.setAttribute("aria-busy", String(now));
  if (now) told("It is being kept.");
};

const showData = () => {
  byId("finding").textContent = data.finding;
  byId("measured").innerHTML = data.measured;
  countDoubtful();
  listTakenOut(data.takenOut, (number) => record(number, ""));
  drawLegend(byId("legend"), data);
};

const record = async (number, is, other) => {
  if (keeping) return;
  busy(true);
  try {
    const answer = await fetch(`/photo/${photo}/piece`, {
      method: "POST",
      credentials: "same-origin",
      headers: { "Content-Type": "application/x-www-form-urlencoded" },
      body: new URLSearchParams(other === undefined ? { number, is } : { number, is, with: other })
        .toString(),
    });
    const said = await answer.json();
    if (!answer.ok) throw new Error(said.error);
    data = said;
    const now = other === undefined ? number : Math.min(number, other);
    busy(false);
    told(toldOf(number, is), undoOf(now, is));
    showData();
    joining = null;
    if (is && oneAfterAnother && data.pieces.some(isDoubtful)) stepFrom(number);
    else show(now, false);
  } catch (trouble) {
    busy(false);
    // what a browser says of a lost connection is its own, and not always a sentence
    told(trouble instanceof TypeError || !trouble.message
      ? "It was not kept: the connection is lost. Tap again when it is back."
      : trouble.message);
  }
};
form.addEventListener("submit", (event) => {
  event.preventDefault();
  if (chosen === null || !event.submitter) return;
  if (event.submitter.value !== "one") return record(chosen, event.submitter.value);
  joining = chosen;
  told("");
  showJoining();
});
byId("join").addEventListener("click", () => record(joining, "one", chosen));
byId("leave").addEventListener("click", () => {
  joining = null;
  showJoining();
});

// Turning the phone shows the window anew. A bar of the browser that comes or goes while one scrolls
// changes the height alone: then what is enlarged stays.
let shownWidth = 0;
const fit = () => {
  if (view.clientWidth === shownWidth) return within();
  shownWidth = view.clientWidth;
  showWindow();
};

const start = async () => {
  try {
    const answer = await fetch(`/photo/${photo}/marks`, { credentials: "same-origin" });
    if (!answer.ok) throw new Error();
    data = await answer.json();
  } catch {
    told("The marks did not come. Load the page again.");
    return;
  }
  draw();
  fit();
  showData();
  window.addEventListener("resize", fit);
};
start();
