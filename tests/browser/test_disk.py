"""The course opened from disk: everything in Chromium, an honest word in Firefox."""

from __future__ import annotations

import json
import subprocess
from typing import TYPE_CHECKING, Any

import pytest
from playwright.sync_api import expect
from tests.vectors.browser_core import ASSETS, find_node

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from tests.browser.learner import Learner

pytestmark = pytest.mark.browser


def test_every_page_opens_without_a_request_elsewhere(
    new_learner: Callable[..., Learner], site: Path
) -> None:
    """No page of the built course asks for anything outside its folder, nor throws an error."""
    learner = new_learner()
    pages = sorted(path.relative_to(site).as_posix() for path in site.rglob("*.html"))
    assert "logbook.html" in pages
    for name in pages:
        page = learner.open(name)
        page.wait_for_load_state("load")
        page.wait_for_timeout(300)  # what a script asks for after the page has loaded
        page.close()
    assert learner.faults == []


def test_pages_on_disk_share_one_record(
    new_learner: Callable[..., Learner], course: dict[str, Any]
) -> None:
    """An answer given on a module's page is there in its quiz and in the logbook."""
    learner = new_learner()
    page = learner.open(course["modules"][0]["page"])
    box = page.locator("tv-item").first
    if box.count() == 0:
        pytest.fail("the first module has no self-check; choose another module for this test")
    name = box.get_attribute("data-item")
    box.locator("input").first.click()
    box.get_by_role("button", name="Check", exact=True).click()
    expect(box.locator(".tv-item__live")).not_to_be_empty()
    book = learner.open("logbook.html")
    row = book.locator(f"tr[data-module={course['modules'][0]['id']}]")
    expect(row.locator("[data-label='Items answered']")).to_contain_text("1 of")
    quiz = learner.open(course["modules"][0]["quiz"])
    expect(quiz.locator(".tv-segment--done")).to_have_count(1)
    done = quiz.locator(f"tv-item[data-item='{name}'] .tv-item__live")
    expect(done).to_contain_text("Answered before.")


def test_figure_is_explored_on_request_and_put_away(
    new_learner: Callable[..., Learner], course: dict[str, Any]
) -> None:
    """The drawing gives way to a plot with a keyboard slider; closing brings it back."""
    learner = new_learner()
    pages = (learner.open(module["page"]) for module in course["modules"])
    page = next(page for page in pages if page.locator("tv-figure [data-explore]").count())
    assert page.evaluate("window.Plotly === undefined"), "loaded before anyone asked"
    figure = page.locator("tv-figure:has([data-explore])").first
    plate = figure.locator(".tv-plate").first
    figure.get_by_role("button", name="Explore the figure").click()
    plot = figure.locator(".tv-explore__plot")
    expect(plot.locator(".main-svg").first).to_be_visible()
    expect(plate).to_be_hidden()
    caption = figure.locator("figcaption").inner_text()
    assert plot.get_attribute("aria-label") == caption
    slider = figure.get_by_role("slider")
    if slider.count():
        last = slider.get_attribute("aria-valuetext")
        shown = plot.locator(".scatterlayer").first.inner_html()
        slider.focus()
        page.keyboard.press("Home")
        assert slider.get_attribute("aria-valuetext") == "0 s" != last
        page.wait_for_function(
            "([plot, before]) => plot.querySelector('.scatterlayer').innerHTML !== before",
            arg=[plot.element_handle(), shown],
        )
    figure.get_by_role("button", name="Show the still figure again").click()
    expect(plot).to_have_count(0)
    expect(plate).to_be_visible()


def test_less_motion_means_no_playing_and_coarse_steps(
    new_learner: Callable[..., Learner], course: dict[str, Any]
) -> None:
    """Readers who asked for less motion get no play button and steps of ten seconds."""
    learner = new_learner(reduced_motion="reduce")
    pages = (learner.open(module["page"]) for module in course["modules"])
    page = next(page for page in pages if page.locator("tv-figure [data-explore]").count())
    figure = page.locator("tv-figure:has([data-explore])").first
    figure.get_by_role("button", name="Explore the figure").click()
    slider = figure.get_by_role("slider")
    slider.focus()
    page.keyboard.press("Home")
    page.keyboard.press("ArrowRight")
    expect(slider).to_have_attribute("aria-valuetext", "10 s")
    expect(figure.get_by_role("button", name="Play")).to_be_hidden()


def test_firefox_on_disk_says_that_storage_is_separate(site: Path, course: dict[str, Any]) -> None:
    """Firefox gives each file its own storage; the page says so and what to do."""
    answer = subprocess.run(
        [find_node(), "tests/firefox-disk.mjs", site.as_uri(), course["modules"][0]["quiz"]],
        cwd=ASSETS,
        capture_output=True,
        encoding="utf-8",
        timeout=120,
        check=False,
    )
    assert answer.returncode == 0, answer.stderr
    seen = json.loads(answer.stdout)
    assert "Firefox keeps a separate storage for each page" in seen["notice"]
    assert "Chromium" in seen["notice"]
    assert seen["verdict"] != "", "an item cannot be answered there"
    assert seen["requests"] == []
