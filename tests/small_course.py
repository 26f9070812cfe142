"""The small invented course that tests may break, with the shipped electrodes and tissues."""

from __future__ import annotations

import shutil
from pathlib import Path

__all__ = ["CHECKOUT", "copy_small_course"]

CHECKOUT = Path(__file__).parents[1]


def copy_small_course(folder: Path) -> Path:
    """Copy the small course to `folder`/small and return that."""
    root = folder / "small"
    shutil.copytree(CHECKOUT / "tests" / "course" / "small", root)
    for name in ("electrodes.yaml", "tissues.yaml"):
        shutil.copy(CHECKOUT / "content" / "reference" / name, root / "content" / "reference")
    return root
