"""The shipped course, built once, on disk and behind an address of this machine."""

from __future__ import annotations

import json
import shutil
import threading
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from tests.browser.learner import Learner

from threeview.cli.steps import build_course

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from playwright.sync_api import Browser

CHECKOUT = Path(__file__).resolve().parents[2]


class QuietHandler(SimpleHTTPRequestHandler):
    """Serves files without writing a line for each."""

    def log_message(self, format: str, *args: object) -> None:  # noqa: A002 - the base's name
        """Say nothing."""


@pytest.fixture(scope="session")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the folder of the built course; its work files lie beside it, not in the checkout."""
    root = tmp_path_factory.mktemp("shipped")
    for name in ("content", "quizzes"):
        shutil.copytree(CHECKOUT / name, root / name)
    computed = CHECKOUT / "build" / "cache"
    if computed.is_dir():  # the same lesions, already computed; named by all that enters them
        shutil.copytree(computed, root / "build" / "cache")
    return build_course(root, None).folder


@pytest.fixture(scope="session")
def course(site: Path) -> dict[str, Any]:
    """Return the course data that the pages load."""
    text = (site / "assets" / "data" / "course.js").read_text("utf-8")
    data: dict[str, Any] = json.loads(text.partition("=")[2].rstrip().rstrip(";"))
    assert data["modules"], "the built course has no modules"
    return data


@pytest.fixture
def address(site: Path) -> Iterator[str]:
    """Return an address of this machine under which the course is served."""
    with serving(site) as port:
        yield f"http://127.0.0.1:{port}/"


class serving:  # noqa: N801 - reads as a statement
    """Serve a folder while the block runs; gives the port."""

    def __init__(self, folder: Path) -> None:
        handler = partial(QuietHandler, directory=str(folder))
        self.server = ThreadingHTTPServer(("127.0.0.1", 0), handler)
        self.server.daemon_threads = True
        self.thread = threading.Thread(target=self.server.serve_forever, daemon=True)

    def __enter__(self) -> int:
        self.thread.start()
        return self.server.server_port

    def __exit__(self, *_: object) -> None:
        self.server.shutdown()
        self.server.server_close()
        self.thread.join()


@pytest.fixture
def new_learner(
    browser: Browser, course: dict[str, Any], site: Path
) -> Iterator[Callable[..., Learner]]:
    """Return a maker of learners, each with a browser profile of their own.

    A script error, or a request that leaves the course, fails the test at its end.
    """
    learners: list[Learner] = []

    def make(root: str | None = None, **settings: Any) -> Learner:  # noqa: ANN401 - Playwright's
        learner = Learner(browser.new_context(**settings), course, root or f"{site.as_uri()}/")
        learners.append(learner)
        return learner

    yield make
    for learner in learners:
        learner.context.close()
    assert [fault for learner in learners for fault in learner.faults] == []
