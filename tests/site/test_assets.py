"""Finding the assets, and joining the style sheets."""

from __future__ import annotations

import shutil
from typing import TYPE_CHECKING

import pytest

from threeview.errors import BuildError
from threeview.site import assets as room
from threeview.site.assets import find_assets
from threeview.site.workspace import bundle_css

if TYPE_CHECKING:
    from pathlib import Path


def test_packaged_assets_come_first(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """An installed package uses what it carries, not a checkout that happens to lie near it."""
    here = find_assets()
    packaged = tmp_path / "_assets"
    shutil.copytree(here.root, packaged, ignore=shutil.ignore_patterns("node_modules"))
    shutil.copy(here.settings, packaged / "mkdocs.yml")
    monkeypatch.setattr(room, "PACKAGED", packaged)
    found = find_assets()
    assert (found.root, found.settings) == (packaged, packaged / "mkdocs.yml")


def test_missing_assets_are_all_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """An empty folder is refused with every missing file and what to do."""
    monkeypatch.setattr(room, "PACKAGED", tmp_path)
    with pytest.raises(BuildError, match="make course") as caught:
        find_assets()
    for name in (*room.REQUIRED, "mkdocs.yml"):
        assert name in str(caught.value)


def test_style_sheets_are_joined(tmp_path: Path) -> None:
    """Imports are replaced in order; comments go, also those over several lines."""
    (tmp_path / "a.css").write_text("/* one\n two */\n.a {\n  color: red;\n}\n")
    (tmp_path / "b.css").write_text(".b { content: '/'; }\n")
    entry = tmp_path / "base.css"
    entry.write_text('/* all */\n@import "./a.css";\n@import "./b.css";\n')
    assert bundle_css(entry) == ".a {\ncolor: red;\n}\n.b { content: '/'; }\n"


def test_every_style_sheet_is_used() -> None:
    """No file of css/ is forgotten by base.css."""
    folder = find_assets().root / "css"
    joined = bundle_css(folder / "base.css")
    assert "@import" not in joined
    entry = (folder / "base.css").read_text("utf-8")
    names = {path.name for path in folder.glob("*.css")} - {"base.css", "tokens.css"}
    assert all(f'"./{name}"' in entry for name in names)
