"""The rendered folder outlives MkDocs: its successor builds it too."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
from tests.site.sample import sample_site

from threeview.site import build_site
from threeview.site.blocks import PLACEHOLDER, fill_blocks

ZENSICAL = Path(sys.executable).parent / "zensical"


@pytest.mark.slow
def test_zensical_builds_the_same_pages(tmp_path: Path) -> None:
    """Zensical, which reads mkdocs.yml, makes the same pages, with our header and placeholders."""
    sample = sample_site()
    ours = build_site(sample, tmp_path / "out", root=tmp_path).folder
    work = tmp_path / "build"
    for path in sorted((work / "raw").rglob("*.html")):
        path.unlink()
    subprocess.run(
        [ZENSICAL, "build", "--config-file", "mkdocs.yml"], cwd=work, check=True, timeout=120
    )
    pages = {p.relative_to(ours).as_posix() for p in ours.rglob("*.html")}
    theirs = {name: (work / "raw" / name).read_text("utf-8") for name in pages}
    found = {key for html in theirs.values() for key in PLACEHOLDER.findall(html)}
    assert found == set(sample.blocks)
    assert all('class="tv-head__word"' in html for html in theirs.values())
    filled = fill_blocks(theirs, sample.blocks)
    assert (
        "the electrode is then heated by the tissue" in filled["modules/how-rf-makes-a-lesion.html"]
    )
