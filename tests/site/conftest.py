"""The invented course, built once for all tests of the site room."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from tests.site.sample import PAGES, sample_site

from threeview.site import build_site

if TYPE_CHECKING:
    from threeview.site import SiteReport


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
