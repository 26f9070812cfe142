"""A small web server for the author's own machine, with the state of the last build."""

from __future__ import annotations

import html
import json
from functools import partial
from http import HTTPStatus
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from typing import TYPE_CHECKING
from urllib.parse import urlsplit

from threeview.errors import BuildError

if TYPE_CHECKING:
    from pathlib import Path

__all__ = ["BuildState", "LocalServer"]

ADDRESS = "127.0.0.1"
STATE = "/__state"

# Asks once a second whether there is a newer build; shows what is wrong with a broken course.
RELOADER = """
<script>
(function () {
  var seen = null, notice = null
  setInterval(function () {
    fetch("/__state").then(function (answer) { return answer.json() }).then(function (state) {
      if (seen === null) seen = state.build
      if (state.build !== seen) location.reload()
      if (notice) notice.remove()
      notice = null
      if (!state.problem) return
      notice = document.createElement("pre")
      notice.setAttribute("role", "alert")
      notice.style.whiteSpace = "pre-wrap"
      notice.textContent = state.problem
      var place = document.querySelector(".tv-notices") || document.body
      place.append(notice)
    }).catch(function () {})
  }, 1000)
})()
</script>
"""
# A worker that removes itself: an author must never see a page that an earlier visit kept.
NO_WORKER = """
self.addEventListener("install", function () { self.skipWaiting() })
self.addEventListener("activate", function (event) {
  event.waitUntil(caches.keys().then(function (names) {
    return Promise.all(names.map(function (name) { return caches.delete(name) }))
  }).then(function () { return self.registration.unregister() }))
})
"""


class BuildState:
    """How often the site was built, and what is wrong now (empty if nothing is)."""

    def __init__(self) -> None:
        self.build = 0
        self.problem = ""


class LocalServer(ThreadingHTTPServer):
    """Serves one folder on 127.0.0.1, never anything above it, and nothing from a cache."""

    daemon_threads = True
    allow_reuse_address = False

    def __init__(self, folder: Path, state: BuildState, port: int) -> None:
        """Bind the port.

        Raises:
            BuildError: another program listens on the port.
        """
        handler = partial(_Handler, folder=folder, state=state)
        try:
            super().__init__((ADDRESS, port), handler)
        except OSError as error:
            raise BuildError(
                f"Port {port} is taken ({error.strerror}); choose another: "
                f"threeview serve --port {port + 1}"
            ) from error


class _Handler(SimpleHTTPRequestHandler):
    def __init__(self, *arguments: object, folder: Path, state: BuildState) -> None:
        self._folder = folder
        self._state = state
        super().__init__(*arguments, directory=str(folder))  # type: ignore[arg-type]

    def do_GET(self) -> None:
        path = urlsplit(self.path).path
        file = self._folder / ("index.html" if path == "/" else path.lstrip("/"))
        if path == STATE:
            state = {"build": self._state.build, "problem": self._state.problem}
            self._send(json.dumps(state), "application/json")
        elif path == "/sw.js":
            self._send(NO_WORKER, "text/javascript")
        elif not (self._folder / "index.html").is_file():
            page = _problem_page(self._state.problem)
            self._send(page, "text/html", HTTPStatus.SERVICE_UNAVAILABLE)
        elif path == "/" or (path.endswith(".html") and self._inside(file)):
            self._send(file.read_text("utf-8") + RELOADER, "text/html")
        else:
            super().do_GET()

    def end_headers(self) -> None:
        self.send_header("Cache-Control", "no-store")
        super().end_headers()

    def log_message(self, format: str, *args: object) -> None:  # noqa: A002 - the base's name
        """Stay silent: the author reads about builds, not about requests."""

    def _inside(self, file: Path) -> bool:
        return file.is_file() and file.resolve().is_relative_to(self._folder.resolve())

    def _send(self, text: str, kind: str, status: HTTPStatus = HTTPStatus.OK) -> None:
        body = text.encode()
        self.send_response(status)
        self.send_header("Content-Type", f"{kind}; charset=utf-8")
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        self.wfile.write(body)


def _problem_page(problem: str) -> str:
    told = html.escape(problem or "The first build is still running.")
    return (
        '<!doctype html><html lang="en"><meta charset="utf-8"><title>Not built yet</title>'
        '<body><h1>There is no site yet</h1><div class="tv-notices"></div>'
        f'<pre style="white-space:pre-wrap">{told}</pre>{RELOADER}'
    )
