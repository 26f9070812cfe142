"""The service worker: the whole course without a network, and a newer build only on request."""

from __future__ import annotations

import shutil
from typing import TYPE_CHECKING, Any

import pytest
from playwright.sync_api import expect
from tests.browser.conftest import serving

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from playwright.sync_api import Page
    from tests.browser.learner import Learner

pytestmark = pytest.mark.browser

# name of each cache to the addresses that it holds
CACHED = """async () => {
  const found = {}
  for (const name of await caches.keys()) {
    const cache = await caches.open(name)
    found[name] = (await cache.keys()).map(request => request.url)
  }
  return found
}"""
CONTROLLED = "navigator.serviceWorker.controller !== null"


def wait_until_kept(page: Page) -> None:
    """Wait until the worker holds every file and answers for the page."""
    page.wait_for_function(CONTROLLED, timeout=60_000)


def test_course_works_after_the_network_is_gone(
    new_learner: Callable[..., Learner], course: dict[str, Any], site: Path
) -> None:
    """After one visit, pages never opened before, the quiz and a figure work without a server."""
    with serving(site) as port:
        learner = new_learner(f"http://127.0.0.1:{port}/")
        wait_until_kept(learner.open("index.html"))
    # The server is gone; the context is cut off as well, so that nothing else can answer.
    learner.context.set_offline(offline=True)
    page = learner.open(course["modules"][-1]["page"])
    expect(page.locator("h1")).to_be_visible()
    quiz = learner.open_quiz()
    learner.answer(quiz, right=True)
    assert len(learner.answers(quiz)) == 1
    home = learner.open("")
    expect(home.locator("h1")).to_be_visible()


def test_every_file_of_the_site_is_kept(new_learner: Callable[..., Learner], site: Path) -> None:
    """The cache is named by the build and holds each file of the site but the worker itself."""
    with serving(site) as port:
        root = f"http://127.0.0.1:{port}/"
        learner = new_learner(root)
        page = learner.open("index.html")
        wait_until_kept(page)
        kept: dict[str, list[str]] = page.evaluate(CACHED)
    assert len(kept) == 1
    (name, urls), *_ = kept.items()
    assert name.startswith(f"threeview:{root}:")
    files = {path.relative_to(site).as_posix() for path in site.rglob("*") if path.is_file()}
    assert {url.removeprefix(root) for url in urls} == files - {"sw.js"}


def test_newer_build_waits_until_the_reader_agrees(
    new_learner: Callable[..., Learner], site: Path, tmp_path: Path
) -> None:
    """An update never swaps pages under a reader: it is offered, and taken at a click."""
    copy = tmp_path / "site"
    shutil.copytree(site, copy)
    with serving(copy) as port:
        learner = new_learner(f"http://127.0.0.1:{port}/")
        page = learner.open("limits.html")
        wait_until_kept(page)
        limits, worker = copy / "limits.html", copy / "sw.js"
        limits.write_text(limits.read_text("utf-8").replace("</h1>", " (new)</h1>", 1), "utf-8")
        text = worker.read_text("utf-8")
        digest = text.split('DIGEST = "')[1].split('"')[0]
        worker.write_text(text.replace(digest, "0123456789abcdef"), "utf-8")
        page.reload()
        notice = page.locator("[data-notice=update]")
        expect(notice).to_be_visible(timeout=60_000)
        expect(page.locator("h1")).not_to_contain_text("(new)")
        notice.get_by_role("button", name="Use it now").click()
        expect(page.locator("h1")).to_contain_text("(new)", timeout=60_000)
        assert page.evaluate("async () => (await caches.keys()).length") == 1
