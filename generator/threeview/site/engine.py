"""MkDocs at arm's length: the only file that knows how to call it."""

from __future__ import annotations

import logging
import os
from contextlib import contextmanager
from typing import TYPE_CHECKING

from threeview.errors import BuildError

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

__all__ = ["run_mkdocs"]

EPOCH = "315532800"  # 1980-01-01, the earliest date a zip archive can hold


def run_mkdocs(settings: Path) -> None:
    """Build the site that `settings` describes, refusing every warning.

    Raises:
        BuildError: MkDocs refused the settings or a page; its own messages are in it.
    """
    with _environment(), _messages() as messages:
        from mkdocs.commands.build import build
        from mkdocs.config import load_config
        from mkdocs.exceptions import MkDocsException

        try:
            config = load_config(str(settings), strict=True)
            config.plugins.on_startup(command="build", dirty=False)
            build(config)
            config.plugins.on_shutdown()
        except (MkDocsException, SystemExit) as error:
            told = "\n".join([*messages, *([] if messages else [str(error)])])
            raise BuildError(f"The pages could not be turned into a site:\n{told}") from error


@contextmanager
def _environment() -> Iterator[None]:
    """Fix the build date and silence the theme's notice about its own successor."""
    wanted = {"NO_MKDOCS_2_WARNING": "1"}
    wanted["SOURCE_DATE_EPOCH"] = os.environ.get("SOURCE_DATE_EPOCH", EPOCH)
    before = {name: os.environ.get(name) for name in wanted}
    os.environ.update(wanted)
    try:
        yield
    finally:
        for name, value in before.items():
            if value is None:
                os.environ.pop(name, None)
            else:
                os.environ[name] = value


class _Listener(logging.Handler):
    def __init__(self) -> None:
        super().__init__(logging.WARNING)
        self.told: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        self.told.append(record.getMessage())


@contextmanager
def _messages() -> Iterator[list[str]]:
    """Collect what MkDocs warns of instead of printing it."""
    logger = logging.getLogger("mkdocs")
    listener = _Listener()
    propagate, level = logger.propagate, logger.level
    logger.addHandler(listener)
    logger.propagate = False
    logger.setLevel(logging.WARNING)
    try:
        yield listener.told
    finally:
        logger.removeHandler(listener)
        logger.propagate, logger.level = propagate, level
