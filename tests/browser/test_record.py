"""The record in the browser: two tabs, copies, wiping, adding, refusing."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import pytest
from playwright.sync_api import expect
from tests.browser.learner import on

from threeview.progress import CourseOutline, reduce
from threeview.record import Record, export_record, parse_record

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from playwright.sync_api import Page
    from tests.browser.learner import Learner

pytestmark = pytest.mark.browser


def add_copy(page: Page, data: bytes, name: str = "threeview-record.json") -> str:
    """Add a file in the logbook; return what the page says about it."""
    told = page.locator(".tv-copies__told")
    page.evaluate("document.querySelector('.tv-copies__told').textContent = ''")
    page.locator("input[type=file]").set_input_files(
        {"name": name, "mimeType": "application/json", "buffer": data}
    )
    expect(told).not_to_be_empty()
    return told.inner_text()


def wipe(page: Page) -> None:
    """Wipe the device in its two steps."""
    page.get_by_role("button", name="Wipe this device").click()
    page.get_by_role("button", name="now").click()
    expect(page.locator("tv-wipe [role=status]")).to_contain_text("Done.")


def test_two_tabs_answering_at_once_lose_nothing(new_learner: Callable[..., Learner]) -> None:
    """Answers given in two open tabs are all kept, in one attempt, and each tab sees them."""
    learner = new_learner()
    one, two = learner.open_quiz(), learner.open_quiz()
    on(two)
    assert learner.item(one)["id"] != learner.item(two)["id"]
    for page in (one, two):
        learner.give(page, right=True)
    checking = "document.querySelector('tv-item:not([hidden]) form').requestSubmit()"
    one.evaluate(checking)
    two.evaluate(checking)
    for page in (one, two):
        expect(page.locator(".tv-segment--done")).to_have_count(2)
    answers = learner.answers(one)
    assert len(answers) == 2
    assert len({event["payload"]["attempt"] for event in answers}) == 1
    assert len({event["actor"]["account"] for event in answers}) == 1


def test_copy_wipe_and_add_bring_everything_back(
    new_learner: Callable[..., Learner], tmp_path: Path
) -> None:
    """A saved copy restores a wiped device: answers, attempt, name and account."""
    learner = new_learner()
    quiz = learner.open_quiz()
    learner.answer(quiz, right=True)
    on(quiz)
    learner.answer(quiz, right=False)
    book = learner.open("logbook.html")
    book.get_by_role("textbox", name="Name").fill("Zoë O'Neill")
    book.get_by_role("button", name="Keep this name").click()
    expect(book.locator("tv-name [role=status]")).to_contain_text("Kept")
    before = sorted(learner.kept(book), key=lambda event: str(event["id"]))
    file = learner.save_copy(tmp_path)
    assert file.name.startswith("threeview-record-zoe-o-neill-20")
    wipe(book)
    assert learner.kept(book) == []
    expect(quiz.locator(".tv-segment--done")).to_have_count(0)
    assert add_copy(book, file.read_bytes()) == "2 entries added, 0 already here."
    assert sorted(learner.kept(book), key=lambda event: str(event["id"])) == before
    expect(quiz.locator(".tv-segment--done")).to_have_count(2)
    assert add_copy(book, file.read_bytes()) == "0 entries added, 2 already here."
    again = json.loads(learner.save_copy(tmp_path / "again").read_bytes())
    assert again["actor"] == json.loads(file.read_bytes())["actor"]


def test_saved_copy_is_a_record_that_python_reads_and_scores_alike(
    new_learner: Callable[..., Learner], course: dict[str, Any], tmp_path: Path
) -> None:
    """What a browser saves is read by Python byte for byte, with the logbook's own numbers."""
    learner = new_learner()
    quiz = learner.open_quiz()
    for right in (True, False, True):
        learner.answer(quiz, right=right)
        on(quiz)
    data = learner.save_copy(tmp_path).read_bytes()
    record = parse_record(data, course["id"])
    assert export_record(record) == data
    progress = reduce(record.events, CourseOutline.model_validate(course), record.exported)
    module = progress.modules[0]
    assert (module.answered, module.right, module.attempts) == (3, 2, 1)
    row = learner.open("logbook.html").locator(f"tr[data-module={module.id}]")
    expect(row.locator("[data-label=Right]")).to_have_text("2 of 3")
    expect(row.locator("[data-label='Items answered']")).to_have_text(f"3 of {module.items_total}")


