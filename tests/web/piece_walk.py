# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""The part of browser_walk.py that puts pieces of a photo right."""
from browser import expect


class PieceWalk:
    """What is done to pieces on the page of a photo; `browser` and `look` are those of the walk."""

    browser = None

    def look(self, name):
        """A page as it stands, under a name."""
        raise NotImplementedError

    def pieces_told(self):
        return int(self.browser.run("return document.querySelector('#finding').textContent"
                                    ".match(/^\\d+/)[0]"))

    def correct(self):
        """Taps a piece that counts, says it is no debris, and takes that back."""
        self.look("photo")
        before = self.pieces_told()
        spot = self.browser.run(
            "document.querySelector('#view').scrollIntoView({block: 'center'});"
            "const box = [...document.querySelectorAll('#marks g:not(.doubtful) polygon.core')]"
            ".map((p) => p.getBoundingClientRect()).sort((a, b) => b.width * b.height - "
            "a.width * a.height)[0];"
            "return [box.x + box.width / 2, box.y + box.height / 2]")
        self.browser.tap_at(*spot)
        self.browser.wait("return !document.querySelector('#piece').hidden",
                          "A tap on a piece shows nothing of it.")
        for part in ("#crop", "#name", "#size", "button[value='not debris']"):
            expect(self.browser.in_sight(part), f"Of a piece that is tapped {part} is not in sight.")
        expect(self.browser.in_sight("#marks") or self.browser.in_sight("#view"), "The sheet hides the photo.")
        self.look("piece")
        expect("mm" in self.browser.run("return document.querySelector('#size').innerText"),
               "The piece shows no size.")
        self.browser.click("button[value='not debris']")
        self.browser.wait("return document.querySelector('#out')", "Nothing was taken out.")
        expect(self.pieces_told() == before - 1, "The count does not follow a correction.")
        self.look("corrected")
        expect(self.browser.in_sight("#undo-last"), "What was taken out cannot be undone right there.")
        self.browser.click("#undo-last")
        self.browser.wait("return !document.querySelector('#out')", "The correction was not undone.")
        self.browser.click("button[value='not debris']")
        self.browser.wait("return document.querySelector('#out')", "Nothing was taken out.")
        self.browser.run("document.querySelector('#out').scrollIntoView({block: 'center'})")
        self.browser.click("#out button")
        self.browser.wait("return !document.querySelector('#out')", "The correction was not undone.")
        expect(self.pieces_told() == before, "The count does not follow the undoing.")
        self.regroup(before)
        hidden = "return document.querySelector('#marks').hasAttribute('hidden')"
        self.browser.click("#close")
        expect(self.browser.run("return document.querySelector('#piece').hidden"),
               "The sheet of a piece cannot be closed.")
        self.browser.click("#hide")
        expect(self.browser.run(hidden), "The marks cannot be hidden.")
        self.browser.click("#hide")

    def regroup(self, before):
        """Says that a piece is two, takes that back, and begins to join it with another."""
        self.browser.click("#two")
        self.browser.wait("return document.querySelector('#told').textContent.includes('is two')",
                          "A piece cannot be said to be two.")
        expect(self.pieces_told() >= before, "The count does not follow a dividing.")
        self.look("divided")
        self.browser.click("#apart")
        self.browser.wait("return document.querySelector('#apart').hidden",
                          "The dividing was not undone.")
        expect(self.pieces_told() == before, "The count does not follow the undoing of a dividing.")
        self.browser.click("#one")
        self.browser.wait("return !document.querySelector('#joining').hidden",
                          "A piece cannot be joined.")
        self.browser.click("#piece-after")
        self.browser.wait("return !document.querySelector('#join').hidden",
                          "No other piece can be chosen to join.")
        self.look("joining")
        self.browser.click("#leave")
