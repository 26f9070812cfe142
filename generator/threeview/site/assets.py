"""Where the style sheets, fonts, scripts and theme overrides come from."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from threeview.errors import BuildError

__all__ = ["REQUIRED", "Assets", "find_assets"]

PACKAGED = Path(__file__).resolve().parent.parent / "_assets"
CHECKOUT = Path(__file__).resolve().parents[3] / "site_assets"

REQUIRED = (
    "css/base.css",
    "css/tokens.css",
    "overrides/main.html",
    "icons/favicon.svg",
    "dist/base.js",
    "dist/explore.js",
    "dist/logbook.js",
    "dist/sw.js",
    "dist/fonts/literata-latin.woff2",
    "dist/fonts/literata-latin-italic.woff2",
    "dist/fonts/source-sans-3-latin.woff2",
    "dist/vendor/iframe-worker.js",
)


@dataclass(frozen=True)
class Assets:
    """The folder of assets and the MkDocs settings that belong to it.

    Attributes:
        root: holds `dist/` (built scripts, vendored scripts, fonts), `css/`, `overrides/` and
            `icons/`.
        settings: the mkdocs.yml every build inherits.
    """

    root: Path
    settings: Path


def find_assets() -> Assets:
    """Return the packaged assets, else those of the checkout the package is installed from.

    Raises:
        BuildError: neither is there, or files are missing from it; all of them are named.
    """
    packaged = PACKAGED.is_dir()
    root = PACKAGED if packaged else CHECKOUT
    settings = (PACKAGED if packaged else CHECKOUT.parent) / "mkdocs.yml"
    missing = [name for name in REQUIRED if not (root / name).is_file()]
    if not settings.is_file():
        missing.append(str(settings))
    if missing:
        raise BuildError(
            f"The site's assets in {root} are incomplete. Missing: {', '.join(missing)}. "
            "In a checkout, run `make course`; an installed package is damaged, install it again."
        )
    return Assets(root=root, settings=settings)
