"""Take the README's pictures from the built course: `make screenshots`.

Each page is taken twice, wide in the light scheme and phone-sized in the dark one, in the system's
own Chromium, opened from disk. What is answered on the way is invented and always the same, the
clock stands still, and the colours are reduced to a palette, so a picture changes when a page does.
"""

from __future__ import annotations

import json
import shutil
import sys
from dataclasses import dataclass
from datetime import UTC, datetime
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

from PIL import Image
from playwright.sync_api import sync_playwright

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Locator, Page

ROOT = Path(__file__).resolve().parent.parent
SITE = ROOT / "build" / "site"
PICTURES = ROOT / "docs" / "pictures"
NOW = datetime(2026, 11, 25, 10, 0, tzinfo=UTC)
MODULE = "how-rf-makes-a-lesion"
ANSWERED = 9  # items that the invented learner answers after the first
EXACT, SPREAD = 96, 160  # colours of a picture: its most frequent ones, and what covers the rest
FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--hide-scrollbars",
)


@dataclass(frozen=True)
class View:
    """A way of looking: window in CSS pixels, scheme, and pixels for each of them."""

    name: str
    width: int
    height: int
    scheme: str
    scale: int


VIEWS = (View("wide", 1280, 860, "light", 1), View("phone", 360, 720, "dark", 2))


def main() -> int:
    """Take every picture, or say what is missing."""
    chromium = shutil.which("chromium") or shutil.which("chromium-browser")
    if chromium is None:
        print("No Chromium was found; on Debian or Ubuntu: sudo apt install chromium")
        return 1
    if not (SITE / "index.html").is_file():
        print(f"No course in {SITE}; build it first: threeview build")
        return 1
    PICTURES.mkdir(parents=True, exist_ok=True)
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=chromium, args=list(FLAGS))
        for view in VIEWS:
            take(browser, view)
        browser.close()
    return 0


def take(browser: Browser, view: View) -> None:
    """Walk through the course as a learner would and take its pictures in one view."""
    context = browser.new_context(
        viewport={"width": view.width, "height": view.height},
        color_scheme="dark" if view.scheme == "dark" else "light",
        device_scale_factor=view.scale,
        reduced_motion="reduce",
        locale="en-GB",
        timezone_id="UTC",
    )
    page = context.new_page()
    page.clock.set_fixed_time(NOW)
    open_page(page, f"modules/{MODULE}.html")
    page.get_by_role("button", name="Close").click()  # said once, then remembered
    show(page.locator(".tv-figure").first)
    save(page, view, "module")
    open_page(page, f"quizzes/{MODULE}.html")
    answer(page, well=False)
    show(page.locator("tv-quiz"))
    save(page, view, "quiz")
    answer_on(page, ANSWERED)
    open_page(page, "logbook.html")
    save(page, view, "logbook")
    open_page(page, "evidence.html")
    show(page.locator(".tv-disagree").first)
    save(page, view, "evidence")
    open_page(page, "index.html")
    save(page, view, "home")
    context.close()


def open_page(page: Page, path: str) -> None:
    """Open a page of the site and wait until its fonts and elements are there."""
    page.goto((SITE / path).as_uri())
    page.evaluate("document.fonts.ready")
    page.wait_for_timeout(300)  # storage answers after the page is drawn


def answer_on(page: Page, count: int) -> None:
    """Go on through the quiz and answer well, but for every fourth item."""
    for number in range(count):
        page.get_by_role("button", name="Next item").click()
        answer(page, well=number % 4 != 3)  # noqa: PLR2004 - see above


def answer(page: Page, *, well: bool) -> None:
    """Answer and check the item in view, rightly or not."""
    item = page.locator("tv-item:visible").first
    scored = json.loads(item.locator(".tv-item__data").text_content() or "")
    if scored["type"] == "numeric":
        (part, whole), low = scored["numeric"]["step"], scored["numeric"]["low"]
        item.locator(".tv-number").fill(f"{low * part / whole if well else 0:.6g}")
    else:
        wrong = next(option for option in scored["options"] if option not in scored["key"])
        for option in scored["key"] if well else [wrong]:
            item.locator(f"input[value={option}]").check()
    item.get_by_role("button", name="Check").click()
    item.get_by_role("button", name="Checked").wait_for()


def show(what: Locator) -> None:
    """Bring an element to the upper part of the window, below the header."""
    what.evaluate("e => window.scrollTo(0, e.getBoundingClientRect().top + scrollY - 76)")


def save(page: Page, view: View, name: str) -> None:
    """Save what the window shows as a small picture."""
    page.evaluate("document.activeElement.blur()")
    image = Image.open(BytesIO(page.screenshot(animations="disabled"))).convert("RGB")
    target = PICTURES / f"{name}-{view.name}.png"
    image.quantize(palette=palette(image), dither=Image.Dither.NONE).save(target, optimize=True)
    print(f"{target.relative_to(ROOT)}  {target.stat().st_size // 1000} kB")


def palette(image: Image.Image) -> Image.Image:
    """Return a palette that keeps both large areas and the rare hues of labels."""
    counted = image.getcolors(image.width * image.height) or []
    frequent = [colour for _, colour in sorted(counted, reverse=True)[:EXACT]]
    spread = image.quantize(SPREAD, Image.Quantize.MAXCOVERAGE).getpalette() or []
    found = Image.new("P", (1, 1))
    found.putpalette([*(part for colour in frequent for part in colour), *spread])
    return found


if __name__ == "__main__":
    sys.exit(main())
