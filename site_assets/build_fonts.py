"""Cut the three font files of the site from their npm packages.

The packages `@fontsource-variable/literata` and `@fontsource-variable/source-sans-3` carry the
latin subset of each family with the whole weight axis. The course uses 400 to 700, so the axis is
limited to that with fontTools, layout features that the style sheets never use are dropped, and
the result is written as woff2, with the licence of each family beside it (SIL Open Font License
1.1).

    python site_assets/build_fonts.py [node_modules] [dist/fonts]
"""

from __future__ import annotations

import shutil
import sys
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fontTools.ttLib import TTFont

HERE = Path(__file__).resolve().parent
WEIGHTS = (400, 700)
# Composition, kerning, ligatures and figures of one width; rvrn belongs to the weight axis.
FEATURES = ["ccmp", "kern", "liga", "lnum", "locl", "mark", "mkmk", "rvrn", "tnum"]


@dataclass(frozen=True)
class Cut:
    """One font file: the package's file it comes from and the name it gets."""

    package: str
    source: str
    target: str
    family: str


CUTS = (
    Cut("literata", "literata-latin-wght-normal.woff2", "literata-latin.woff2", "TV Text"),
    Cut("literata", "literata-latin-wght-italic.woff2", "literata-latin-italic.woff2", "TV Text"),
    Cut(
        "source-sans-3",
        "source-sans-3-latin-wght-normal.woff2",
        "source-sans-3-latin.woff2",
        "TV Plain",
    ),
)


def cut_font(source: Path, target: Path, family: str) -> int:
    """Write `source` to `target` with its weight axis limited; return the size in bytes.

    The time stamp inside the file is kept, so that the same source gives the same bytes.
    """
    from fontTools.ttLib import TTFont
    from fontTools.varLib.instancer import instantiateVariableFont

    font = TTFont(source, recalcTimestamp=False)
    # Written and read once: the instancer leaves tables in a form that the subsetter cannot read.
    between = BytesIO()
    instantiateVariableFont(font, {"wght": WEIGHTS}).save(between)
    limited = TTFont(between, recalcTimestamp=False)
    _keep_features(limited)
    _rename(limited, family)
    limited.flavor = "woff2"
    target.parent.mkdir(parents=True, exist_ok=True)
    limited.save(target)
    return target.stat().st_size


def _keep_features(font: TTFont) -> None:
    """Drop the layout features that the style sheets never ask for, such as built fractions."""
    from fontTools.subset import Options, Subsetter

    subsetter = Subsetter(Options(layout_features=FEATURES, notdef_outline=True))
    subsetter.populate(unicodes=font.getBestCmap().keys())
    subsetter.subset(font)


def _rename(font: TTFont, family: str) -> None:
    """Give the changed font a name of its own, as its licence asks of changed fonts."""
    names = font["name"]
    for record in list(names.names):
        if record.nameID in (1, 3, 4, 6, 16, 21, 25):
            names.setName(family, record.nameID, record.platformID, record.platEncID, record.langID)


def main(arguments: list[str]) -> int:
    """Cut all fonts; return 1 and say what is missing when a package is not installed."""
    modules = Path(arguments[0]) if arguments else HERE / "node_modules"
    fonts = Path(arguments[1]) if len(arguments) > 1 else HERE / "dist" / "fonts"
    folders = {cut.package: modules / "@fontsource-variable" / cut.package for cut in CUTS}
    missing = [str(folder) for folder in folders.values() if not folder.is_dir()]
    if missing:
        print(f"not installed: {', '.join(missing)}; run `npm ci --ignore-scripts` first")
        return 1
    for cut in CUTS:
        size = cut_font(folders[cut.package] / "files" / cut.source, fonts / cut.target, cut.family)
        print(f"{cut.target}: {size} bytes")
    for package, folder in folders.items():
        shutil.copyfile(folder / "LICENSE", fonts / f"OFL-{package}.txt")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
