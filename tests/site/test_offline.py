"""The service worker that keeps a course for the next visit."""

from __future__ import annotations

import json
import re
import shutil
from typing import TYPE_CHECKING

import pytest
from tests.site.sample import sample_site

from threeview.errors import BuildError
from threeview.site import build_site
from threeview.site.assets import Assets, find_assets
from threeview.site.files import read_tree
from threeview.site.offline import fill_worker, site_digest

if TYPE_CHECKING:
    from pathlib import Path

WORKER = 'const kept = ["__TV_DIGEST__", "__TV_FILES__"];\n'


def test_worker_gets_digest_and_files() -> None:
    """Both marks are filled, names with quotes included; the list is sorted."""
    filled = fill_worker(WORKER, "abc", ("b.html", 'a"b.html'))
    assert filled == 'const kept = ["abc", ["a\\"b.html", "b.html"]];\n'


@pytest.mark.parametrize("template", ['"__TV_DIGEST__"', '"__TV_FILES__"', WORKER + WORKER])
def test_worker_without_marks_is_refused(template: str) -> None:
    """A worker that would keep nothing, or be filled twice, stops the build."""
    with pytest.raises(BuildError, match="exactly once"):
        fill_worker(template, "abc", ())


def test_digest_sees_names_bytes_and_content() -> None:
    """A renamed file, another byte or other content give another name; order does not."""
    base = site_digest("c", {"a": b"1", "b": b"2"})
    assert re.fullmatch(r"[0-9a-f]{16}", base)
    assert site_digest("c", {"b": b"2", "a": b"1"}) == base
    others = [("c", {"a": b"2", "b": b"1"}), ("c", {"a": b"1", "c": b"2"}), ("d", {"a": b"1"})]
    assert all(site_digest(*other) != base for other in others)


def test_site_lists_exactly_its_files(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The worker in the site names each file but itself, and the build's digest."""
    assets = find_assets()
    copy = tmp_path / "assets"
    shutil.copytree(assets.root, copy, ignore=shutil.ignore_patterns("node_modules"))
    (copy / "dist" / "sw.js").write_text(WORKER)
    own = Assets(root=copy, settings=assets.settings)
    monkeypatch.setattr("threeview.site.build.find_assets", lambda: own)
    report = build_site(sample_site(), tmp_path / "out", root=tmp_path)
    kept = json.loads(re.findall(r"= (\[.*\]);", (tmp_path / "out" / "sw.js").read_text())[0])
    assert kept == [report.digest, sorted(set(read_tree(tmp_path / "out")) - {"sw.js"})]
