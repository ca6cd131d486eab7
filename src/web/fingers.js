// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
// What fingers, a mouse and keys do with a picture: one moves it, two or a wheel zoom it, a tap is a
// tap. Keys: plus and minus zoom, arrows move.

const keyStep = 60, keyZoom = 1.3, wheelZoom = 1.2, tapLimit = 10, swipeLeast = 40;

// `on` has pan(dx, dy), zoom(factor, x, y) and, where taps mean something, tap(x, y); all in pixels
// of the box.
export const watchFingers = (box, on) => {
  const fingers = new Map();
  let moved = 0;
  const at = (event) => {
    const edge = box.getBoundingClientRect();
    return { x: event.clientX - edge.left, y: event.clientY - edge.top };
  };
  const apart = (two) => Math.hypot(two[0].x - two[1].x, two[0].y - two[1].y) || 1;

  box.addEventListener("pointerdown", (event) => {
    box.setPointerCapture(event.pointerId);
    if (fingers.size === 0) moved = 0;
    fingers.set(event.pointerId, at(event));
  });
  box.addEventListener("pointermove", (event) => {
    if (!fingers.has(event.pointerId)) return;
    const before = [...fingers.values()];
    const was = fingers.get(event.pointerId), now = at(event);
    fingers.set(event.pointerId, now);
    moved += Math.hypot(now.x - was.x, now.y - was.y);
    if (fingers.size === 1) on.pan(now.x - was.x, now.y - was.y);
    if (fingers.size !== 2) return;
    const after = [...fingers.values()];
    on.zoom(apart(after) / apart(before), (after[0].x + after[1].x) / 2, (after[0].y + after[1].y) / 2);
  });
  const lifted = (event) => {
    const spot = fingers.get(event.pointerId);
    fingers.delete(event.pointerId);
    if (on.tap && event.type === "pointerup" && spot && fingers.size === 0 && moved < tapLimit)
      on.tap(spot.x, spot.y);
  };
  box.addEventListener("pointerup", lifted);
  box.addEventListener("pointercancel", lifted);
  box.addEventListener("wheel", (event) => {
    event.preventDefault();
    const spot = at(event);
    on.zoom(event.deltaY < 0 ? wheelZoom : 1 / wheelZoom, spot.x, spot.y);
  }, { passive: false });
  box.addEventListener("keydown", (event) => {
    const moves = { ArrowLeft: [keyStep, 0], ArrowRight: [-keyStep, 0],
                    ArrowUp: [0, keyStep], ArrowDown: [0, -keyStep] };
    const middle = [box.clientWidth / 2, box.clientHeight / 2];
    if (event.key === "+" || event.key === "=") on.zoom(keyZoom, ...middle);
    else if (event.key === "-") on.zoom(1 / keyZoom, ...middle);
    else if (moves[event.key]) on.pan(...moves[event.key]);
    else return;
    event.preventDefault();
  });
};

// A swipe over the box to the left calls step(1), one to the right step(-1).
export const watchSwipes = (box, step) => {
  let from = null;
  box.addEventListener("pointerdown", (event) => {
    event.target.setPointerCapture(event.pointerId);
    from = event.clientX;
  });
  box.addEventListener("pointerup", (event) => {
    const way = from === null ? 0 : event.clientX - from;
    from = null;
    if (Math.abs(way) > swipeLeast) step(way < 0 ? 1 : -1);
  });
};
