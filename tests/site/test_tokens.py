"""Contrast of the tokens, by the definition of WCAG 2.2 (relative luminance, contrast ratio)."""

from __future__ import annotations

import re
from itertools import pairwise
from pathlib import Path

import pytest

TOKENS = Path(__file__).parents[2] / "site_assets" / "css" / "tokens.css"
SELECTORS = {
    "light": ":root,[data-md-color-scheme=default]",
    "dark": "[data-md-color-scheme=slate]",
    "room": ".tv-room,body:has(.tv-room)",
}
TEXT, MARK = 4.5, 3.0  # WCAG 2.2, 1.4.3 and 1.4.11
# what stands on what, its bar, and the ratios that the design states for light, dark, dark room
PAIRS = [
    ("ink", "paper", TEXT, (16.6, 14.7, 9.3)),
    ("ink-2", "paper", TEXT, (7.8, 8.6, 6.6)),
    ("action", "paper", TEXT, (9.7, 10.6, 7.8)),
    ("paper", "action", TEXT, (9.7, 10.6, 7.8)),
    ("caution", "paper", TEXT, (7.9, 11.6, 8.1)),
    ("stop", "paper", TEXT, (8.0, 10.1, 7.8)),
    ("met", "paper", TEXT, (7.4, 10.6, 8.0)),
    ("nerve", "paper", TEXT, (6.8, 8.8, None)),
    ("spare", "paper", TEXT, (5.5, 9.6, None)),
    ("t45-text", "paper", TEXT, (5.4, 6.0, None)),
    ("t50", "paper", TEXT, (5.0, 4.6, None)),
    ("t60", "paper", TEXT, (8.4, 7.6, None)),
    ("t80", "paper", TEXT, (15.5, 13.8, None)),
    ("t45", "paper", MARK, (3.7, 3.3, None)),
    ("edge", "paper", MARK, (4.4, 5.6, 4.0)),
    ("caution-edge", "paper", MARK, (3.6, 5.8, None)),
    ("bone", "paper", MARK, (5.2, 6.6, None)),
    ("steel", "paper", MARK, (5.4, 8.6, None)),
    ("caution", "caution-bg", TEXT, (7.4, 10.1, None)),
    ("stop", "stop-bg", TEXT, (7.3, 8.9, None)),
    ("met", "met-bg", TEXT, (6.7, 9.1, None)),
    ("trigger-ink", "trigger", TEXT, (None, None, 8.8)),
    ("ink", "panel", TEXT, (None, None, None)),
    ("ink-2", "panel", TEXT, (None, None, None)),
    ("edge", "panel", MARK, (None, None, None)),
    ("action", "panel", TEXT, (None, None, None)),
    ("ink-2", "caution-bg", TEXT, (None, None, None)),
    ("ink-2", "stop-bg", TEXT, (None, None, None)),
    ("action", "caution-bg", TEXT, (None, None, None)),
    ("action", "stop-bg", TEXT, (None, None, None)),
]
# the dark room shows radiographs, not figures
NOT_IN_ROOM = {"nerve", "spare", "bone", "steel", "t45-text", "t45", "t50", "t60", "t80"}
CASES = [
    pytest.param(scheme, front, ground, bar, stated[index], id=f"{scheme}-{front}-{ground}")
    for front, ground, bar, stated in PAIRS
    for index, scheme in enumerate(SELECTORS)
    if not (scheme == "room" and front in NOT_IN_ROOM)
]
GROUNDS = ("caution-bg", "stop-bg", "met-bg")
ISOTHERMS = ("t45", "t50", "t60", "t80")


def read_tokens(scheme: str) -> dict[str, str]:
    """Return token to colour; a scheme that leaves one out takes it from light."""
    text = re.sub(r"/\*.*?\*/", "", TOKENS.read_text("utf-8"), flags=re.DOTALL)
    body = text.split(SELECTORS[scheme] + "{", 1)[1].split("}", 1)[0]
    found = dict(re.findall(r"--tv-([a-z0-9-]+):(#[0-9A-Fa-f]{6})", body))
    return found if scheme == "light" else read_tokens("light") | found


def luminance(colour: str) -> float:
    """Return the relative luminance of `#RRGGBB` as WCAG 2.2 defines it."""
    channels = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return sum(w * c for w, c in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


def contrast(one: str, other: str) -> float:
    """Return the contrast ratio of two colours as WCAG 2.2 defines it."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_contrast_formula() -> None:
    """Black on white is 21:1; #767676 on white is the known 4.54:1 (WebAIM, contrast checker)."""
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21)
    assert contrast("#767676", "#FFFFFF") == pytest.approx(4.54, abs=0.005)


@pytest.mark.parametrize(("scheme", "front", "ground", "bar", "stated"), CASES)
def test_pair(scheme: str, front: str, ground: str, bar: float, stated: float | None) -> None:
    """Each pair reaches its bar in each scheme, and the ratio the design states, to a tenth."""
    tokens = read_tokens(scheme)
    ratio = contrast(tokens[front], tokens[ground])
    assert ratio >= bar
    if stated is not None:
        assert ratio == pytest.approx(stated, abs=0.06)


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_ink_on_tinted_grounds(scheme: str) -> None:
    """Running text on a caution, a stop or a keyed option reads as on paper: 12.7 or more."""
    tokens = read_tokens(scheme)
    for ground in GROUNDS:
        assert contrast(tokens["ink"], tokens[ground]) >= 12.7, ground


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_hotter_is_further_from_paper(scheme: str) -> None:
    """Isotherms grow in contrast to the paper; neighbours differ by 1.37:1 or more."""
    tokens = read_tokens(scheme)
    ratios = [contrast(tokens[name], tokens["paper"]) for name in ISOTHERMS]
    for cooler, hotter in pairwise(ratios):
        assert hotter / cooler >= 1.365


def test_corner_text_on_film() -> None:
    """Corner text stays readable over a white radiograph: its tab is 80 % black, ratio 10.5."""
    text = TOKENS.read_text("utf-8")
    ink = re.search(r"--tv-film-ink:(#\w{6})", text)
    tab = re.search(r"--tv-film-tab:rgb\((\d+) (\d+) (\d+)/\.8\)", text)
    assert ink
    assert tab
    over_white = "#" + "".join(f"{round(0.8 * int(c) + 0.2 * 255):02X}" for c in tab.groups())
    assert contrast(ink[1], over_white) == pytest.approx(10.5, abs=0.1)
