"""The theme's unused rules are left out, and nothing that a page or script could use."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from threeview.site.unused_css import drop_unused_rules, words_of

WORDS = words_of(['<p class="used other" id="here" data-kind="on">', 'x.classList.add("later")'])


@pytest.mark.parametrize(
    ("css", "kept"),
    [
        (".used{a:b}", ".used{a:b}"),
        (".idle{a:b}", ""),
        (".idle,.used{a:b}", ".used{a:b}"),
        (".used .idle{a:b}", ""),
        (".later{a:b}", ".later{a:b}"),
        ("#here>p{a:b}", "#here>p{a:b}"),
        ("#there>p{a:b}", ""),
        ("[data-kind=on]{a:b}", "[data-kind=on]{a:b}"),
        ("[data-kind=off]{a:b}", ""),
        (".used:not(.idle){a:b}", ".used:not(.idle){a:b}"),
        (":is(.idle,.used){a:b}", ":is(.idle,.used){a:b}"),
        ("p,h1{a:b}", "p,h1{a:b}"),
        ("@media print{.idle{a:b}}", ""),
        ("@media print{.idle{a:b}.used{c:d}}", "@media print{.used{c:d}}"),
        ("@font-face{font-family:x}", "@font-face{font-family:x}"),
        (":root{--x:url(\"data:image/svg+xml,<svg a='b,c'/>\")}",
         ":root{--x:url(\"data:image/svg+xml,<svg a='b,c'/>\")}"),
    ],
)  # fmt: skip
def test_rules_that_can_and_cannot_apply(css: str, kept: str) -> None:
    """Kept: what every class, id and attribute value of a selector allows. Left out: the rest."""
    assert drop_unused_rules(css, WORDS) == kept


@given(st.lists(st.sampled_from(["used", "other", "idle", "later", "gone"]), min_size=1))
def test_a_selector_needs_all_its_classes(names: list[str]) -> None:
    """A compound selector stays exactly when none of its classes is unheard of."""
    css = "".join(f".{name}" for name in names) + "{a:b}"
    expected = css if {"idle", "gone"}.isdisjoint(names) else ""
    assert drop_unused_rules(css, WORDS) == expected
