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
