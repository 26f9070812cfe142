"""The floors of the package: imports point down only, and heavy libraries load late."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "generator" / "threeview"
FLOORS = {
    "errors": 0, "units": 0, "chance": 0,
    "evidence": 1, "quiz": 1, "record": 1, "lesion": 1,
    "computed": 2, "figures": 2, "progress": 2,
    "course": 3,
    "pages": 4,
    "site": 5,
    "cli": 6,
}  # fmt: skip
# Sideways imports that the design allows.
SIDEWAYS = {("quiz", "evidence"), ("units", "errors")}
# Libraries that only one room may know.
OWNERS = {
    "yaml": {"course", "pages", "site"},
    "mkdocs": {"site"},
    "click": {"cli"},
    "numpy": {"lesion", "computed"},
    "scipy": {"lesion"},
    "numba": {"lesion"},
}


def room(path: Path) -> str:
    """Return the first part of a module's path below the package."""
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


def runtime_imports(path: Path) -> set[str]:
    """Return what a file imports when it runs; imports for type checkers only are left out."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    typing_only = {
        id(child)
        for node in ast.walk(tree)
        if isinstance(node, ast.If) and getattr(node.test, "id", "") == "TYPE_CHECKING"
        for child in ast.walk(node)
    }
    names: set[str] = set()
    for node in ast.walk(tree):
        if id(node) in typing_only:
            continue
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            names.add(node.module)
    return names


FILES = sorted(p for p in PACKAGE.rglob("*.py") if room(p) not in {"__init__", "__main__"})


@pytest.mark.parametrize("path", FILES, ids=lambda p: p.relative_to(PACKAGE).as_posix())
def test_imports_point_down(path: Path) -> None:
    """A file imports only rooms on lower floors, its own room, or an allowed neighbour."""
    here = room(path)
    for name in runtime_imports(path):
        if not name.startswith("threeview."):
            continue
        other = name.split(".")[1]
        allowed = other == here or FLOORS[other] < FLOORS[here] or (here, other) in SIDEWAYS
        assert allowed, f"{here} (floor {FLOORS[here]}) imports {other} (floor {FLOORS[other]})"


@pytest.mark.parametrize("library", OWNERS)
def test_libraries_stay_in_their_rooms(library: str) -> None:
    """Only the named rooms know a library, so it can be replaced there."""
    users = {room(p) for p in FILES if any(n.split(".")[0] == library for n in runtime_imports(p))}
    assert users <= OWNERS[library], users - OWNERS[library]


def test_every_room_has_a_floor() -> None:
    """A new room must be given a floor before it can import anything."""
    rooms = {room(p) for p in FILES}
    assert rooms <= FLOORS.keys(), rooms - FLOORS.keys()


def test_help_loads_nothing_heavy() -> None:
    """`threeview check --help` loads neither numba nor scipy nor MkDocs."""
    code = (
        "import sys\n"
        "from threeview.cli import threeview\n"
        "threeview(['check', '--help'], standalone_mode=False)\n"
        "heavy = {'numba', 'scipy', 'numpy', 'mkdocs', 'pint', 'citeproc'} & set(sys.modules)\n"
        "sys.exit(','.join(sorted(heavy)) if heavy else 0)\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
