// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
// Two photos seen from above, side by side: both are moved and zoomed together, so that a millimetre
// is as long in one as in the other.
import { watchFingers } from "/fingers.js";

const holder = document.getElementById("panes");
if (holder) {
  const perMillimetre = Number(holder.dataset.scale); // of the pictures
  const panes = [...holder.querySelectorAll(".pane")].map((box) => ({
    box,
    layers: box.querySelector(".layers"),
    width: Number(box.dataset.width),
    height: Number(box.dataset.height),
  }));
  const widest = Math.max(...panes.map((one) => one.width));
  const highest = Math.max(...panes.map((one) => one.height));
  let scale = 1, least = 1; // pixels of the screen for a millimetre
  let x = 0, y = 0; // what lies in the middle of each pane, millimetres from the middle of the window

  const showBar = () => {
    const lengths = [0.5, 1, 2, 5, 10, 20, 50];
    const length = lengths.find((one) => one * scale >= 40) || 50;
    document.getElementById("scalebar").style.width = `${length * scale}px`;
    document.getElementById("barwords").textContent = `${length} mm`;
  };
  const place = () => {
    const half = (length, room) => Math.max(0, (length - room / scale) / 2);
    const box = panes[0].box;
    const farX = half(widest, box.clientWidth), farY = half(highest, box.clientHeight);
    x = Math.min(farX, Math.max(-farX, x));
    y = Math.min(farY, Math.max(-farY, y));
    for (const one of panes) {
      const left = one.box.clientWidth / 2 - (one.width / 2 + x) * scale;
      const top = one.box.clientHeight / 2 - (one.height / 2 + y) * scale;
      one.layers.style.transform = `translate(${left}px, ${top}px) scale(${scale / perMillimetre})`;
    }
    holder.style.setProperty("--unit", 1 / scale);
    showBar();
  };
  const zoom = (factor, px, py) => {
    const box = panes[0].box;
    const next = Math.min(Math.max(scale * factor, least), 200);
    x += (px - box.clientWidth / 2) * (1 / scale - 1 / next);
    y += (py - box.clientHeight / 2) * (1 / scale - 1 / next);
    scale = next;
    place();
  };
  const whole = () => {
    const box = panes[0].box;
    least = Math.min(box.clientWidth / widest, box.clientHeight / highest);
    scale = least;
    place();
  };

  for (const one of panes)
    watchFingers(one.box, {
      pan: (dx, dy) => {
        x -= dx / scale;
        y -= dy / scale;
        place();
      },
      zoom,
    });
  const middle = () => [panes[0].box.clientWidth / 2, panes[0].box.clientHeight / 2];
  document.getElementById("closer").addEventListener("click", () => zoom(1.6, ...middle()));
  document.getElementById("farther").addEventListener("click", () => zoom(1 / 1.6, ...middle()));
  document.getElementById("hide").addEventListener("click", (event) => {
    const hidden = holder.classList.toggle("bare");
    event.target.setAttribute("aria-pressed", String(hidden));
  });
  // A bar of the browser that comes or goes while one scrolls changes the height alone: then what is
  // enlarged stays.
  let shownWidth = 0;
  const fit = () => {
    if (panes[0].box.clientWidth === shownWidth) return place();
    shownWidth = panes[0].box.clientWidth;
    whole();
  };
  window.addEventListener("resize", fit);
  fit();
}
