"""What a learner's log says about the course: a pure function of (events, course, now)."""

from threeview.progress.outline import CourseOutline, ModuleOutline, ObjectiveOutline
from threeview.progress.reduce import ModuleProgress, Progress, reduce

__all__ = [
    "CourseOutline",
    "ModuleOutline",
    "ModuleProgress",
    "ObjectiveOutline",
    "Progress",
    "reduce",
]
