"""Reads the vectors that Python and the browser share."""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from jsonschema import Draft202012Validator

HERE = Path(__file__).resolve().parent


@dataclass(frozen=True)
class Vector:
    """One numbered test of a case, with what the case says for all of its tests."""

    number: str
    reason: str
    case: dict[str, Any]
    test: dict[str, Any]


def load_vectors(name: str) -> list[Vector]:
    """Return the tests of `tests/vectors/<name>.json`, checked against its schema.

    Raises:
        AssertionError: the file breaks its schema, holds no cases or repeats a number.
    """
    document = json.loads((HERE / f"{name}.json").read_text(encoding="utf-8"))
    schema = json.loads((HERE / f"{name}.schema.json").read_text(encoding="utf-8"))
    Draft202012Validator.check_schema(schema)
    faults = [error.message for error in Draft202012Validator(schema).iter_errors(document)]
    assert not faults, f"{name}.json breaks its schema: {faults}"
    vectors = [
        Vector(test["id"], test["reason"], case, test)
        for case in document["cases"]
        for test in case["tests"]
    ]
    assert vectors, f"tests/vectors/{name}.json holds no cases"
    numbers = [vector.number for vector in vectors]
    assert len(set(numbers)) == len(numbers), f"{name}.json repeats a number"
    print(f"{name}.json: {len(vectors)} vectors in {len(document['cases'])} cases")  # noqa: T201
    return vectors
