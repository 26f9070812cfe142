"""Drawings of given results: SVG, the same numbers as a table, and a sentence for each.

Nothing is computed here. `DRAWINGS` has one function for each kind of figure, from the data that
`threeview.computed` gathers to a `Figure`.
"""

from threeview.figures.figure import DRAWINGS, Figure, Table

__all__ = ["DRAWINGS", "Figure", "Table"]
