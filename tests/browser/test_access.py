"""axe on what scripts make of the pages: answered items, results, the filled logbook."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect
from tests.browser.learner import on

if TYPE_CHECKING:
    from collections.abc import Callable

    from playwright.sync_api import Page
    from tests.browser.learner import Learner

pytestmark = pytest.mark.browser

RULES = {"runOnly": {"type": "tag", "values": ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa"]}}
SCHEMES = pytest.mark.parametrize("scheme", ["light", "dark"])
WIDTHS = pytest.mark.parametrize("width", [1280, 320])


def violations(page: Page) -> list[str]:
    """Return what axe finds, as rule and place."""
    # A control half under the fixed header would count as too small to hit.
    page.evaluate("scrollTo(0, 0)")
    found: dict[str, Any] = Axe().run(page, options=RULES).response
    return [
        f"{fault['id']}: {node['target']}"
        for fault in found["violations"]
        for node in fault["nodes"]
    ]


@SCHEMES
@WIDTHS
def test_quiz_is_clean_before_and_after_an_answer(
    new_learner: Callable[..., Learner], scheme: str, width: int
) -> None:
    """No violation on an open item, a wrong answer, or the result; nothing scrolls sideways."""
    learner = new_learner(color_scheme=scheme, viewport={"width": width, "height": 800})
    page = learner.open_quiz()
    assert violations(page) == []
    learner.answer(page, right=False)
    assert violations(page) == []
    for _ in learner.course["modules"][0]["items"]:
        on(page)
    expect(page.locator(".tv-quiz__result")).to_be_visible()
    assert violations(page) == []
    assert page.evaluate("document.documentElement.scrollWidth") <= width


@SCHEMES
@WIDTHS
def test_filled_logbook_is_clean(
    new_learner: Callable[..., Learner], scheme: str, width: int
) -> None:
    """No violation on the logbook with entries, nor in the second step of wiping."""
    learner = new_learner(color_scheme=scheme, viewport={"width": width, "height": 800})
    learner.answer(learner.open_quiz(), right=False)
    page = learner.open("logbook.html")
    expect(page.locator(".tv-logbook__first")).to_be_visible()
    page.get_by_role("button", name="Wipe this device").click()
    expect(page.get_by_role("button", name="Keep everything")).to_be_focused()
    assert violations(page) == []
    assert page.evaluate("document.documentElement.scrollWidth") <= width


def test_explored_figure_is_clean(
    new_learner: Callable[..., Learner], course: dict[str, Any]
) -> None:
    """No violation in a module with its figure open."""
    learner = new_learner()
    pages = (learner.open(module["page"]) for module in course["modules"])
    page = next(page for page in pages if page.locator("tv-figure [data-explore]").count())
    page.get_by_role("button", name="Explore the figure").first.click()
    expect(page.locator(".tv-explore__plot .main-svg").first).to_be_visible()
    assert violations(page) == []
