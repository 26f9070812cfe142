"""The course: the only room that reads YAML.

`load_course` gives a frozen `Course` or every fault of form at once; `check_course` proves that its
parts agree with each other and with the evidence.
"""

from threeview.course.check import CheckReport, check_course
from threeview.course.course import Course
from threeview.course.load import find_course, load_bench, load_course

__all__ = ["CheckReport", "Course", "check_course", "find_course", "load_bench", "load_course"]
