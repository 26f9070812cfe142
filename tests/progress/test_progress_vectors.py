"""The shared progress vectors, run by Python."""

from __future__ import annotations

import pytest
from tests.vectors.load import Vector, load_vectors

from threeview.progress import CourseOutline, reduce
from threeview.record import Event

VECTORS = load_vectors("progress")


@pytest.mark.parametrize("vector", VECTORS, ids=[vector.number for vector in VECTORS])
def test_log_says_what_the_vector_states(vector: Vector) -> None:
    """Every shared log reduces to its stated progress."""
    course = CourseOutline.model_validate(vector.case["course"])
    events = [Event.model_validate(event) for event in vector.test["events"]]
    result = reduce(events, course, vector.test["now"])
    assert vector.test["expected"] == result.model_dump(mode="json"), vector.reason


def test_outline_gives_the_json_that_the_browser_reads() -> None:
    """A course outline writes the same JSON that it was read from."""
    plain = VECTORS[0].case["course"]
    assert plain == CourseOutline.model_validate(plain).as_json()
