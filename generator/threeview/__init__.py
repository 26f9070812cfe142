"""Threeview: from a folder of YAML to a course with computed figures and checked quizzes."""

__version__ = "0.1.0"
