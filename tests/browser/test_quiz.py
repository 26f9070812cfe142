"""Taking a quiz: by keyboard, by touch, half-way, and again."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

import pytest
from playwright.sync_api import expect
from tests.browser.learner import on, shown, verdict

if TYPE_CHECKING:
    from collections.abc import Callable

    from playwright.sync_api import Page
    from tests.browser.learner import Learner

pytestmark = pytest.mark.browser

NARROW = {
    "viewport": {"width": 320, "height": 640},
    "has_touch": True,
    "is_mobile": True,
    "device_scale_factor": 2,
}
CHOSEN = "[...new FormData(document.querySelector('tv-item:not([hidden]) form')).entries()]"


def tab_to(page: Page, selector: str) -> None:
    """Press Tab until the focus is on an element that matches."""
    for _ in range(60):
        if page.evaluate("s => document.activeElement.matches(s)", selector):
            return
        page.keyboard.press("Tab")
    raise AssertionError(f"Tab never reaches {selector}")


def answer_by_keyboard(learner: Learner, page: Page) -> None:
    """Answer the shown item with Tab, arrows, Space and Enter only, rightly."""
    item = learner.item(page)
    if item["type"] == "numeric":
        tab_to(page, "tv-item:not([hidden]) [name=value]")
        numeric = item["numeric"]
        value = numeric["low"] * numeric["step"][0] / numeric["step"][1]
        page.keyboard.type(f"{value:.6f}".rstrip("0").rstrip("."))
    elif item["type"] == "single":
        tab_to(page, "tv-item:not([hidden]) [type=radio]")
        place = item["options"].index(item["key"][0])
        page.keyboard.press("Space")
        for _ in range(place):
            page.keyboard.press("ArrowDown")
    else:
        for key in item["key"]:
            tab_to(page, f"tv-item:not([hidden]) [type=checkbox][value={key}]")
            page.keyboard.press("Space")
    tab_to(page, "tv-item:not([hidden]) .tv-item__actions button")
    page.keyboard.press("Enter")


def test_quiz_is_taken_by_keyboard_and_progress_outlives_a_reload(
    new_learner: Callable[..., Learner], course: dict[str, Any]
) -> None:
    """A whole quiz needs no pointer; after a reload the result and the home list still say so."""
    learner = new_learner()
    page = learner.open_quiz()
    module = course["modules"][0]
    total = len(module["items"])
    for number in range(1, total + 1):
        expect(page.locator(".tv-quiz__place")).to_have_text(f"Item {number} of {total}")
        answer_by_keyboard(learner, page)
        expect(shown(page).locator(".tv-item__live")).to_have_text(re.compile(r"^Right\."))
        assert page.evaluate("document.activeElement.textContent") == "Checked", "the focus moved"
        tab_to(page, ".tv-quiz__actions .tv-button--lead")
        page.keyboard.press("Enter")
        assert page.evaluate("document.activeElement.matches('.tv-quiz__place')")
    expect(page.locator(".tv-quiz__result h2")).to_have_text(f"{total} of {total} right")
    page.reload()
    expect(page.locator(".tv-quiz__result h2")).to_have_text(f"{total} of {total} right")
    home = learner.open("index.html")
    row = home.locator(f"[data-module={module['id']}] [data-state]")
    expect(row).to_have_text(f"{total} of {total} right")


def test_half_done_quiz_resumes_with_its_unchecked_choice(
    new_learner: Callable[..., Learner],
) -> None:
    """After closing the tab, the quiz opens at the first open item with what was chosen there."""
    learner = new_learner()
    page = learner.open_quiz()
    learner.answer(page, right=False)
    on(page)
    learner.give(page, right=True)
    chosen = page.evaluate(
        "[...new FormData(document.querySelector('tv-item:not([hidden]) form')).entries()]"
    )
    item = learner.item(page)["id"]
    assert chosen
    page.wait_for_timeout(200)
    page.close()
    again = learner.open_quiz()
    assert learner.item(again)["id"] == item
    expect(again.locator(".tv-segment--done")).to_have_count(1)
    found = again.evaluate(
        "[...new FormData(document.querySelector('tv-item:not([hidden]) form')).entries()]"
    )
    assert found == chosen
    again.get_by_role("button", name="Previous item").click()
    assert verdict(again).startswith("Answered before.")


def test_wrong_answer_is_marked_in_words_and_stays(new_learner: Callable[..., Learner]) -> None:
    """Both rows say in words what they are, the reasons open, and the answer cannot be changed."""
    learner = new_learner()
    page = learner.open_quiz()
    while learner.item(page)["type"] != "single":
        on(page)
    item = learner.item(page)
    learner.answer(page, right=False)
    box = shown(page)
    expect(box.locator(".tv-option--wrong .tv-option__verdict")).to_have_text(
        "Your answer. Not this one."
    )
    expect(box.locator(".tv-option--keyed .tv-option__verdict")).to_have_text("The keyed answer.")
    assert box.locator(".tv-option--keyed").get_attribute("data-option") == item["key"][0]
    assert box.locator(".tv-option--keyed .tv-option__why").inner_text().count("\n") >= 1
    expect(box.locator(".tv-answer")).to_have_attribute("open", "")
    assert verdict(page).startswith("Not this one.")
    box.locator(f"input[value={item['key'][0]}]").click(force=True)
    assert box.locator("input:checked").get_attribute("value") != item["key"][0]
    assert len(learner.answers(page)) == 1


def test_blank_and_unreadable_answers_are_asked_for_again(
    new_learner: Callable[..., Learner],
) -> None:
    """Checking nothing, or something that is no number, records nothing and says what to do."""
    learner = new_learner()
    page = learner.open_quiz()
    shown(page).get_by_role("button", name="Check", exact=True).click()
    expect(shown(page).locator(".tv-item__live")).to_contain_text("first.")
    places = [
        (place, item)
        for place, module in enumerate(learner.course["modules"])
        for item in module["items"]
        if item["type"] == "numeric"
    ]
    if places:
        place, item = places[0]
        numeric = learner.open(
            f"{learner.course['modules'][place]['quiz']}#item-{item['id'].split('/')[1]}"
        )
        shown(numeric).locator("[name=value]").fill("about 8")
        shown(numeric).get_by_role("button", name="Check", exact=True).click()
        expect(shown(numeric).locator(".tv-item__live")).to_contain_text("not read as a number")
    assert learner.answers(page) == []


def test_start_again_keeps_the_old_attempt_in_the_log(
    new_learner: Callable[..., Learner], course: dict[str, Any]
) -> None:
    """A second attempt begins empty; the logbook counts both."""
    learner = new_learner()
    page = learner.open_quiz()
    total = len(course["modules"][0]["items"])
    learner.answer(page, right=True)
    for _ in range(total):
        on(page)
    expect(page.locator(".tv-quiz__result")).to_contain_text(f"{total - 1} items still open")
    page.get_by_role("button", name="Start again").click()
    expect(page.locator(".tv-quiz__place")).to_have_text(f"Item 1 of {total}")
    assert shown(page).locator("input:checked").count() == 0
    learner.answer(page, right=True)
    attempts = {event["payload"]["attempt"] for event in learner.answers(page)}
    assert len(attempts) == 2
    book = learner.open("logbook.html")
    row = book.locator(f"tr[data-module={course['modules'][0]['id']}]")
    expect(row.locator("[data-label=Attempts]")).to_have_text("2")


def test_quiz_works_at_320_px_by_touch(new_learner: Callable[..., Learner]) -> None:
    """A narrow phone shows no sideways scroll, and every control is tall enough for a thumb."""
    learner = new_learner(**NARROW)
    page = learner.open_quiz()
    item = learner.item(page)
    shown(page).locator(f"label[data-option={item['key'][0]}]").tap()
    shown(page).get_by_role("button", name="Check", exact=True).tap()
    expect(shown(page).locator(".tv-option--keyed")).to_be_visible()
    assert page.evaluate("document.documentElement.scrollWidth") <= 320
    small = page.evaluate(
        """() => [...document.querySelectorAll('.tv-quiz button, .tv-option, .tv-notices button')]
             .filter(e => e.checkVisibility()).map(e => e.getBoundingClientRect().height)
             .filter(height => height < 43.5)"""
    )
    assert small == []
    page.get_by_role("button", name="Next item").tap()
    assert learner.item(page)["id"] != item["id"]
