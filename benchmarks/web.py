"""From a key in the browser to the new figures on the screen, for each starter.

`python -m benchmarks.web`; needs the system's Chromium. Each key changes the room's temperature or
the capillary's length by a little; what is timed runs from the key's own event to the frame that
shows the swapped results, the quiet time that a form waits for included.
"""

from __future__ import annotations

import shutil
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

import numpy as np
from playwright.sync_api import Page, sync_playwright

sys.path.insert(0, str(Path(__file__).resolve().parent.parent / "tests"))

from benchmarks.timing import Row, row
from support.browsing import browser_path, serving

EXAMPLES = Path(__file__).resolve().parent.parent / "examples"
KEYS, FIRST_KEYS = 20, 6  # timed, and before them until everything is compiled
# Page, field, what stands in it but for the last figure.
FIELDS = (
    ("cabinet", "Room temperature", "25.{} °C"),
    ("balance", "Capillary length", "2.8{} m"),
)
# Resolves with the milliseconds from the next key to the frame in which the results stand.
WATCH = """() => new Promise((done) => {
  const results = document.getElementById("results");
  let pressed = 0;
  const once = { once: true, capture: true };
  addEventListener("input", (event) => { pressed = event.timeStamp; }, once);
  const watch = new MutationObserver(() => {
    if (!pressed || results.classList.contains("stale")) return;
    watch.disconnect();
    requestAnimationFrame(() => requestAnimationFrame((now) => done(now - pressed)));
  });
  watch.observe(results, { childList: true, subtree: true, attributes: true });
})"""


def keyed(page: Page, name: str, text: str) -> Iterator[float]:
    """Milliseconds of each key, its figure going round."""
    field = page.get_by_label(name, exact=True)
    field.fill(text.format(""))
    page.wait_for_timeout(1000)
    before = text.index("{")
    for k in range(FIRST_KEYS + KEYS):
        field.evaluate(
            f"f => f.setSelectionRange({before}, f.value.length - {len(text) - before - 2})"
        )
        page.evaluate(f"void (window.shown = ({WATCH})())")
        page.keyboard.press(str(1 + k % 9))
        yield float(page.evaluate("window.shown"))
        page.wait_for_timeout(30)


def web_rows() -> Iterator[Row]:
    """Median and slowest key of each starter and page."""
    path = browser_path()
    if path is None:
        print("No Chromium here: the page is not timed (apt-get install chromium).")
        return
    with tempfile.TemporaryDirectory() as made, sync_playwright() as playwright:
        for file in EXAMPLES.glob("*.toml"):
            shutil.copy(file, made)
        browser = playwright.chromium.launch(executable_path=path, args=["--no-sandbox"])
        with serving(Path(made)) as (address, _):
            for file in sorted(EXAMPLES.glob("*.toml")):
                for slug, name, text in FIELDS:
                    page = browser.new_page(viewport={"width": 1400, "height": 900})
                    page.goto(f"{address}/b/{file.stem}/{slug}")
                    page.wait_for_timeout(1500)
                    found = np.array(list(keyed(page, name, text)))[FIRST_KEYS:] / 1e3
                    page.close()
                    label = f"{file.stem}, {name.lower()}: key to screen"
                    yield row(label, float(np.median(found)), "slowest of 20", float(found.max()))
        browser.close()


def main() -> None:
    """Print the rows."""
    for each in web_rows():
        print(f"{each[0]:50} {each[1]:>10}   {each[2]} {each[3]:>10}")


if __name__ == "__main__":
    main()
