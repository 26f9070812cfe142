"""What tests of several rooms share: one browser for the whole run."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Browser

CHROMIUM = "/usr/bin/chromium"
QUIET = (
    "--no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking "
    "--disable-component-update --disable-sync"
)


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Return Debian's Chromium; it makes no request of its own."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=CHROMIUM, args=QUIET.split())
        yield chromium
        chromium.close()
