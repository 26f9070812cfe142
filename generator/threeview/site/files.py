"""Write text and whole folders so that only what changed is touched."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

__all__ = ["read_tree", "write_tree"]


def read_tree(folder: Path) -> dict[str, bytes]:
    """Return relative POSIX path to bytes for each file below `folder`, sorted by path."""
    paths = sorted(path for path in folder.rglob("*") if path.is_file())
    found = {path.relative_to(folder).as_posix(): path.read_bytes() for path in paths}
    return dict(sorted(found.items()))


def write_tree(folder: Path, files: Mapping[str, bytes]) -> tuple[str, ...]:
    """Make `folder` hold exactly `files`; return the sorted paths written or removed.

    A file whose bytes are already right keeps its time stamp, so that watchers and copies to a
    server see only what changed.
    """
    folder.mkdir(parents=True, exist_ok=True)
    changed = [name for name, content in files.items() if not _holds(folder / name, content)]
    for name in changed:
        target = folder / name
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(files[name])
    present = [path for path in folder.rglob("*") if path.is_file()]
    gone = [path for path in present if path.relative_to(folder).as_posix() not in files]
    for path in gone:
        path.unlink()
    _remove_empty_folders(folder)
    return tuple(sorted([*changed, *(path.relative_to(folder).as_posix() for path in gone)]))


def _holds(path: Path, content: bytes) -> bool:
    return path.is_file() and path.read_bytes() == content


def _remove_empty_folders(folder: Path) -> None:
    folders = sorted((path for path in folder.rglob("*") if path.is_dir()), reverse=True)
    for path in folders:
        if not any(path.iterdir()):
            path.rmdir()
