"""The service worker: the whole course without a network, and a newer build only on request."""

from __future__ import annotations

import shutil
import threading
from typing import TYPE_CHECKING, Any

import pytest
from playwright.sync_api import expect
from tests.browser.conftest import QuietHandler, serving

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
# addresses of style sheets that did not arrive
UNSTYLED = """() => [...document.querySelectorAll('link[rel=stylesheet]')]
  .filter(link => {
    // the browser hides the rules of a sheet that it could not load
    try { return link.sheet.cssRules.length === 0 } catch { return true }
  })
  .map(link => link.href)"""
# counts the attempts to register a worker, and lets none through
COUNT_WORKERS = """window.workers = 0
ServiceWorkerContainer.prototype.register = () => {
  window.workers += 1
  return Promise.reject()
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
        notice.get_by_role("button", name="Load the new version").click()
        expect(page.locator("h1")).to_contain_text("(new)", timeout=60_000)
        assert page.evaluate("async () => (await caches.keys()).length") == 1


def test_every_page_opens_with_its_styles_offline(
    new_learner: Callable[..., Learner], site: Path
) -> None:
    """Each page of the site stands as on the network; an address outside it is told apart."""
    with serving(site) as port:
        learner = new_learner(f"http://127.0.0.1:{port}/")
        wait_until_kept(learner.open("index.html"))
    learner.context.set_offline(offline=True)
    pages = sorted(path.relative_to(site).as_posix() for path in site.rglob("*.html"))
    assert len(pages) > 1
    for name in pages:
        page = learner.open(name)
        expect(page.locator("h1").first).to_be_visible()
        assert page.locator("link[rel=stylesheet]").count() > 0
        assert page.evaluate(UNSTYLED) == [], name
        page.close()
    stranger = learner.open("not-there.html")
    expect(stranger.locator("body")).to_contain_text("not part of the course kept on this device")


def test_first_visit_says_once_that_the_course_is_kept(
    new_learner: Callable[..., Learner], address: str
) -> None:
    """The reader learns when the network may go; the next page does not say it again."""
    learner = new_learner(address)
    page = learner.open("index.html")
    expect(page.locator("[data-notice=offline]")).to_contain_text(
        "can be read without a network", timeout=60_000
    )
    other = learner.open("limits.html")
    wait_until_kept(other)
    expect(other.locator("[data-notice=storage]")).to_be_visible()  # the notices are through
    expect(other.locator("[data-notice=offline], [data-notice=update]")).to_have_count(0)


def test_page_opened_while_the_course_is_being_kept_says_so(
    new_learner: Callable[..., Learner], site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A reader who goes on before all files have arrived is told on the page they went to."""
    let_go, asked = threading.Event(), threading.Event()
    serve = QuietHandler.do_GET

    def slow(handler: QuietHandler) -> None:
        if handler.path.endswith("plotly-cartesian.min.js"):
            asked.set()
            let_go.wait(60)
        serve(handler)

    monkeypatch.setattr(QuietHandler, "do_GET", slow)
    with serving(site) as port:
        learner = new_learner(f"http://127.0.0.1:{port}/")
        first = learner.open("index.html")
        assert asked.wait(60), "the worker did not ask for the files"
        second = learner.open("limits.html")
        first.close()
        expect(second.locator("[data-notice=storage]")).to_be_visible()
        expect(second.locator("[data-notice=offline]")).to_have_count(0)
        let_go.set()
        expect(second.locator("[data-notice=offline]")).to_be_visible(timeout=60_000)


def test_caches_of_other_courses_are_left_alone(
    new_learner: Callable[..., Learner], address: str
) -> None:
    """Only older builds of this course are removed, not what another one keeps at the host."""
    learner = new_learner(address)
    own, other = f"threeview:{address}:old", f"threeview:{address}other/:old"
    learner.context.add_init_script(
        f"if (!navigator.serviceWorker.controller) for (const name of {[own, other]}) "
        "caches.open(name)"
    )
    page = learner.open("index.html")
    wait_until_kept(page)
    names = set(page.evaluate(CACHED))
    assert other in names
    assert own not in names
    assert len(names) == 2, "besides the other course's, this build's alone"


def test_course_on_disk_asks_for_no_worker(new_learner: Callable[..., Learner]) -> None:
    """Browsers refuse a worker to a file; the page does not try, and its console stays clean."""
    learner = new_learner()
    said: list[str] = []
    learner.context.on("console", lambda message: said.append(f"{message.type}: {message.text}"))
    learner.context.add_init_script(COUNT_WORKERS)
    page = learner.open("index.html")
    expect(page.locator("[data-notice=storage]")).to_be_visible()
    assert page.evaluate("workers") == 0
    assert [line for line in said if line.startswith(("error", "warning"))] == []
