"""Put the finished HTML blocks where their placeholder paragraphs stand."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from threeview.errors import BuildError

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["fill_blocks"]

PLACEHOLDER = re.compile(r"<p>\s*tv-block:(?P<key>[A-Za-z0-9._/-]+)\s*</p>")
LEFT_OVER = re.compile(r"tv-block:[^\s<]*")


def fill_blocks(html: Mapping[str, str], blocks: Mapping[str, str]) -> dict[str, str]:
    """Return the pages with each placeholder replaced by its block.

    Args:
        html: path of the built page to its HTML.
        blocks: key to finished HTML.

    Raises:
        BuildError: a page names a block that was not made, a placeholder does not stand alone in
            its paragraph, or a block was made that no page shows; all of them are named.
    """
    used: set[str] = set()
    faults: list[str] = []
    filled = {path: _fill(path, text, blocks, used, faults) for path, text in sorted(html.items())}
    faults += [
        f"block {key} was made, but no page shows it" for key in sorted(blocks.keys() - used)
    ]
    if faults:
        raise BuildError("Blocks and pages do not fit together:\n" + "\n".join(faults))
    return filled


def _fill(
    path: str, text: str, blocks: Mapping[str, str], used: set[str], faults: list[str]
) -> str:
    def replace(match: re.Match[str]) -> str:
        key = match["key"]
        used.add(key)
        if key in blocks:
            return blocks[key]
        faults.append(f"{path}: no block is called {key}")
        return ""

    remainder = LEFT_OVER.findall(PLACEHOLDER.sub("", text))
    faults += [
        f"{path}: the placeholder {found} must stand alone in a paragraph" for found in remainder
    ]
    return PLACEHOLDER.sub(replace, text)
