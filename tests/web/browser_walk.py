#!/usr/bin/env python3
# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""Walks one visit through the pages in a real browser, as a technician with a phone does.

    browser_walk.py PROGRAM PHOTO EARLIER-PHOTO [PICTURES]

PROGRAM is swarfbook, the photos are measured ones of a white card. It starts the pages of a new book
and Debian's chromium through chromedriver (W3C WebDriver), twice: as a phone, 360 px wide, and as a
bench monitor. It fails with a sentence on what went wrong. With PICTURES, a folder, a picture of every
page is left there. With SWARFBOOK_AXE, the file axe.min.js of axe-core (MPL-2.0), each page is checked by
its rules of WCAG 2.2 A and AA. Where there is no chromium, it says so and exits with 77.
"""
import contextlib
import os
import pathlib
import shutil
import signal
import sys
import tempfile

from browser import Browser, Failed, driver, expect, pages
from piece_walk import PieceWalk

SIZES = {"phone": (360, 740), "desktop": (1280, 900)}
SKIPPED = 77  # what CTest is told to take for "not run"


class Walk(PieceWalk):
    """The way of one visit, at one size."""

    def __init__(self, browser, origin, size, pictures):
        self.browser, self.origin, self.size = browser, origin, size
        self.pictures = pictures
        self.axe = os.environ.get("SWARFBOOK_AXE", "")

    def look(self, name):
        """A page as it stands: nothing wider than the screen, every target large enough, every picture
        there."""
        wide = self.browser.run("return document.documentElement.scrollWidth") - SIZES[self.size][0]
        expect(wide <= 0, f"The page {name} is {wide} px wider than a screen of {self.size}.")
        small = self.browser.run(
            "return [...document.querySelectorAll('button, a.button, a.item, summary, nav a,"
            " input:not([type=hidden]):not(.file)')]"
            ".filter((e) => e.checkVisibility() && e.getBoundingClientRect().height < 47.5)"
            ".map((e) => e.outerHTML.slice(0, 80))")
        expect(not small, f"On the page {name} targets are lower than 48 px: {small}.")
        self.browser.wait(
            "for (const image of document.images) image.loading = 'eager';"
            "return [...document.images].every((i) => !i.getAttribute('src')"
            " || !i.checkVisibility() || (i.complete && i.naturalWidth > 0))",
            f"A picture of the page {name} does not come.")
        # both colours hold the same things in the same places: who only walks sees one
        for wish in ("light", "dark") if self.axe or self.pictures else ():
            self.browser.colours(wish)
            if self.axe:
                violations = self.browser.rules_broken(self.axe)
                expect(not violations, f"{name}, {wish}, breaks rules of WCAG 2.2 AA: {violations}.")
            if self.pictures:
                file = pathlib.Path(self.pictures) / f"{name}-{self.size}-{wish}.png"
                file.write_bytes(self.browser.whole_page())
            self.browser.colours("light")

    def pair(self, link):
        self.browser.go(self.origin + "/")
        expect("not paired" in self.browser.text(), "A device that is not paired sees a page.")
        self.look("unpaired")
        self.browser.go(link)
        self.look("pairing")
        self.browser.type("#name", f"{self.size} at the bench")
        self.browser.click("form button.main")
        self.browser.wait("return location.pathname === '/'", "Pairing did not lead to the visits.")
        self.browser.go(link)
        expect("pairs no device" in self.browser.text(), "A code pairs two devices.")

    def start_visit(self, vehicle, new, date):
        self.browser.go(self.origin + "/new")
        self.look("new-visit")
        self.browser.type("#vehicle", vehicle)
        if new:
            self.browser.run("document.querySelector('[name=new]').click()")
            self.browser.type("#unit", "Demo 5")
        self.browser.run("document.querySelector('#date').value = arguments[0]", date)
        self.browser.type("#odometer", "120000 km" if new else "131000 km")
        self.browser.type("#since-clean", "30000 km" if new else "11000 km")
        self.browser.type("#complaint", "slips in 3")
        self.browser.click("form button.main")
        self.browser.wait("return /^.visit.\\d+$/.test(location.pathname)", "No visit was started.")
        self.look("visit-empty")
        return self.browser.run("return location.pathname")

    def send(self, visit, photo, lose):
        self.browser.go(self.origin + visit + "/shoot")
        self.look("shoot")
        self.browser.type("#files", str(photo))
        self.browser.wait("return document.querySelector('#missing').textContent.includes('Tap first')",
                          "A photo is taken before its place was tapped.")
        expect(not self.browser.run("return document.querySelector('#sent').children.length"),
               "A photo is sent before its place was tapped.")
        self.browser.run("document.querySelector('[value=pad]').click();"
                         "document.querySelector('details').open = true")
        expect(self.browser.in_sight("#shoot .button.main") or self.size == "desktop",
               "The camera's button is not in sight once the place was tapped.")
        self.browser.type("#bar", "80.0")
        self.browser.run("document.querySelector('#sampling').value = 'washed, dried and spread'")
        if lose:
            self.browser.offline(True)
        self.browser.type("#files", str(photo))
        if lose:
            self.browser.wait("return document.body.innerText.includes('connection is lost')",
                              "A lost connection is not told.")
            self.look("connection-lost")
            self.browser.offline(False)
        self.browser.wait("return document.querySelector('#sent a.button')",
                          "The photo was not measured.")
        self.look("sent")
        self.browser.click("#sent a.button")
        self.browser.wait("return document.querySelectorAll('#marks g').length > 0",
                          "No piece is marked on the photo.")

    def send_flushed(self, photo):
        """A pass of the flush that was begun: its bar is no wider than the screen."""
        self.browser.type("#files", str(photo))
        self.browser.wait("return document.querySelector('#sent a.button')",
                          "The photo of the pass was not measured.")
        self.look("pass-sent")

    def flush(self, visit, photo):
        """Begins a flush and photographs its first pass."""
        self.browser.go(self.origin + visit + "/flush")
        self.browser.type("#part", "solenoid A")
        self.look("flush")
        self.browser.click("form button:not(.main)")
        self.browser.wait("return location.pathname.endsWith('/pass')", "No flush was begun.")
        self.look("pass")
        self.send_flushed(photo)
        self.browser.go(self.origin + visit + "/flush")
        self.browser.wait("return document.querySelector('.flushed rect')", "A pass has no bar.")
        self.look("flush-begun")

    def fill_in(self, visit):
        """One row of the work sheet filled in, one said to be not inspected."""
        self.browser.go(self.origin + visit + "/step?n=3")
        self.look("step")
        self.browser.link("gear 3")
        self.look("row")
        self.browser.run("document.querySelector('input[value=slip]').click();"
                         "document.querySelector('input[value=firm]').click()")
        self.browser.click("form button.main")
        self.browser.wait("return location.pathname.endsWith('/step') && "
                          "document.body.innerText.includes('slip')",
                          "What was filled in is not shown.")
        left = "return document.querySelectorAll(\"button[name='left-out']\").length"
        before = self.browser.run(left)
        self.browser.click("button[name='left-out']")
        self.browser.wait(left + f" === {before - 1}", "A row cannot be left out by one tap.")
        self.look("step-filled-in")

    def work(self, visit):
        """A line of work, as far as the page that takes its photos."""
        self.browser.go(self.origin + visit + "/row?name=after-repair&other=0&n=1")
        self.browser.type("#f0t", "filter renewed")
        self.browser.click("form button.main")
        self.browser.wait("return !location.pathname.endsWith('/row') || "
                          "document.querySelector('.notice.note')", "A line of work is not kept.")
        self.browser.go(self.origin + visit + "/observed")
        self.browser.click("a[href*='/work?']")
        self.browser.wait("return document.querySelector('[name=moment]')",
                          "A line of work takes no photos.")
        self.look("work-photos")

    def results(self, visit):
        for name in ("", "/suggestion", "/observed", "/compare", "/report", "/correct"):
            self.browser.go(self.origin + visit + name)
            self.look(name[1:] or "visit")
        for name in ("second-light", "after-magnet", "cleaned"):
            self.browser.go(self.origin + visit)
            self.browser.click("a.item.photo")
            self.browser.wait("return document.querySelector('#finding')", "No photo is shown.")
            self.browser.click(f"a[href$='as={name}']")
            self.browser.wait("return location.pathname.endsWith('/second')",
                              "No second photo is offered.")
            self.look(name)
        pdf = self.browser.run(
            "const ask = new XMLHttpRequest(); ask.open('GET', arguments[0], false);"
            "ask.overrideMimeType('text/plain; charset=x-user-defined'); ask.send();"
            "return [ask.status, ask.responseText.slice(0, 5), ask.responseText.length]",
            visit + "/report.pdf?for=customer")
        expect(pdf[0] == 200 and pdf[1] == "%PDF-" and pdf[2] > 10000, f"The report is {pdf}.")

    def compare(self, visit):
        """Both photos are moved and zoomed together, at one scale."""
        self.browser.go(self.origin + visit + "/compare")
        self.browser.wait("return [...document.querySelectorAll('.pane img')]"
                          ".every((i) => i.complete && i.naturalWidth > 0)",
                          "The photos from above are not shown.")
        scales = "return [...document.querySelectorAll('.layers')].map((l) => "\
                 "new DOMMatrix(getComputedStyle(l).transform).a)"
        before = self.browser.run(scales)
        self.browser.click("#closer")
        after = self.browser.run(scales)
        expect(len(after) == 2 and after[0] == after[1] and after[0] > before[0],
               f"The two photos are not zoomed together: {before}, {after}.")
        self.browser.run("window.dispatchEvent(new Event('resize'))")  # a bar that comes while scrolling
        expect(self.browser.run(scales) == after, "What was enlarged does not stay so.")
        self.look("compare-closer")

    def rest(self):
        self.browser.go(self.origin + "/")
        self.look("visits")
        self.browser.go(self.origin + "/vehicles")
        self.look("vehicles")
        self.browser.click("a.item")
        self.browser.wait("return document.querySelector('#note')", "No vehicle is shown.")
        self.look("vehicle")
        self.browser.go(self.origin + "/devices")
        self.look("devices")
        self.browser.go(self.origin + "/nothing")
        self.look("no-page")


def walk(browser, new_link, origin, photos, size, pictures):
    way = Walk(browser, origin, size, pictures)
    way.pair(new_link())
    vehicle = "DEMO-" + size
    earlier = way.start_visit(vehicle, True, "2024-03-14")
    way.send(earlier, photos[1], False)
    visit = way.start_visit(vehicle, False, "2025-06-14")
    way.send(visit, photos[0], size == "phone")
    way.correct()
    way.fill_in(visit)
    way.work(visit)
    way.flush(visit, photos[2])
    way.results(visit)
    way.compare(visit)
    way.rest()
    wrong = browser.complaints()
    expect(not wrong, f"The browser complains: {wrong}.")


def main():
    if not shutil.which("chromedriver") or not shutil.which("chromium"):
        print("browser_walk: passed over, for there is no chromium with chromedriver here. Debian's "
              "packages chromium and chromium-driver bring them.")
        sys.exit(SKIPPED)
    # whoever ends the walk ends browser and pages with it
    signal.signal(signal.SIGTERM, lambda *_: sys.exit("browser_walk: it was ended from outside."))
    program, photo, earlier = (str(pathlib.Path(one).resolve()) for one in sys.argv[1:4])
    pictures = sys.argv[4] if len(sys.argv) > 4 else ""
    folder = tempfile.mkdtemp(prefix="swarfbook-walk-")
    try:
        # a photo that the book knows is of one visit: the second size sends copies that differ
        with driver() as port, pages(program, folder + "/book") as (origin, new_link):
            for size in SIZES:
                own = []
                for number, one in enumerate((photo, earlier, photo)):
                    own.append(f"{folder}/{size}-{number}.jpg")
                    with open(one, "rb") as taken, open(own[-1], "wb") as copy:
                        copy.write(taken.read() + f"{size} {number}".encode())
                with contextlib.closing(Browser(port, SIZES[size], f"{folder}/{size}")) as browser:
                    walk(browser, new_link, origin, own, size, pictures)
    except Failed as failed:
        sys.exit(f"browser_walk: {failed}")
    finally:
        shutil.rmtree(folder, ignore_errors=True)
    print("browser_walk: phone and desktop, from the photo to the PDF.")


main()
