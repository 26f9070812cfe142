"""JSON Schemas of the authored files, so that editors can complete and complain while one types."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from pydantic import TypeAdapter

from threeview.course.model import CourseMeta, Module, Release, Term
from threeview.evidence import Caution, ReferenceValue, Source
from threeview.evidence.bench import Electrodes, Tissues
from threeview.quiz.item import Item

if TYPE_CHECKING:
    from pathlib import Path

__all__ = ["SCHEMAS", "write_schemas"]

# file pattern -> what it holds
SCHEMAS: dict[str, tuple[str, Any]] = {
    "course": ("content/course.yaml", CourseMeta),
    "module": ("content/modules/*.yaml", Module),
    "values": ("content/reference/*.yaml", tuple[ReferenceValue, ...]),
    "sources": ("content/reference/sources.yaml", tuple[Source, ...]),
    "cautions": ("content/reference/cautions.yaml", tuple[Caution, ...]),
    "electrodes": ("content/reference/electrodes.yaml", Electrodes),
    "tissues": ("content/reference/tissues.yaml", Tissues),
    "glossary": ("content/glossary.yaml", tuple[Term, ...]),
    "items": ("quizzes/*.yaml", tuple[Item, ...]),
    "editions": ("content/editions.yaml", tuple[Release, ...]),
}


def write_schemas(out: Path) -> tuple[Path, ...]:
    """Write one schema a kind of file into `out` and return their paths.

    A file opts in with `# yaml-language-server: $schema=...` in its first line.
    """
    out.mkdir(parents=True, exist_ok=True)
    paths = []
    for name, (pattern, model) in SCHEMAS.items():
        schema = TypeAdapter(model).json_schema(by_alias=True)
        schema["$comment"] = f"for {pattern}"
        path = out / f"{name}.schema.json"
        text = json.dumps(schema, indent=1, sort_keys=True, ensure_ascii=False)
        path.write_text(text + "\n", encoding="utf-8")
        paths.append(path)
    return tuple(paths)
