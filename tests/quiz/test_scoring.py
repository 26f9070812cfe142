"""Properties of the scorer, and its agreement with the browser's."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import ValidationError
from tests.quiz.draw import choice_items, choices, items_with_responses, numeric_items
from tests.vectors.browser_core import ask_browser_core

from threeview.quiz import POSSIBLE, Response, ScorableItem, score
from threeview.quiz.scoring import read_decimal

if TYPE_CHECKING:
    from random import Random

BATCH = 500
MILLIMETRES = st.integers(-99_999, 99_999)


def scored(item: dict[str, Any], response: dict[str, Any]) -> dict[str, Any]:
    """Score plain JSON, as the browser does."""
    result = score(ScorableItem.model_validate(item), Response.model_validate(response))
    return result.model_dump(mode="json")


def test_python_and_browser_score_alike() -> None:
    """Whatever is answered, both languages give the same points, verdict and flags."""
    pairs: list[Any] = []

    @settings(max_examples=BATCH, database=None)
    @given(items_with_responses())
    def collect(pair: list[Any]) -> None:
        pairs.append(pair)

    collect()
    expected = [scored(*pair) for pair in pairs]
    for pair, here, there in zip(pairs, expected, ask_browser_core("score", pairs), strict=True):
        assert here == there, pair


@given(items_with_responses())
def test_points_stay_in_bounds_and_right_means_full_points(pair: list[Any]) -> None:
    """Points lie between none and all; an answer is right exactly when it earns all."""
    result = scored(*pair)
    assert 0 <= result["earned"] <= result["possible"] == POSSIBLE
    assert result["right"] == (result["earned"] == POSSIBLE)


@given(choice_items(), choices(), st.randoms(use_true_random=False))
def test_order_of_choices_does_not_matter(
    item: dict[str, Any], response: dict[str, Any], chance: Random
) -> None:
    """Shuffling what was chosen changes nothing."""
    shuffled = list(response["choice"])
    chance.shuffle(shuffled)
    assert scored(item, response) == scored(item, {"choice": shuffled})


@given(choice_items())
def test_the_key_itself_is_right(item: dict[str, Any]) -> None:
    """Answering with the key earns all points without a flag."""
    expected = {"earned": POSSIBLE, "possible": POSSIBLE, "right": True, "flags": []}
    assert expected == scored(item, {"choice": item["key"]})


@given(numeric_items(), MILLIMETRES)
def test_number_is_judged_by_nearest_step_half_up(item: dict[str, Any], thousandths: int) -> None:
    """A number is right when it lies in the half-open band around the accepted steps."""
    numeric = item["numeric"]
    value = Fraction(thousandths, 1000)
    step = Fraction(*numeric["step"])
    low, high = numeric["low"] - Fraction(1, 2), numeric["high"] + Fraction(1, 2)
    text = f"{'-' if thousandths < 0 else ''}{abs(thousandths) // 1000}"
    text += f".{abs(thousandths) % 1000:03d}"
    result = scored(item, {"value": text, "unit": "mm"})
    assert (low * step <= value < high * step) == result["right"]


@given(st.integers(0, 999_999_999), st.integers(0, 999_999), st.sampled_from(".,"))
def test_decimal_text_is_read_exactly(whole: int, millionths: int, mark: str) -> None:
    """Nine digits before and six after the mark are read without loss."""
    expected = whole + Fraction(millionths, 1_000_000)
    assert expected == read_decimal(f"{whole}{mark}{millionths:06d}")


def test_json_of_an_item_reads_back_as_itself() -> None:
    """What goes into the page is what the scorer reads."""
    item = ScorableItem(
        id="bank/width",
        version=2,
        type="numeric",
        objective="o",
        numeric={"units": {"mm": [1, 1]}, "step": [1, 10], "low": 78, "high": 84},
    )
    plain = item.as_json()
    assert {"id", "version", "type", "objective", "critical", "numeric"} == set(plain)
    assert item == ScorableItem.model_validate(plain)
    assert item.versioned == "bank/width@2"


@pytest.mark.parametrize(
    "fault",
    [
        {"key": ["z"]},
        {"key": []},
        {"key": ["a", "b"]},
        {"key": ["a", "a"]},
        {"options": ["a", "a"]},
        {"numeric": {"units": {"mm": [1, 1]}, "step": [1, 1], "low": 1, "high": 2}},
        {"type": "numeric"},
        {"type": "essay"},
        {"version": 0},
        {"weight": 2},
    ],
)
def test_impossible_items_are_refused(fault: dict[str, Any]) -> None:
    """An item that could not be scored fairly cannot be made."""
    sound = {"id": "b/i", "version": 1, "type": "single", "objective": "o"}
    sound |= {"options": ["a", "b"], "key": ["a"]}
    ScorableItem.model_validate(sound)
    with pytest.raises(ValidationError):
        ScorableItem.model_validate(sound | fault)


@pytest.mark.parametrize("ratio", [[0, 1], [1, 0], [-1, 1], [1.5, 1], [1]])
def test_impossible_ratios_are_refused(ratio: list[float]) -> None:
    """A unit or step of zero, negative or fractional parts cannot be made."""
    numeric = {"units": {"mm": ratio}, "step": [1, 1], "low": 0, "high": 1}
    with pytest.raises(ValidationError):
        ScorableItem.model_validate(
            {"id": "b/i", "version": 1, "type": "numeric", "objective": "o", "numeric": numeric}
        )
