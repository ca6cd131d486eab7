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

const rowFor = (file) => {
  const item = element("li");
  item.className = "row";
  const box = element("div");
  const note = element("p");
  const bar = element("progress");
  bar.max = file.size;
  bar.value = 0;
  bar.setAttribute("aria-label", "How much of " + file.name + " is sent");
  box.append(element("strong", file.name), bar, note);
  item.append(box);
  list.prepend(item);
  return { box, note, bar };
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
};

const send = async (file, row, how) => {
  const bytes = await file.arrayBuffer();
  const sha256 = hexOf(await crypto.subtle.digest("SHA-256", bytes));
  const named = { sha256, size: file.size, place: how.place };
  if (how.of) Object.assign(named, { of: how.of, as: how.as });
  if (how.flush) named.flush = how.flush;
  if (how.work) named.work = how.work;
  const address = `/visit/${visit}/upload?`;
  const state = await patiently(() => asked(address + fields(named)), row);
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

const take = (input) => {
  const how = Object.fromEntries(new FormData(form));
  for (const file of input.files) {
    const row = rowFor(file);
    queue = queue.then(() => send(file, row, how)).catch((trouble) => {
      row.bar.remove();
      row.note.textContent = trouble.said || "The photo could not be read.";
      row.note.className = "notice warning";
    });
  }
  input.value = "";
};

for (const name of ["camera", "files"]) {
  const input = document.getElementById(name);
  input.addEventListener("change", () => take(input));
}
// Fields that belong to one place are shown with it alone.
const showFields = () => {
  const chosen = new FormData(form).get("place");
  for (const box of form.querySelectorAll("[data-place]")) box.hidden = box.dataset.place !== chosen;
};
form.addEventListener("change", showFields);
showFields();
form.addEventListener("submit", (event) => event.preventDefault());
