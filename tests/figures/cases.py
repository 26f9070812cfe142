"""Figures to look at closely: usual ones, and those that crowd their plates."""

from __future__ import annotations

_USUAL = {"electrode": "conventional-18g-10mm", "set": "80", "time": "90"}

CASES: dict[str, tuple[str, dict[str, str | tuple[str, ...]]]] = {
    "usual": (
        "cross-section",
        {**_USUAL, "nerve": "3", "beside": "practice-conventional-width"},
    ),
    "smallest": ("cross-section", {"electrode": "conventional-22g-4mm", "set": "60", "time": "30"}),
    "largest": (
        "cross-section",
        {
            "electrode": "conventional-16g-15mm-bevel",
            "set": "90",
            "time": "180",
            "nerve": "9",
            "beside": ("practice-cooled-width", "single-probe-diameter-limit"),
        },
    ),
    "cold": (
        "cross-section",
        {
            "electrode": "conventional-20g-10mm-blunt",
            "set": "60",
            "time": "30",
            "start": "22",
            "tissue": "ex-vivo-medium",
        },
    ),
    "not reached": (
        "cross-section",
        {"electrode": "conventional-22g-5mm", "set": "48", "time": "10", "nerve": "2"},
    ),
    "edge at 55": ("cross-section", {**_USUAL, "criterion": "isotherm 55"}),
    "damage edge": ("cross-section", {**_USUAL, "criterion": "damage"}),
    "two starts": ("pair", {**_USUAL, "start": "22", "to_start": "37"}),
    "two sizes": (
        "pair",
        {
            "electrode": "conventional-22g-4mm",
            "set": "70",
            "time": "60",
            "to_electrode": "conventional-16g-15mm-bevel",
            "to_set": "90",
        },
    ),
    "sizes": (
        "size-comparison",
        {
            "electrodes": ("conventional-22g-5mm", "conventional-16g-10mm"),
            "set": "80",
            "time": "90",
            "published": (
                "practice-conventional-width",
                "practice-cooled-width",
                "cooled-lesion-size",
                "single-probe-diameter-limit",
            ),
        },
    ),
    "growth": (
        "growth",
        {"electrode": "conventional-18g-10mm", "sets": ("60", "70", "80", "90"), "time": "180"},
    ),
    "short growth": (
        "growth",
        {"electrode": "conventional-22g-5mm", "sets": ("46", "48"), "time": "35"},
    ),
    "field": (
        "stimulation-field",
        {
            "electrodes": (
                "conventional-18g-10mm",
                "conventional-18g-9.5mm",
                "conventional-22g-5mm",
            )
        },
    ),
    "one field": ("stimulation-field", {"electrodes": "conventional-20g-10mm", "distance": "1"}),
}
