"""The course without JavaScript: everything can be read, nothing pretends to work."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest
from playwright.sync_api import expect

if TYPE_CHECKING:
    from collections.abc import Callable

    from tests.browser.learner import Learner

pytestmark = pytest.mark.browser


def test_items_and_their_reasons_can_be_read(
    new_learner: Callable[..., Learner], course: dict[str, Any]
) -> None:
    """Every stem and option is visible, the reasons open, and no dead button is shown."""
    learner = new_learner(java_script_enabled=False)
    for module in course["modules"]:
        page = learner.open(module["quiz"])
        items = page.locator("tv-item")
        assert items.count() == len(module["items"])
        for item in items.all():
            expect(item.locator(".tv-stem")).to_be_visible()
            expect(item.get_by_role("button", name="Check")).to_be_hidden()
        first = items.first
        expect(first.locator(".tv-answer__key")).to_be_hidden()
        first.locator("summary").click()
        expect(first.locator(".tv-answer__key")).to_be_visible()
        expect(first.locator(".tv-rationale")).to_be_visible()
        page.close()


def test_logbook_says_that_it_needs_script(new_learner: Callable[..., Learner]) -> None:
    """The logbook tells what is missing instead of showing an empty record."""
    page = new_learner(java_script_enabled=False).open("logbook.html")
    expect(page.locator(".tv-logbook__off")).to_be_visible()
    assert "needs JavaScript" in page.locator(".tv-logbook__off").inner_text()
    expect(page.get_by_role("button", name="Save a copy")).to_have_count(0)
