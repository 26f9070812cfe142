"""Everything that must hold between the parts of a course before a page is built.

`check_course` runs all rules and returns a `CheckReport`; each rule is a function from the course
to problems, in a file of its own.
"""

from threeview.course.check.report import CheckReport, check_course

__all__ = ["CheckReport", "check_course"]
