"""What a phone has to load."""

from __future__ import annotations

import gzip
import re
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

BASE_LIMIT = 35_000


def test_script_of_every_page_is_light(site: Path) -> None:
    """base.js stays under its limit after gzip -9."""
    size = len(gzip.compress((site / "assets/tv/base.js").read_bytes(), 9))
    assert size <= BASE_LIMIT


def test_heavy_plots_are_loaded_by_no_page(site: Path) -> None:
    """No page names Plotly; it comes when a reader asks for a figure."""
    plotly = site / "assets/vendor/plotly-cartesian.min.js"
    assert plotly.stat().st_size > 1_000_000
    pages = list(site.rglob("*.html"))
    assert pages
    assert [page.name for page in pages if "plotly" in page.read_text("utf-8")] == []


def test_scripts_are_classic(site: Path) -> None:
    """A page opened from disk refuses modules: none is used."""
    for page in site.rglob("*.html"):
        assert 'type="module"' not in page.read_text("utf-8"), page.name
    script = (site / "assets/tv/base.js").read_text("utf-8")
    assert not re.search(r"\b(?:import\s*\(|export\s*\{)", script)
    assert not re.search(r"\.innerHTML\b|\beval\(|document\.write", script)


PAGE_LIMIT = 175_000
INDEX_LIMIT = 80_000


def test_each_page_is_light_before_anyone_acts(site: Path) -> None:
    """HTML, style sheets, scripts (gzip -9) and the two upright fonts of every page, in bytes."""
    fonts = [p for p in (site / "assets/tv/fonts").glob("*.woff2") if "italic" not in p.name]
    assert len(fonts) == 2
    for page in sorted(site.rglob("*.html")):
        named = re.findall(r'(?:src|href)="([^"#?:]+\.(?:js|css))"', page.read_text("utf-8"))
        parts = {page, *((page.parent / name).resolve() for name in named)}
        weight = sum(len(gzip.compress(part.read_bytes(), 9)) for part in parts)
        weight += sum(font.stat().st_size for font in fonts)
        assert weight <= PAGE_LIMIT, page.name


def test_the_search_index_is_light_and_knows_no_quiz(site: Path) -> None:
    """The index, loaded apart, stays small and holds no stem of a quiz item."""
    index = (site / "search/search_index.json").read_bytes()
    assert len(gzip.compress(index, 9)) <= INDEX_LIMIT
    quiz = (site / "quizzes/electrode-classes.html").read_text("utf-8")
    stem = re.search(r'<legend class="tv-stem"><p>([A-Z][^<]{30,60})', quiz)
    assert stem is not None
    assert stem[1] not in index.decode()
