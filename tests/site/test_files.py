"""Writing a folder so that only what changed is touched."""

from __future__ import annotations

from typing import TYPE_CHECKING

from threeview.site.files import read_tree, write_tree

if TYPE_CHECKING:
    from pathlib import Path


def test_folder_holds_exactly_the_files(tmp_path: Path) -> None:
    """New files come, old ones go with their empty folders, the rest is told as unchanged."""
    assert write_tree(tmp_path, {"a/b.txt": b"1", "c.txt": b"2"}) == ("a/b.txt", "c.txt")
    assert write_tree(tmp_path, {"c.txt": b"2"}) == ("a/b.txt",)
    assert not (tmp_path / "a").exists()
    assert read_tree(tmp_path) == {"c.txt": b"2"}


def test_unchanged_file_keeps_its_time(tmp_path: Path) -> None:
    """A file with the right bytes is not written again."""
    write_tree(tmp_path, {"a.txt": b"1", "b.txt": b"1"})
    before = (tmp_path / "a.txt").stat().st_mtime_ns
    assert write_tree(tmp_path, {"a.txt": b"1", "b.txt": b"2"}) == ("b.txt",)
    assert (tmp_path / "a.txt").stat().st_mtime_ns == before
