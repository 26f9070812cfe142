"""The course as progress sees it; the same JSON goes to the browser as `assets/data/course.js`."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field, StrictInt, StrictStr

from threeview.quiz import ScorableItem
from threeview.record.event import Closed

__all__ = ["CourseOutline", "ModuleOutline", "ObjectiveOutline"]


class ObjectiveOutline(Closed):
    """One objective: what a reader can do after the module."""

    id: StrictStr
    text: StrictStr


class ModuleOutline(Closed):
    """One module.

    Attributes:
        id: the module's id, also its bank's.
        title: as shown.
        number: place in the course, from 1.
        page: path of its page from the root of the site.
        quiz: path of its quiz, or None without one.
        minutes: time it is meant to take.
        sections: ids of its sections, in order.
        objectives: in order.
        items: what the quiz asks today.
        retired: old versions of items, kept so that every record ever made can be scored.
    """

    id: StrictStr
    title: StrictStr
    number: StrictInt
    page: StrictStr
    quiz: StrictStr | None = None
    minutes: StrictInt
    sections: tuple[StrictStr, ...]
    objectives: tuple[ObjectiveOutline, ...]
    items: tuple[ScorableItem, ...]
    retired: tuple[ScorableItem, ...] = ()


class CourseOutline(Closed):
    """The whole course.

    Attributes:
        id: names the learner's storage and record.
        title: as shown.
        edition: name of the content version.
        weak_below_percent: an objective is weak below this share of its points.
        digest: SHA-256 of the content, hexadecimal.
        modules: in order.
    """

    id: StrictStr
    title: StrictStr
    edition: StrictStr
    weak_below_percent: Annotated[StrictInt, Field(ge=0, le=100)]
    digest: StrictStr
    modules: tuple[ModuleOutline, ...]

    def as_json(self) -> dict[str, object]:
        """Return the JSON object that the browser reads, items without their empty fields."""
        plain: dict[str, object] = self.model_dump(mode="json", exclude={"modules"})
        plain["modules"] = [_module_json(module) for module in self.modules]
        return plain


def _module_json(module: ModuleOutline) -> dict[str, object]:
    plain: dict[str, object] = module.model_dump(mode="json", exclude={"items", "retired"})
    plain["items"] = [item.as_json() for item in module.items]
    if module.retired:
        plain["retired"] = [item.as_json() for item in module.retired]
    return plain
