"""Reading and the home page: what was read counts, and the one button leads on."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest
from playwright.sync_api import expect

if TYPE_CHECKING:
    from collections.abc import Callable

    from tests.browser.learner import Learner

pytestmark = pytest.mark.browser


def test_section_counts_as_read_when_its_end_was_on_screen(
    new_learner: Callable[..., Learner], course: dict[str, Any]
) -> None:
    """Passing an end does not count; staying at it does, once."""
    learner = new_learner()
    module = course["modules"][0]
    page = learner.open(module["page"])
    marks = page.locator("[data-read]")
    assert marks.count() == len(module["sections"])
    page.evaluate("scrollTo(0, document.body.scrollHeight)")
    page.wait_for_timeout(300)
    page.evaluate("scrollTo(0, 0)")
    page.wait_for_timeout(1500)
    assert learner.kept(page) == []
    marks.first.evaluate("mark => mark.scrollIntoView({block: 'center'})")
    page.wait_for_function(
        "mark => { const top = mark.getBoundingClientRect().top; return top > 0 }",
        arg=marks.first.element_handle(),
    )
    for _ in range(20):
        page.wait_for_timeout(500)
        if learner.kept(page):
            break
    subject = f"{module['id']}/{module['sections'][0]}@{course['edition']}"
    found = {event["subject"]: event["payload"] for event in learner.kept(page)}
    assert subject in found
    assert found[subject]["seconds"] >= 3
    count = len(found)
    page.reload()
    marks.first.evaluate("mark => mark.scrollIntoView({block: 'center'})")
    page.wait_for_timeout(4500)
    subjects = [event["subject"] for event in learner.kept(page)]
    assert subjects.count(subject) == 1
    home = learner.open("index.html")
    state = home.locator(f"[data-module={module['id']}] [data-state]")
    expect(state).to_have_text(f"read {max(count, len(subjects))} of {marks.count()} sections")


def test_home_leads_to_where_the_learner_was(
    new_learner: Callable[..., Learner], course: dict[str, Any]
) -> None:
    """The filled button begins the course, then follows the learner."""
    learner = new_learner()
    home = learner.open("index.html")
    lead = home.locator("tv-resume a")
    first, second = course["modules"][0], course["modules"][1]
    expect(lead).to_contain_text(first["title"])
    assert lead.get_attribute("href") == first["page"]
    quiz = learner.open_quiz()
    learner.answer(quiz, right=True)
    expect(lead).to_have_text(f"Go on: 1 {first['title']}")
    expect(lead).to_have_attribute("href", f"{learner.root}{first['quiz']}")
    for _ in first["items"][1:]:
        quiz.get_by_role("button", name="Next item").click()
        learner.answer(quiz, right=True)
    expect(lead).to_have_text(f"Next: 2 {second['title']}")
    expect(lead).to_have_attribute("href", f"{learner.root}{second['page']}")
    last = course["modules"][-1]
    assert last != second, "the course has fewer than three modules"
    learner.answer(learner.open_quiz(-1), right=True)
    expect(lead).to_have_text(f"Go on: {last['number']} {last['title']}")
    assert home.locator(".md-content .tv-button--lead").count() == 1
