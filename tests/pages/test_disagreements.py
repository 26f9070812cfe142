"""What the model and the publication of 2014 disagree about stands on the page, all of it.

Source of the ranges: Pain Medicine 2014, doi 10.1111/pme.12566, read as an abstract (conventional
monopolar electrodes, ex vivo): 60 to 90 °C widens by 108-152 %, two minutes against one by 11-20 %,
three against one by 23-32 %, length exceeds the tip by 1-5 mm, 22 to 16 gauge widens by 58-65 % or
3-4 mm. The start temperature was not in what was read.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from threeview.computed import Answers, Cache
from threeview.course import Course, load_course
from threeview.evidence import Bibliography
from threeview.pages.context import PageContext
from threeview.pages.module import module_page

ROOT = Path(__file__).parents[2]
GAUGES = ("22", "20", "18", "16")
MATCHED = ("22", "20", "18")  # the gauges whose effects the model is held to, from 22 °C
PUBLISHED = {
    "Wider at 90 than at 60 °C": (108, 152, {"set": "60", "to_set": "90"}),
    "Wider after 2 than after 1 min": (11, 20, {"time": "60", "to_time": "120"}),
    "Wider after 3 than after 1 min": (23, 32, {"time": "60", "to_time": "180"}),
}


@pytest.fixture(scope="module")
def course() -> Course:
    """Return the shipped course."""
    return load_course(ROOT)


@pytest.fixture(scope="module")
def answers(course: Course) -> Answers:
    """Return the engine behind the pages."""
    return Answers(course.bench, Cache(ROOT / "build" / "cache"))


@pytest.fixture(scope="module")
def rows(course: Course, answers: Answers) -> dict[str, list[str]]:
    """Return the cells of the figure's table on the module's page, by effect."""
    context = PageContext(course, answers, Bibliography(course.ledger.sources.values()), "../")
    module = next(m for m in course.modules if m.id == "how-rf-makes-a-lesion")
    block = module_page(module, context).blocks[f"{module.id}.figure-model-against-publication"]
    table = block[block.index("<tbody>") : block.index("</tbody>")].replace("\u00a0", " ")
    found = {}
    for row in re.findall(r"<tr>(.*?)</tr>", table, re.DOTALL):
        cells = [re.sub("<[^>]*>", "", c) for c in re.findall(r"<t[hd].*?</t[hd]>", row, re.DOTALL)]
        found[cells[0]] = cells[1:]
    return found


def gain(answers: Answers, start: str, **changes: str) -> float:
    """Return the unrounded gain in width, %, from the engine's own widths."""
    fixed = {"set": "80", "time": "120", "tissue": "ex-vivo-medium", "start": start}
    first = {**fixed, **{k: v for k, v in changes.items() if not k.startswith("to_")}}
    then = {**first, **{k[3:]: v for k, v in changes.items() if k.startswith("to_")}}
    before, after = (float(answers.lesion(case)["width_mm"]) for case in (first, then))
    return (after / before - 1) * 100


@pytest.mark.parametrize("effect", PUBLISHED)
@pytest.mark.parametrize(("start", "column"), [("22", 1), ("37", 2)])
def test_each_effect_stands_with_its_verdict(
    rows: dict[str, list[str]], answers: Answers, effect: str, start: str, column: int
) -> None:
    """Every gauge's number is printed, and 'outside' wherever one leaves the published range."""
    low, high, changes = PUBLISHED[effect]
    cell = rows[effect][column]
    outside = []
    for gauge in GAUGES:
        number = gain(answers, start, electrode=f"conventional-{gauge}g-10mm", **changes)
        assert f"{gauge} G: {number:.1f}" in cell
        if not low <= number <= high:
            outside.append(gauge)
    assert cell.startswith("Outside") is bool(outside)
    for gauge in outside:
        assert f"{gauge} G below" in cell or f"{gauge} G above" in cell
    if start == "22":
        assert set(outside).isdisjoint(MATCHED), "the model left a range that it used to meet"


@pytest.mark.parametrize(("start", "column"), [("22", 1), ("37", 2)])
def test_the_gauge_effect_stands_as_a_disagreement(
    rows: dict[str, list[str]], answers: Answers, start: str, column: int
) -> None:
    """In per cent and in millimetres the model falls short from either start, and says so."""
    ends = {"electrode": "conventional-22g-10mm", "to_electrode": "conventional-16g-10mm"}
    percent = gain(answers, start, **ends)
    assert percent < 58
    assert f"{percent:.1f}" in rows["Wider at 16 than at 22 G, in %"][column]
    for unit in ("%", "mm"):
        assert rows[f"Wider at 16 than at 22 G, in {unit}"][column].startswith("Outside, below")


def test_the_length_fits_only_from_the_cold(rows: dict[str, list[str]]) -> None:
    """Length beyond the bare tip: inside from 22 °C, above from 37 °C, for every gauge and tip."""
    cells = next(cells for effect, cells in rows.items() if effect.startswith("Longer"))
    numbers = [[float(n) for n in re.findall(r"\d\.\d", cell)] for cell in cells[1:]]
    assert [len(each) for each in numbers] == [12, 12]
    assert all(1 <= number <= 5 for number in numbers[0])
    assert all(number > 5 for number in numbers[1])
    assert cells[1].startswith("Inside")
    assert cells[2].startswith("Outside, above")


def test_the_page_says_what_is_unknown(course: Course) -> None:
    """The unknown start temperature, and that nothing was tuned, stand in words."""
    module = next(m for m in course.modules if m.id == "how-rf-makes-a-lesion")
    text = " ".join(section.text for section in module.sections)
    assert "the study's own start temperature was not in what was read" in text
    assert "tuned to nothing" in text
