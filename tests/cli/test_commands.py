"""The command as its users meet it: results, all faults at once, no traceback, exit codes."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest
from tests.small_course import CHECKOUT, copy_small_course


def run(*arguments: str, folder: Path = CHECKOUT) -> subprocess.CompletedProcess[str]:
    """Run `threeview` in a folder."""
    command = [sys.executable, "-m", "threeview", *arguments]
    return subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False)


@pytest.fixture
def small(tmp_path: Path) -> Path:
    """A copy of the small course, with the shipped electrodes and tissues."""
    return copy_small_course(tmp_path)


def test_lesion_prints_every_figure_as_json() -> None:
    """The dimensions, the hottest tissue, the criterion and the energy residual, as numbers."""
    done = run("lesion", "--electrode", "conventional-18g-10mm", "--set", "80", "--time", "90",
               "--start", "37", "--perfusion", "0.0008", "--json")  # fmt: skip
    found = json.loads(done.stdout)
    names = {"width_mm", "length_mm", "distal_mm", "proximal_mm", "volume_mm3", "peak_tissue_c"}
    assert names <= found.keys()
    assert found["criterion"] == "isotherm 50"
    assert abs(found["energy_residual"]) < 1e-8
    # A lesion is longer than the bare tip it surrounds, by what reaches out at both ends.
    assert found["length_mm"] == pytest.approx(
        10 + found["distal_mm"] + found["proximal_mm"], abs=0.01
    )


def test_lesion_prints_a_table_with_its_conditions() -> None:
    """Without --json the numbers come with units, conditions and the caution."""
    done = run("lesion", "--electrode", "conventional-22g-5mm", "--set", "80", "--time", "90")
    assert done.returncode == 0
    assert "start 37\u00a0°C" in done.stdout
    assert "local policy and licensed practice decide" in done.stdout


def test_lesion_names_every_bad_setting_at_once() -> None:
    """Six faults are six lines with what is legal, and no traceback."""
    done = run("lesion", "--electrode", "conventional-9g-99mm", "--set", "900", "--time", "soon",
               "--start", "-3", "--tissue", "cheese", "--criterion", "isoterm 50")  # fmt: skip
    assert done.returncode == 1
    for fault in ("gauge 9", "tip length 99", "set 900", "time 'soon'", "start -3",
                  "unknown tissue 'cheese'", "did you mean 'isotherm 50'"):  # fmt: skip
        assert fault in done.stderr, done.stderr
    assert "Traceback" not in done.stderr


def test_check_passes_and_counts(small: Path) -> None:
    """A sound course says so and what it holds."""
    done = run("check", folder=small)
    assert done.returncode == 0, done.stdout
    assert done.stdout.startswith("no problem; 1 modules, 4 items")


def test_check_prints_places_and_fails(small: Path) -> None:
    """Problems come as file:line:column and the exit code is 1."""
    path = small / "quizzes" / "one.yaml"
    path.write_text(path.read_text().replace("key: [b]", "key: [a]", 1))
    done = run("check", folder=small)
    assert done.returncode == 1
    assert "quizzes/one.yaml:10:7: option 'b' is within" in done.stdout
    assert "Traceback" not in done.stderr


def test_faults_of_form_say_that_more_may_follow(small: Path) -> None:
    """An author is told that the parts were not compared yet."""
    path = small / "quizzes" / "one.yaml"
    path.write_text(path.read_text().replace("type: single", "type: singel", 1))
    done = run("check", folder=small)
    assert "1 problem of form; the parts are compared once these are mended" in done.stdout


def test_build_refuses_a_broken_course(small: Path) -> None:
    """Nothing is built from a course with a problem; the problem is printed."""
    path = small / "quizzes" / "one.yaml"
    path.write_text(path.read_text().replace("key: [b]", "key: [a]", 1))
    done = run("build", folder=small)
    assert done.returncode == 1
    assert "option 'b' is within" in done.stderr
    assert not (small / "build" / "site").exists()


def test_no_course_here(tmp_path: Path) -> None:
    """Outside a course every command says what it looked for and what to do."""
    done = run("check", folder=tmp_path)
    assert done.returncode == 1
    assert "no course here" in done.stderr
    assert "--course" in done.stderr


def test_schemas_are_written_for_every_kind(small: Path) -> None:
    """An editor gets a JSON Schema for each kind of file; they are schemas themselves."""
    from jsonschema import Draft202012Validator

    done = run("schemas", "--out", "schemas", folder=small)
    paths = done.stdout.split()
    assert len(paths) == 10
    for path in paths:
        Draft202012Validator.check_schema(json.loads((small / path).read_text()))


def test_an_edition_is_closed_and_kept(small: Path) -> None:
    """`edition close` writes digests that `check` then holds the course to."""
    assert run("edition", "close", "2026-02-01", folder=small).returncode == 0
    assert run("check", folder=small).returncode == 0
    again = run("edition", "close", "2026-02-01", folder=small)
    assert again.returncode == 1
    assert "later date" in again.stderr
