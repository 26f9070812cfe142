"""What the pages tell about storage, in words, under the header."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import pytest
from playwright.sync_api import expect
from tests.browser.learner import shown

if TYPE_CHECKING:
    from collections.abc import Callable

    from tests.browser.learner import Learner

pytestmark = pytest.mark.browser

BLOCKED = """Object.defineProperty(window, 'indexedDB', {
  get() { throw new DOMException('blocked', 'SecurityError') } })"""


def test_first_visit_says_where_answers_are_kept(new_learner: Callable[..., Learner]) -> None:
    """The first page names the risk of phones; once closed, the line stays closed."""
    learner = new_learner()
    page = learner.open("index.html")
    notice = page.locator("[data-notice=storage]")
    expect(notice).to_contain_text("kept in this browser only")
    expect(notice).to_contain_text("erase a site's storage after 7 days unused")
    notice.get_by_role("button", name="Close").click()
    expect(notice).to_have_count(0)
    page.wait_for_timeout(200)
    other = learner.open("logbook.html")
    expect(other.locator("tv-copies")).to_be_visible()
    expect(other.locator("[data-notice=storage]")).to_have_count(0)


def test_blocked_storage_is_told_and_the_quiz_still_works(
    new_learner: Callable[..., Learner],
) -> None:
    """Where the browser keeps nothing, the page says so instead of pretending to save."""
    learner = new_learner()
    learner.context.add_init_script(BLOCKED)
    page = learner.open_quiz()
    expect(page.locator("[data-notice=blocked]")).to_contain_text("keep nothing")
    expect(page.locator(".tv-quiz__count")).to_contain_text("not saved: storage is off")
    learner.give(page, right=True)
    shown(page).get_by_role("button", name="Check", exact=True).click()
    expect(shown(page).locator(".tv-item__live")).to_contain_text("Right.")


def test_full_device_is_told_at_the_answer(new_learner: Callable[..., Learner]) -> None:
    """When the answer cannot be written, the verdict says that it was not saved."""
    learner = new_learner()
    learner.context.add_init_script(
        "IDBObjectStore.prototype.add = () => { throw new DOMException('', 'QuotaExceededError') }"
    )
    page = learner.open_quiz()
    learner.give(page, right=True)
    shown(page).get_by_role("button", name="Check", exact=True).click()
    live = shown(page).locator(".tv-item__live")
    expect(live).to_contain_text("could not be saved: this device has no room left")
    assert learner.answers(page) == []


def test_old_answers_without_a_copy_bring_a_reminder(
    new_learner: Callable[..., Learner], course: dict[str, Any]
) -> None:
    """An answer six days old that has no copy is worth a line; a saved copy silences it."""
    learner = new_learner()
    page = learner.open_quiz()
    learner.answer(page, right=True)
    age_answers = f"""() => new Promise(resolve => {{
      const opening = indexedDB.open('threeview:' + {json.dumps(course["id"])})
      opening.onsuccess = () => {{
        const work = opening.result.transaction('events', 'readwrite').objectStore('events')
        work.getAll().onsuccess = event => {{
          for (const kept of event.target.result) {{
            const time = new Date(Date.now() - 6 * 86400000).toISOString().slice(0, 19) + 'Z'
            work.put({{...kept, time}})
          }}
        }}
        work.transaction.oncomplete = () => {{ opening.result.close(); resolve() }}
      }}
    }})"""
    home = learner.open("index.html")
    expect(home.locator("[data-notice=storage]")).to_be_visible()
    expect(home.locator("[data-notice=copy]")).to_have_count(0)
    home.evaluate(age_answers)
    home.reload()
    expect(home.locator("[data-notice=copy]")).to_contain_text("1 entry of your record")
    book = learner.open("logbook.html")
    with book.expect_download():
        book.get_by_role("button", name="Save a copy", exact=True).click()
    expect(book.locator(".tv-logbook__copied")).to_contain_text("nothing new since")
    home.reload()
    expect(home.locator("[data-notice=storage]")).to_be_visible()
    expect(home.locator("[data-notice=copy]")).to_have_count(0)
