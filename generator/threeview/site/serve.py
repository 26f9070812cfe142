"""Serve a course to its author: build, watch, rebuild."""

from __future__ import annotations

import sys
import threading
from typing import TYPE_CHECKING

from threeview.errors import ThreeviewError
from threeview.site.assets import find_assets
from threeview.site.local import ADDRESS, BuildState, LocalServer

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from watchdog.events import FileSystemEvent
    from watchdog.observers.api import BaseObserver

    from threeview.site.build import SiteReport

__all__ = ["serve_site"]

WATCHED = ("content", "quizzes")
# Reading a file is an event too; only these mean that it is another file now.
CHANGES = frozenset({"created", "modified", "moved", "deleted"})
QUIET = 0.2  # seconds without a change before a build: an editor writes a file in several steps


def serve_site(
    root: Path,
    rebuild: Callable[[], SiteReport],
    *,
    port: int,
    stop: threading.Event | None = None,
) -> None:
    """Serve `build/site` of a course on 127.0.0.1 and rebuild it when its sources change.

    A course that cannot be built is told about on the terminal and on the open page; the last
    good build stays up. Returns when interrupted.

    Args:
        root: course folder.
        rebuild: builds the site into `build/site` of `root`.
        port: port to listen on.
        stop: ends the server when set; for use from another thread.

    Raises:
        BuildError: the port is taken.
    """
    stop = stop or threading.Event()
    changed = threading.Event()
    changed.set()  # the first build
    state = BuildState()
    server = LocalServer(root / "build" / "site", state, port)
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    observer = _watch(_folders(root), changed)
    thread.start()
    _tell(f"Serving on http://{ADDRESS}:{server.server_port}/ (Ctrl+C ends it)")
    try:
        _follow(rebuild, state, changed, stop)
    except KeyboardInterrupt:
        _tell("Stopped.")
    finally:
        observer.stop()
        server.shutdown()
        server.server_close()
        observer.join()


def _follow(
    rebuild: Callable[[], SiteReport],
    state: BuildState,
    changed: threading.Event,
    stop: threading.Event,
) -> None:
    while not stop.is_set():
        if not changed.wait(timeout=QUIET):
            continue
        while changed.is_set():  # wait until the changes have come to rest
            changed.clear()
            stop.wait(QUIET)
        _build(rebuild, state)


def _build(rebuild: Callable[[], SiteReport], state: BuildState) -> None:
    try:
        report = rebuild()
    except ThreeviewError as error:
        stays = " The last good build stays." if state.build else ""
        state.problem = f"The course cannot be built.{stays}\n\n{error}"
        _tell(state.problem)
        return
    state.problem = ""
    if report.changed or not state.build:
        state.build += 1
    _tell(f"Built {len(report.files)} files, {len(report.changed)} of them changed.")


def _folders(root: Path) -> Iterator[Path]:
    assets = find_assets().root
    folders = [root / name for name in WATCHED]
    folders += [assets / name for name in ("css", "dist", "icons", "overrides")]
    return (folder for folder in folders if folder.is_dir())


def _watch(folders: Iterator[Path], changed: threading.Event) -> BaseObserver:
    from watchdog.events import FileSystemEventHandler
    from watchdog.observers import Observer

    class Handler(FileSystemEventHandler):
        def on_any_event(self, event: FileSystemEvent) -> None:
            if event.event_type in CHANGES:
                changed.set()

    observer = Observer()
    for folder in folders:
        observer.schedule(Handler(), str(folder), recursive=True)
    observer.start()
    return observer


def _tell(text: str) -> None:
    sys.stderr.write(text + "\n")
    sys.stderr.flush()
