"""The author's server: builds, serves, rebuilds, survives a broken course."""

from __future__ import annotations

import json
import socket
import threading
import time
import urllib.request
from contextlib import contextmanager
from typing import TYPE_CHECKING
from urllib.error import HTTPError

import pytest

from threeview.errors import BuildError
from threeview.site import SiteReport, serve_site
from threeview.site.local import RELOADER

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

PATIENCE = 20.0  # seconds; a busy machine may need many of them


class Course:
    """A course whose build is one page that says what content/words.txt says."""

    def __init__(self, root: Path) -> None:
        self.root = root
        self.words = root / "content" / "words.txt"
        self.words.parent.mkdir()
        self.words.write_text("apple")

    def build(self) -> SiteReport:
        """Write the page, or refuse as a real build would."""
        words = self.words.read_text()
        if words == "broken":
            raise BuildError("content/words.txt:1:1: found 'broken'")
        site = self.root / "build" / "site"
        site.mkdir(parents=True, exist_ok=True)
        (site / "index.html").write_text(f"<body>{words}")
        (site / "data.js").write_text("1")
        return SiteReport(site, "0" * 16, ("index.html",), ("index.html",), 1)


@contextmanager
def serving(course: Course) -> Iterator[str]:
    """Serve the course on a free port; give its address."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    stop = threading.Event()
    thread = threading.Thread(
        target=serve_site, args=(course.root, course.build), kwargs={"port": port, "stop": stop}
    )
    thread.start()
    try:
        yield f"http://127.0.0.1:{port}"
    finally:
        stop.set()
        thread.join(PATIENCE)
        assert not thread.is_alive()


def fetch(address: str) -> str:
    """Return what the server sends."""
    with urllib.request.urlopen(address, timeout=PATIENCE) as answer:  # noqa: S310 - our server
        return str(answer.read().decode())


def refusal(address: str) -> str:
    """Return what the server says while it has nothing to serve."""
    with pytest.raises(HTTPError, match="503") as caught:
        fetch(address)
    return str(caught.value.read().decode())


def wait_until(condition: Callable[[], bool]) -> None:
    """Wait for a condition; fail after a long time."""
    end = time.monotonic() + PATIENCE
    while True:
        try:
            if condition():
                return
        except (OSError, HTTPError):
            pass
        assert time.monotonic() < end, "it never came"
        time.sleep(0.05)


def test_change_is_built_and_served(tmp_path: Path) -> None:
    """A changed source is built once more and the page's number of builds grows."""
    course = Course(tmp_path)
    with serving(course) as address:
        wait_until(lambda: fetch(address + "/") == "<body>apple" + RELOADER)
        before = json.loads(fetch(address + "/__state"))["build"]
        course.words.write_text("pear")
        wait_until(lambda: fetch(address + "/index.html") == "<body>pear" + RELOADER)
        wait_until(lambda: json.loads(fetch(address + "/__state"))["build"] > before)
        assert fetch(address + "/data.js") == "1"


def test_broken_course_keeps_the_last_site(
    tmp_path: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    """A broken course is told about here and on the page; mending it clears the message."""
    course = Course(tmp_path)
    with serving(course) as address:
        wait_until(lambda: "apple" in fetch(address + "/"))
        course.words.write_text("broken")
        wait_until(lambda: "found 'broken'" in json.loads(fetch(address + "/__state"))["problem"])
        assert "apple" in fetch(address + "/")
        course.words.write_text("mended")
        wait_until(lambda: not json.loads(fetch(address + "/__state"))["problem"])
        assert "mended" in fetch(address + "/")
    told = capfd.readouterr().err
    assert "content/words.txt:1:1: found 'broken'" in told
    assert "Traceback" not in told


def test_course_broken_from_the_start_says_so(tmp_path: Path) -> None:
    """Without any site yet the page shows what is wrong."""
    course = Course(tmp_path)
    course.words.write_text("broken")
    with serving(course) as address:
        wait_until(lambda: "found &#x27;broken&#x27;" in refusal(address + "/"))


def test_nothing_is_kept_and_nothing_above_is_served(tmp_path: Path) -> None:
    """No caching, a worker that removes itself, and no file outside the site."""
    course = Course(tmp_path)
    with serving(course) as address:
        wait_until(lambda: "apple" in fetch(address + "/"))
        with urllib.request.urlopen(address + "/") as answer:  # noqa: S310 - our server
            assert answer.headers["Cache-Control"] == "no-store"
        assert "unregister" in fetch(address + "/sw.js")
        for path in ("/../../content/words.txt", "/..%2f..%2fcontent/words.txt", "/nothing.html"):
            with pytest.raises(HTTPError, match="404"):
                fetch(address + path)


def test_taken_port_is_told(tmp_path: Path) -> None:
    """A port in use ends with one sentence that names another."""
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        with pytest.raises(BuildError, match=f"--port {port + 1}"):
            serve_site(tmp_path, Course(tmp_path).build, port=port)
