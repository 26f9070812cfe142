"""Where authored things stand, so that a problem can point at them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, TypeVar

from pydantic import BaseModel, ValidationError

from threeview.errors import Problem, nearest

if TYPE_CHECKING:
    from pydantic_core import ErrorDetails

    from threeview.course.yamlfile import Marks, Step

__all__ = ["Origin", "validate"]

_LONGEST = 60  # characters of a wrong value that are quoted back


@dataclass(frozen=True)
class Origin:
    """A file and the marks of one authored thing in it."""

    file: str
    marks: Marks

    def problem(
        self,
        path: tuple[Step, ...],
        found: str,
        expected: str,
        nearest: str | None = None,
        line: int = 0,
    ) -> Problem:
        """Return a problem at `path` below this thing.

        Args:
            path: field names and list positions.
            found: what stands there.
            expected: what may stand there, or what to do.
            nearest: the closest legal spelling.
            line: for text fields, the line within the text, from 1; 0 for the field itself.
        """
        marks = self.marks.at(path)
        if line and marks.literal:
            return Problem(self.file, marks.line + line, 1, found, expected, nearest)
        return Problem(self.file, marks.line, marks.column, found, expected, nearest)


_Model = TypeVar("_Model", bound=BaseModel)


def validate(
    model: type[_Model], data: object, origin: Origin, problems: list[Problem]
) -> _Model | None:
    """Return the model built from `data`, or None after adding every fault to `problems`."""
    try:
        return model.model_validate(data)
    except ValidationError as error:
        problems += [_explain(model, detail, origin) for detail in error.errors()]
        return None


def _explain(model: type[BaseModel], detail: ErrorDetails, origin: Origin) -> Problem:
    """Return a fault of form as its author should read it."""
    path = tuple(detail["loc"])
    context = detail.get("ctx", {})
    last = path[-1] if path else ""
    if detail["type"] == "missing":
        return origin.problem(path[:-1], f"no '{last}'", f"expected the field '{last}'")
    if detail["type"] == "extra_forbidden":
        legal = _fields(model, path[:-1])
        listed = f"expected one of: {', '.join(legal)}"
        near = nearest(str(last), legal)
        return origin.problem(path, f"the unknown field '{last}'", listed, near)
    if detail["type"] == "union_tag_invalid":
        path = (*path, str(context["discriminator"]).strip("'"))
        found = f"{_dotted(path)} is '{context['tag']}'"
        expected = str(context["expected_tags"])
        return origin.problem(
            path, found, f"expected {expected}", _nearest(context["tag"], expected)
        )
    found = f"{_dotted(path)} is {_quoted(detail['input'])}"
    if detail["type"] == "literal_error":
        expected = str(context["expected"])
        near = _nearest(detail["input"], expected)
        return origin.problem(path, found, f"expected {expected}", near)
    return origin.problem(path, found, f"expected {_rule(detail)}")


def _nearest(found: object, expected: str) -> str | None:
    """Return the closest of the spellings that pydantic lists in its message."""
    legal = [word.strip(" '") for word in expected.replace(" or ", ", ").split(",")]
    return nearest(str(found), legal)


_RULES = {
    "string_type": "text",
    "tuple_type": "a list (lines that begin with '- ', or [a, b])",
    "list_type": "a list (lines that begin with '- ', or [a, b])",
    "dict_type": "fields (name: value)",
    "model_type": "fields (name: value)",
    "model_attributes_type": "fields (name: value)",
}


def _rule(detail: ErrorDetails) -> str:
    """Say what was expected in the author's words."""
    context = detail.get("ctx", {})
    kind = detail["type"]
    if kind == "value_error":
        return str(context["error"])
    if kind == "string_pattern_mismatch":
        if context["pattern"].startswith("^[a-z0-9]+("):
            return "lower-case words joined by hyphens, such as lesion-size"
        return f"text of the form {context['pattern']}"
    if kind == "union_tag_not_found":
        return f"the field {context['discriminator']}"
    return _RULES.get(kind, detail["msg"][0].lower() + detail["msg"][1:])


def _fields(model: type[BaseModel], path: tuple[Step, ...]) -> list[str]:
    """Return the field names legal at `path`, as authors spell them."""
    here: Any = model
    for step in path:
        if isinstance(step, int):
            continue
        here = _models_of(here, str(step)) or here
    fields = getattr(here, "model_fields", {})
    return [info.alias or name for name, info in fields.items()]


def _models_of(model: Any, step: str) -> type[BaseModel] | None:  # noqa: ANN401 - walks annotations
    """Return the model that the field or union tag `step` leads to, if it is one."""
    info = getattr(model, "model_fields", {}).get(step)
    stack = [info.annotation] if info else []
    if not info:
        return None
    while stack:
        annotation = stack.pop()
        if isinstance(annotation, type) and issubclass(annotation, BaseModel):
            return annotation
        stack.extend(getattr(annotation, "__args__", ()))
    return None


def _dotted(path: tuple[Step, ...]) -> str:
    text = "".join(f"[{step}]" if isinstance(step, int) else f".{step}" for step in path)
    return text.lstrip(".") or "the entry"


def _quoted(raw: object) -> str:
    if raw is None:
        return "empty"
    if isinstance(raw, dict | list):
        return "a list" if isinstance(raw, list) else "a group of fields"
    text = str(raw)
    return f"'{text}'" if len(text) <= _LONGEST else f"'{text[:_LONGEST]}…'"
