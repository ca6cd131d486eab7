# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""Debian's chromium, driven through chromedriver (W3C WebDriver), and the pages that it looks at."""
import base64
import contextlib
import http.client
import json
import os
import pathlib
import subprocess
import time
import urllib.parse

# The key under which WebDriver hands out elements (W3C WebDriver, 12.1).
ELEMENT = "element-6066-11e4-a52e-4f735466cecf"
PATIENCE = 60.0  # seconds until a page shows what is waited for; measuring a photo takes one or two


class Failed(Exception):
    pass


def expect(true, sentence):
    if not true:
        raise Failed(sentence)


class Browser:
    """One window of a browser."""

    def __init__(self, port, size, profile):
        self.port = port
        width, height = size
        arguments = ["--headless=new", "--disable-gpu", f"--user-data-dir={profile}"]
        if os.geteuid() == 0:  # root, as in a container: chromium's own sandbox refuses to start
            arguments.append("--no-sandbox")
        wanted = {"browserName": "chrome", "goog:loggingPrefs": {"browser": "ALL"},
                  "goog:chromeOptions": {
                      "args": arguments,
                      # a window is at least 500 px wide; a phone's screen is narrower
                      "mobileEmulation": {"deviceMetrics": {
                          "width": width, "height": height, "pixelRatio": 1.0,
                          "touch": width < 500, "mobile": width < 500}}}}
        said = self.ask("POST", "/session", {"capabilities": {"alwaysMatch": wanted}})
        self.session = "/session/" + said["sessionId"]

    def ask(self, method, path, body=None):
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=120)
        text = None if body is None else json.dumps(body)
        connection.request(method, path, text, {"Content-Type": "application/json"})
        answer = json.loads(connection.getresponse().read())["value"]
        connection.close()
        if isinstance(answer, dict) and "error" in answer:
            raise Failed(answer["error"] + ": " + answer["message"].split("\n")[0])
        return answer

    def rules_broken(self, axe):
        """What the page breaks of WCAG 2.2 A and AA, by axe-core in that file."""
        source = pathlib.Path(axe).read_text(encoding="utf-8")
        # by the debugger's own evaluation: the pages' policy lets no other script in
        said = self.ask("POST", self.session + "/goog/cdp/execute", {
            "cmd": "Runtime.evaluate", "params": {
                "expression": source + "; axe.run({runOnly: ['wcag2a', 'wcag2aa', 'wcag21a',"
                              " 'wcag21aa', 'wcag22aa']}).then((r) => JSON.stringify("
                              "r.violations.map((v) => v.id + ': ' + v.nodes[0].html)))",
                "awaitPromise": True, "returnByValue": True}})
        return json.loads(said["result"].get("value", "[\"axe did not run\"]"))

    def complaints(self):
        """What the browser called an error, but for what the walk itself brings about."""
        said = self.ask("POST", self.session + "/se/log", {"type": "browser"})
        return [one["message"] for one in said if one["level"] == "SEVERE"
                and " 401 " not in one["message"] and " 403 " not in one["message"]
                and "ERR_INTERNET_DISCONNECTED" not in one["message"]
                and "/nothing " not in one["message"]]

    def go(self, address):
        self.ask("POST", self.session + "/url", {"url": address})

    def run(self, script, *arguments):
        return self.ask("POST", self.session + "/execute/sync",
                        {"script": script, "args": list(arguments)})

    def wait(self, script, sentence, *arguments):
        """What the script gives once that is something."""
        end = time.monotonic() + PATIENCE
        while time.monotonic() < end:
            found = self.run(script, *arguments)
            if found:
                return found
            time.sleep(0.1)
        raise Failed(sentence + " The page shows: " + self.text()[-600:])

    def text(self):
        return self.run("return document.body.innerText")

    def find(self, css):
        return self.ask("POST", self.session + "/element",
                        {"using": "css selector", "value": css})[ELEMENT]

    def click(self, css):
        element = self.find(css)
        self.ask("POST", f"{self.session}/element/{element}/click", {})

    def link(self, words):
        element = self.ask("POST", self.session + "/element",
                           {"using": "xpath", "value": f"//main//a[contains(., '{words}')]"})[ELEMENT]
        self.ask("POST", f"{self.session}/element/{element}/click", {})

    def type(self, css, text):
        element = self.find(css)
        self.ask("POST", f"{self.session}/element/{element}/value", {"text": text})

    def in_sight(self, css):
        """Whether the middle of it can be tapped without scrolling."""
        return self.run(
            "const e = document.querySelector(arguments[0]), b = e.getBoundingClientRect();"
            "const there = document.elementFromPoint(b.x + b.width / 2, b.y + b.height / 2);"
            "return there !== null && (e === there || e.contains(there))", css)

    def tap_at(self, x, y):
        kind = "touch" if self.run("return navigator.maxTouchPoints > 0") else "mouse"
        actions = [{"type": "pointerMove", "duration": 0, "x": round(x), "y": round(y)},
                   {"type": "pointerDown", "button": 0}, {"type": "pointerUp", "button": 0}]
        self.ask("POST", self.session + "/actions",
                 {"actions": [{"type": "pointer", "id": "finger",
                               "parameters": {"pointerType": kind}, "actions": actions}]})

    def offline(self, lost):
        """Takes the network away, or gives it back (chromedriver's own command)."""
        path = self.session + "/chromium/network_conditions"
        if lost:
            self.ask("POST", path, {"network_conditions": {
                "offline": True, "latency": 0, "download_throughput": 0, "upload_throughput": 0}})
        else:
            self.ask("DELETE", path)

    def whole_page(self):
        """A picture of the whole page, not of what the window shows alone."""
        high = self.run("return Math.ceil(document.documentElement.scrollHeight)")
        wide = self.run("return window.innerWidth")
        said = self.ask("POST", self.session + "/goog/cdp/execute", {
            "cmd": "Page.captureScreenshot", "params": {
                "captureBeyondViewport": True,
                "clip": {"x": 0, "y": 0, "width": wide, "height": min(high, 5000), "scale": 1}}})
        return base64.b64decode(said["data"])

    def colours(self, wish):
        """Light or dark, as the system wishes it."""
        self.ask("POST", self.session + "/goog/cdp/execute", {
            "cmd": "Emulation.setEmulatedMedia", "params": {
                "features": [{"name": "prefers-color-scheme", "value": wish}]}})

    def close(self):
        self.ask("DELETE", self.session)


