// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
// Sends photos part by part. Each is named by its SHA-256, so that one that was broken off goes on
// where it stopped, and none is kept twice.
const form = document.getElementById("shoot");
const list = document.getElementById("sent");
const visit = form.dataset.visit;
const partSize = 512 * 1024;
let queue = Promise.resolve();

const element = (name, text) => {
  const made = document.createElement(name);
  made.textContent = text || "";
  return made;
};

const fields = (more) => new URLSearchParams(more).toString();

const asked = async (address, options) => {
  const answer = await fetch(address, { credentials: "same-origin", ...options });
  if (answer.status === 401) throw { said: "This device is no longer paired." };
  const said = await answer.json().catch(() => ({ error: "The answer could not be read." }));
  if (!answer.ok) throw { said: said.error || "The photo was not added." };
  return said;
};

const waited = (milliseconds) => new Promise((done) => setTimeout(done, milliseconds));

// Again and again while the connection is lost; what the program itself refuses is not asked again.
const patiently = async (ask, row) => {
  for (let wait = 1000; ; wait = Math.min(wait * 2, 15000)) {
    try {
      return await ask();
    } catch (trouble) {
      if (trouble.said) throw trouble;
      row.note.textContent = "The connection is lost. Sending goes on by itself when it is back.";
      await waited(wait);
      row.note.textContent = "";
    }
  }
};

const hexOf = (buffer) =>
  Array.from(new Uint8Array(buffer), (byte) => byte.toString(16).padStart(2, "0")).join("");

const barOf = (file) => {
  const bar = element("progress");
  bar.max = file.size;
  bar.value = 0;
  bar.setAttribute("aria-label", "How much of " + file.name + " is sent");
  return bar;
};

// Which photo it is, as small picture; phones call all of them alike. A browser that cannot read the
// file shows its name alone.
const smallPicture = async (file, item) => {
  try {
    const picture = await createImageBitmap(file, { resizeWidth: 96 });
    const canvas = element("canvas");
    canvas.width = picture.width;
    canvas.height = picture.height;
    canvas.setAttribute("role", "img");
    canvas.setAttribute("aria-label", file.name + ", small");
    canvas.getContext("2d").drawImage(picture, 0, 0);
    item.prepend(canvas);
  } catch { /* its name stands there */ }
};

const rowFor = (file) => {
  const item = element("li");
  item.className = "row sent";
  const box = element("div");
  const note = element("p");
  const bar = barOf(file);
  box.append(element("strong", file.name), bar, note);
  item.append(box);
  list.prepend(item);
  smallPicture(file, item);
  return { file, box, note, bar };
};

// What was refused can be sent once more, after place or check bar were put right.
const offerAgain = (row) => {
  const again = element("button", "Send again");
  again.type = "button";
  again.addEventListener("click", () => {
    if (!isPlaceTapped()) return;
    row.box.querySelectorAll(".caution, a.button").forEach((old) => old.remove());
    again.remove();
    row.note.textContent = row.note.className = "";
    row.bar = barOf(row.file);
    row.note.before(row.bar);
    enqueue(row);
  });
  row.box.append(again);
};

const shown = (row, said) => {
  row.bar.remove();
  row.note.textContent = said.refused ? said.refused + " " + said.advice : said.said;
  row.note.className = said.refused ? "notice warning" : "";
  for (const caution of said.cautions || []) {
    const line = element("p", caution);
    line.className = "notice caution";
    row.box.append(line);
  }
  if (said.href) {
    const link = element("a", said.go || "See and correct");
    link.className = "button";
    link.href = said.href;
    row.box.append(link);
  }
  if (said.refused) offerAgain(row);
};

const send = async (file, row, how) => {
  const bytes = await file.arrayBuffer();
  const sha256 = hexOf(await crypto.subtle.digest("SHA-256", bytes));
  const named = { sha256, size: file.size, place: how.place };
  if (how.of) Object.assign(named, { of: how.of, as: how.as });
  if (how.flush) named.flush = how.flush;
  if (how.work) named.work = how.work;
  const address = `/visit/${visit}/upload?`;
  // with all that was typed, so that what is typed wrong is told before the photo is sent
  const state = await patiently(() => asked(address + fields({ ...how, ...named })), row);
  if (state.kept) return shown(row, state.kept);
  let received = state.received;
  while (received < file.size) {
    const part = bytes.slice(received, received + partSize);
    const from = received;
    const told = await patiently(
      () => asked(address + fields({ ...named, from }), {
        method: "POST",
        headers: { "Content-Type": "application/octet-stream" },
        body: part,
      }), row);
    received = told.received;
    row.bar.value = received;
  }
  row.note.textContent = how.work ? "The photo is being kept." : "The photo is being measured.";
  row.bar.removeAttribute("value");
  const said = await patiently(
    () => asked(`/visit/${visit}/photo`, {
      method: "POST",
      headers: { "Content-Type": "application/x-www-form-urlencoded" },
      body: fields({ ...how, ...named, file: file.name }),
    }), row);
  shown(row, said);
};

const enqueue = (row) => {
  const how = Object.fromEntries(new FormData(form));
  queue = queue.then(() => send(row.file, row, how)).catch((trouble) => {
    row.bar.remove();
    row.note.textContent = trouble.said || "The photo could not be read.";
    row.note.className = "notice warning";
    offerAgain(row);
  });
};

// The place is tapped before a photo is taken: nobody sees afterwards that it was another one.
const missing = document.getElementById("missing");
const isPlaceTapped = () => {
  const tapped = new FormData(form).has("place") || !form.querySelector("[name=place]");
  missing.textContent = tapped ? "" : "Tap first where the debris is.";
  missing.className = tapped ? "" : "notice warning";
  if (!tapped) form.querySelector("[name=place]").closest("fieldset").scrollIntoView();
  return tapped;
};

const take = (input) => {
  if (isPlaceTapped()) for (const file of input.files) enqueue(rowFor(file));
  input.value = "";
};

for (const name of ["camera", "files"]) {
  const input = document.getElementById(name);
  input.addEventListener("click", (event) => {
    if (!isPlaceTapped()) event.preventDefault();
  });
  input.addEventListener("change", () => take(input));
}
form.addEventListener("change", (event) => {
  if (event.target.name === "place") isPlaceTapped();
});
form.addEventListener("submit", (event) => event.preventDefault());
