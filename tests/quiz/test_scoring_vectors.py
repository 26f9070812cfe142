"""The shared scoring vectors, run by Python."""

from __future__ import annotations

import pytest
from tests.vectors.load import Vector, load_vectors

from threeview.quiz import Response, ScorableItem, score

VECTORS = load_vectors("scoring")


@pytest.mark.parametrize("vector", VECTORS, ids=[vector.number for vector in VECTORS])
def test_vector_gets_its_stated_score(vector: Vector) -> None:
    """Every shared vector gets its stated points, verdict and flags."""
    item = ScorableItem.model_validate(vector.case["item"])
    response = Response.model_validate(vector.test["response"])
    result = score(item, response)
    assert vector.test["expected"] == result.model_dump(mode="json"), vector.reason


def test_vectors_are_many_enough_to_mean_something() -> None:
    """The file still covers the three item types and every flag."""
    flags = {flag for vector in VECTORS for flag in vector.test["expected"]["flags"]}
    types = {vector.case["item"]["type"] for vector in VECTORS}
    assert types == {"single", "multiple", "numeric"}
    assert flags == {
        "blank",
        "duplicate-option",
        "not-a-number",
        "too-many",
        "unknown-option",
        "unknown-unit",
    }