@contextlib.contextmanager
def driver():
    own = {name: value for name, value in os.environ.items() if name != "GLIBC_TUNABLES"}
    process = subprocess.Popen(["chromedriver", "--port=0"], stdout=subprocess.PIPE, text=True, env=own)
    try:
        for line in process.stdout:
            if "successfully on port" in line:
                yield int(line.split("on port")[1].strip(" .\n"))
                break
        else:
            raise Failed("chromedriver did not start.")
    finally:
        process.terminate()
        process.wait()


@contextlib.contextmanager
def pages(program, book):
    """The pages of a book. Gives their address and a function that makes a code which pairs."""
    process = subprocess.Popen([program, "serve", "--port", "0", "--book", book], text=True,
                               stdin=subprocess.PIPE, stdout=subprocess.PIPE,
                               stderr=subprocess.DEVNULL)

    def next_link():
        for line in process.stdout:
            if "/pair?code=" in line:
                return line.strip()
        raise Failed("swarfbook serve ended.")

    def new_link():
        process.stdin.write("new\n")
        process.stdin.flush()
        return next_link()

    try:
        link = next_link()
        parts = urllib.parse.urlsplit(link)
        yield f"{parts.scheme}://{parts.netloc}", new_link
        process.stdin.write("stop\n")
        process.stdin.flush()
        expect(process.wait(timeout=30) == 0, "swarfbook serve did not end well.")
    finally:
        process.kill()
        process.wait()
