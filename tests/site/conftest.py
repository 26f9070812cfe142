"""The invented course, built once for all tests of the site room, and a browser to open it in."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from tests.site.sample import PAGES, sample_site

from threeview.site import build_site

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Browser

    from threeview.site import SiteReport

CHROMIUM = "/usr/bin/chromium"
QUIET = (
    "--no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking "
    "--disable-component-update --disable-sync"
)


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    """Run a test that asks for `kind` once for each kind of page."""
    if "kind" in metafunc.fixturenames:
        metafunc.parametrize("kind", PAGES)


@pytest.fixture(scope="session")
def report(tmp_path_factory: pytest.TempPathFactory) -> SiteReport:
    """Return the report of the built sample."""
    root = tmp_path_factory.mktemp("course")
    return build_site(sample_site(), root / "build" / "site", root=root)


@pytest.fixture(scope="session")
def site(report: SiteReport) -> Path:
    """Return the folder of the built sample."""
    return report.folder


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Return Debian's Chromium; it makes no request of its own."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=CHROMIUM, args=QUIET.split())
        yield chromium
        chromium.close()
