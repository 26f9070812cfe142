"""Take the README's pictures from the built course: `make screenshots`.

Each page is taken twice, wide in the light scheme and phone-sized in the dark one, in the system's
own Chromium, opened from disk. What is answered on the way is invented and always the same, the
clock stands still, and the colours are reduced to a palette, so a picture changes when a page does.
"""

from __future__ import annotations

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
COLOURS = 128  # ink on paper and a few measured hues: no pixel is off by more than one can see
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
    show(page.locator(".tv-figure").first)
    save(page, view, "module")
    open_page(page, f"quizzes/{MODULE}.html")
    save(page, view, "quiz", answer(page))
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


def answer(page: Page) -> Locator:
    """Answer the item in view wrongly, so that the picture shows what feedback is like."""
    item = page.locator("tv-item:visible").first
    keyed = item.evaluate("e => JSON.parse(e.querySelector('.tv-item__data').textContent).key[0]")
    item.locator(f"input[name=choice]:not([value={keyed}])").first.check()
    item.get_by_role("button", name="Check").click()
    item.locator(".tv-option--keyed").wait_for()
    return item


def show(what: Locator) -> None:
    """Bring an element to the upper part of the window, below the header."""
    what.evaluate("e => window.scrollTo(0, e.getBoundingClientRect().top + scrollY - 76)")


def save(page: Page, view: View, name: str, what: Locator | None = None) -> None:
    """Save what the window shows as a small picture."""
    if what is not None:
        show(what)
    page.evaluate("document.activeElement.blur()")
    image = Image.open(BytesIO(page.screenshot(animations="disabled"))).convert("RGB")
    target = PICTURES / f"{name}-{view.name}.png"
    # Maximum coverage keeps the rare hues of temperature labels, which a median cut would grey.
    small = image.quantize(COLOURS, Image.Quantize.MAXCOVERAGE, dither=Image.Dither.NONE)
    small.save(target, optimize=True)
    print(f"{target.relative_to(ROOT)}  {target.stat().st_size // 1000} kB")


if __name__ == "__main__":
    sys.exit(main())
