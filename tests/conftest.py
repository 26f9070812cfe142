"""What tests of several rooms share: one browser for the whole run, and time to think."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, settings

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Browser

CHROMIUM = "/usr/bin/chromium"
QUIET = (
    "--no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking "
    "--disable-component-update --disable-sync"
)

# A busy machine is no fault of the code: time is measured in benchmarks/, never in tests.
settings.register_profile("calm", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("calm")


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Return Debian's Chromium; it makes no request of its own."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=CHROMIUM, args=QUIET.split())
        yield chromium
        chromium.close()
