"""Touches the phone on the desk as its page does, and says what each touch took until its picture was here, part by part.

    android-shell/desk --season        in one terminal: it prints the address
    tests/touches.py ADDRESS           in another

The parts: what was waited for the core; laying the window out; drawing it; telling what can be touched; packing the picture; and the rest,
which is the way over the loopback and waiting for a turn. What a browser takes to show it is not in it. Wants nothing but Python.
"""

import json
import statistics
import sys
import time
import urllib.error
import urllib.request

# From the board, each by the words that its control says first. `<` goes back.
WAY = ["Aircraft", "<", "Findings", "<", "Journal", "<", "Draw up the card", "<", "Aircraft", "Trends over its life", "<", "<",
       "Hover ladder", "<", "Draw up the card", "<"]
PARTS = ("core", "layout", "drawing", "telling", "packing")


class Desk:
    def __init__(self, address):
        self.address = address.rstrip("/")
        self.state = {}
        while "controls" not in self.state:
            self.state = self.get("/state?after=0")

    def get(self, path):
        with urllib.request.urlopen(self.address + path) as answer:
            body = answer.read()
        return json.loads(body) if answer.headers["Content-Type"].startswith("application/json") else body

    def tell(self, what, **how):
        told = urllib.request.Request(f"{self.address}/{what}", json.dumps(how).encode(), {"Origin": self.address})
        urllib.request.urlopen(told).read()

    def fresh(self):
        """The next picture after the one that is known."""
        while True:
            self.state = self.get(f"/state?after={self.state['revision']}")
            try:
                return self.get(f"/screen.png?revision={self.state['revision']}")
            except urllib.error.HTTPError as gone:
                # It was drawn over since it was told of.
                if gone.code != 404:
                    raise

    def home(self):
        while any(control["says"] == "Back" for control in self.state["controls"]):
            self.back()

    def control(self, words):
        for number, control in enumerate(self.state["controls"]):
            if control["says"].startswith(words):
                return number, control
        raise SystemExit(f"nothing says “{words}”, but: {[c['says'] for c in self.state['controls']]}")

    def touch(self, words):
        number, control = self.control(words)
        self.tell("control", number=number, says=control["says"], act=False)
        time.sleep(0.5)
        self.state = self.get(f"/state?after={self.state['revision'] - 1}")
        _, control = self.control(words)
        left, top, width, height = control["at"]
        at = {"x": left + width / 2, "y": top + height / 2}
        before = self.state["title"]
        began = time.perf_counter()
        self.tell("touch", kind="down", **at)
        self.tell("touch", kind="up", **at)
        return self.until(lambda: self.state["title"] != before, began)

    def back(self):
        before, began = self.state["title"], time.perf_counter()
        self.tell("back")
        return self.until(lambda: self.state["title"] != before, began)

    def until(self, there, began):
        picture = b""
        while not there() and time.perf_counter() - began < 20:
            picture = self.fresh()
        return (time.perf_counter() - began) * 1e3, len(picture), self.get("/spent")


def main():
    desk = Desk(sys.argv[1])
    desk.home()
    took = []
    print(f"{'touch':34} {'all':>6} " + " ".join(f"{part:>8}" for part in PARTS) + f" {'rest':>8} {'bytes':>8}   ms")
    for words in WAY:
        all_ms, size, parts = desk.back() if words == "<" else desk.touch(words)
        took.append(all_ms)
        rest = all_ms - sum(parts[part] for part in PARTS)
        shown = f"back to {desk.state['title']}" if words == "<" else words
        print(f"{shown[:34]:34} {all_ms:6.0f} " + " ".join(f"{parts[part]:8.0f}" for part in PARTS) + f" {rest:8.0f} {size:8}")
        time.sleep(0.3)
    print(f"of {len(took)} touches: middle {statistics.median(took):.0f} ms, slowest {max(took):.0f} ms")


if __name__ == "__main__":
    main()