def test_damaged_copy_is_refused_in_words(
    new_learner: Callable[..., Learner], tmp_path: Path
) -> None:
    """A copy with one changed letter adds nothing, and the page says why and what to do."""
    learner = new_learner()
    learner.answer(learner.open_quiz(), right=True)
    data = learner.save_copy(tmp_path).read_bytes()
    book = learner.open("logbook.html")
    wipe(book)
    changed = data.replace(b'"answered"', b'"placed"', 1)
    assert changed != data
    words = add_copy(book, changed)
    assert "changed or damaged" in words
    assert "Save the record again" in words
    assert "not a record of this course" in add_copy(book, data[:-20])
    assert "not a record of this course" in add_copy(book, b"\x89PNG\r\n", "photo.png")
    assert learner.kept(book) == []


def test_copy_of_another_account_is_asked_about(
    new_learner: Callable[..., Learner], tmp_path: Path
) -> None:
    """Someone else's record is not mixed in without a second look; one's own second device is."""
    other = new_learner()
    other.answer(other.open_quiz(), right=True)
    data = other.save_copy(tmp_path).read_bytes()
    learner = new_learner()
    quiz = learner.open_quiz()
    on(quiz)
    learner.answer(quiz, right=True)
    book = learner.open("logbook.html")
    assert "another account" in add_copy(book, data)
    book.get_by_role("button", name="Leave it").click()
    assert len(learner.kept(book)) == 1
    add_copy(book, data)
    book.get_by_role("button", name="It is mine, add it").click()
    expect(book.locator(".tv-copies__told")).to_have_text("1 entry added, 0 already here.")
    accounts = {event["actor"]["account"] for event in learner.kept(book)}
    assert len(accounts) == 2, "each answer keeps the account it was given under"


def test_conflicting_copy_adds_nothing_and_keeps_both_aside(
    new_learner: Callable[..., Learner], course: dict[str, Any], tmp_path: Path
) -> None:
    """One id with other contents stops the import; nothing is overwritten on either side."""
    learner = new_learner()
    learner.answer(learner.open_quiz(), right=True)
    record = parse_record(learner.save_copy(tmp_path).read_bytes(), course["id"])
    forged = record.events[0].model_copy(
        update={"payload": record.events[0].payload | {"response": {"choice": ["z"]}}}
    )
    file = export_record(Record.model_validate(dict(record) | {"events": (forged,)}))
    book = learner.open("logbook.html")
    before = learner.kept(book)
    words = add_copy(book, file)
    assert "Nothing was added" in words
    assert "kept aside" in words
    assert learner.kept(book) == before
    aside = learner.kept(book, "aside")
    assert [pair["theirs"]["payload"]["response"] for pair in aside[0]["conflicts"]] == [
        {"choice": ["z"]}
    ]


def test_hostile_name_stays_text(new_learner: Callable[..., Learner], tmp_path: Path) -> None:
    """A name made of markup is shown and saved as the letters it consists of."""
    learner = new_learner()
    book = learner.open("logbook.html")
    name = "<img src=x onerror=alert(1)>"
    book.get_by_role("textbox", name="Name").fill(name)
    book.get_by_role("button", name="Keep this name").click()
    expect(book.locator(".tv-logbook__copied")).to_contain_text(name)
    assert book.locator("tv-logbook img").count() == 0
    file = learner.save_copy(tmp_path)
    assert file.name.startswith("threeview-record-img-src-x-onerror-alert-1-20")


def test_critical_miss_comes_first_in_the_logbook(
    new_learner: Callable[..., Learner], course: dict[str, Any]
) -> None:
    """A missed critical item is named at the top, with a link that opens it."""
    learner = new_learner()
    place, item = next(
        (place, item)
        for place, module in enumerate(course["modules"])
        for item in module["items"]
        if item["critical"]
    )
    name = item["id"].split("/")[1]
    quiz = learner.open(f"{course['modules'][place]['quiz']}#item-{name}")
    learner.answer(quiz, right=False)
    book = learner.open("logbook.html")
    first = book.locator(".tv-logbook__first > li").first
    expect(first).to_contain_text("Critical item missed")
    first.get_by_role("link").click()
    book.wait_for_url(f"**/{course['modules'][place]['quiz']}#item-{name}")
    expect(book.locator("tv-item:not([hidden])")).to_have_id(f"item-{name}")
