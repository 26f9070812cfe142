"""Labels: how wide they are and how they are kept apart."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st
from playwright.sync_api import Browser
from tests.figures.cases import CASES
from tests.figures.drawing import Drawing

from threeview.figures.lettering import spread, tie, width, wrap

if TYPE_CHECKING:
    from threeview.figures import Figure

ASSETS = Path(__file__).parents[2] / "site_assets"
positions = st.lists(st.floats(-50, 400), min_size=1, max_size=6).map(sorted)


@given(positions)
def test_spread_keeps_its_distance(wanted: list[float]) -> None:
    """Positions keep their order, their gap and, where all fit, both ends."""
    placed = spread(wanted, 20, 0, 300)
    assert all(b - a >= 20 - 1e-9 for a, b in pairwise(placed))
    assert placed[0] >= 0
    assert placed[-1] <= 300 + 1e-9


def test_spread_leaves_what_is_apart() -> None:
    """Positions that are far enough apart stay where they are."""
    assert spread([10, 60, 200], 20, 0, 300) == [10, 60, 200]


def test_spread_moves_neighbours_alike() -> None:
    """Positions that are too near part to both sides of their mean."""
    assert spread([98, 102, 200], 20, 0, 300) == [90, 110, 200]


def test_wrap_loses_nothing() -> None:
    """Lines are narrow enough, all words are there, and a number stays with its unit."""
    words = "A lesion of 10 mm at 80 °C for 90 s in muscle (n = 143), start temperature not stated"
    lines = wrap(words, 120)
    assert " ".join(lines) == tie(words)
    assert all(width(line) <= 120 for line in lines)
    assert any("80\u00a0°C" in line for line in lines)
    assert any("(n\u00a0=\u00a0143)" in line for line in lines)


@pytest.mark.browser
def test_letters_are_as_wide_as_thought(figures: dict[str, Figure], browser: Browser) -> None:
    """In a real browser, with the course's own font, no label is wider than its reckoned box."""
    fonts = (ASSETS / "dist" / "fonts" / "source-sans-3-latin.woff2").as_uri()
    style = f"""@font-face {{ font-family: Drawn; src: url({fonts}); font-weight: 400 700 }}
        :root {{ --tv-font-plain: Drawn }} svg {{ width: 336px; display: block }}"""
    css = (ASSETS / "css" / "figures.css").read_text(encoding="utf-8")
    page_html = f"<style>{style}{css}</style>" + "".join(figures[name].svg for name in CASES)
    found = _measure(browser, page_html)
    thought = [box for name in CASES for box in Drawing(figures[name].svg).labels()]
    assert len(found) == len(thought) > 100
    for wide, box in zip(found, thought, strict=True):
        assert wide <= box.right - box.left + 1.5, box
        assert wide > 0.8 * (box.right - box.left) - 2, box


def _measure(browser: Browser, page_html: str) -> list[float]:
    """Return the width of every text of a page, px."""
    page = browser.new_page()
    page.goto((ASSETS / "css" / "figures.css").as_uri())  # so that the font may be read
    page.set_content(page_html)
    page.evaluate("() => document.fonts.load('600 15px Drawn')")
    assert page.evaluate("() => document.fonts.check('600 15px Drawn')")
    found: list[float] = page.evaluate(
        "() => [...document.querySelectorAll('text')].map(t => t.getComputedTextLength())"
    )
    page.close()
    return found
