"""A vector file that proves nothing must fail, in both languages."""

from __future__ import annotations

import json
import shutil
import subprocess
from typing import TYPE_CHECKING

import pytest
from tests.vectors import load
from tests.vectors.browser_core import ASSETS, find_node
from tests.vectors.load import load_vectors

if TYPE_CHECKING:
    from pathlib import Path


@pytest.fixture
def vectors(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a copy of the scoring vectors that a test may spoil."""
    for name in ("scoring.json", "scoring.schema.json"):
        shutil.copy(load.HERE / name, tmp_path / name)
    monkeypatch.setattr(load, "HERE", tmp_path)
    return tmp_path / "scoring.json"


def test_file_without_cases_fails(vectors: Path) -> None:
    """An empty list of cases is an error, not a success of nothing."""
    assert load_vectors("scoring")
    vectors.write_text(json.dumps({"about": "", "cases": []}), "utf-8")
    with pytest.raises(AssertionError, match="breaks its schema"):
        load_vectors("scoring")


def test_repeated_number_fails(vectors: Path) -> None:
    """Two vectors under one number would hide one of them."""
    text = vectors.read_text("utf-8")
    vectors.write_text(text.replace('"id": "1.2"', '"id": "1.1"'), "utf-8")
    with pytest.raises(AssertionError, match="repeats a number"):
        load_vectors("scoring")


def test_browser_runner_fails_without_cases() -> None:
    """The reader of the browser's runner refuses an empty file and prints the count of a full."""
    script = """import { countTests, loadVectors } from './tests/vectors.mjs'
      loadVectors('scoring')
      try { countTests('empty', []); process.exit(1) } catch (error) { console.log(error.message) }
    """
    answer = subprocess.run(
        [find_node(), "--input-type=module", "--eval", script],
        cwd=ASSETS,
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    assert answer.returncode == 0, answer.stderr
    count = len(load_vectors("scoring"))
    assert f"scoring.json: {count} vectors in" in answer.stdout
    assert "tests/vectors/empty.json holds no cases" in answer.stdout
