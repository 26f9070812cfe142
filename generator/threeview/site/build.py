"""From a rendered course to a folder of plain files."""

from __future__ import annotations

import fnmatch
from dataclasses import dataclass
from typing import TYPE_CHECKING

from threeview.site.assets import find_assets
from threeview.site.blocks import fill_blocks
from threeview.site.engine import run_mkdocs
from threeview.site.files import read_tree, write_tree
from threeview.site.offline import fill_worker, site_digest
from threeview.site.search import fill_index, index_script
from threeview.site.unused_css import trimmed
from threeview.site.workspace import Workspace, write_workspace

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from threeview.pages.rendered import RenderedSite

__all__ = ["SiteReport", "build_site"]

# The theme writes these and no page of the course asks for them. The 404 page and the site map
# need an address, and a course does not know where it will be put.
UNUSED = (
    "*.map",
    "404.html",
    "sitemap.xml",
    "sitemap.xml.gz",
    "assets/images/favicon.png",
    "assets/javascripts/lunr/*",
)
INDEX = "search/search_index.json"


@dataclass(frozen=True)
class SiteReport:
    """What a build made.

    Attributes:
        folder: where the site stands.
        digest: name of this build, 16 hexadecimal digits.
        files: site paths, sorted.
        changed: site paths written or removed, sorted.
        size: bytes of all files together.
    """

    folder: Path
    digest: str
    files: tuple[str, ...]
    changed: tuple[str, ...]
    size: int


def build_site(rendered: RenderedSite, out: Path, *, root: Path) -> SiteReport:
    """Build the site of a rendered course.

    The same input gives the same bytes. A build that fails leaves `out` as it was.

    Args:
        rendered: pages, blocks, data scripts and navigation.
        out: folder of the finished site; made to hold exactly the site's files.
        root: course folder; intermediate files go to its `build/`.

    Returns:
        What was written.

    Raises:
        BuildError: assets are missing, MkDocs refused a page, or blocks and pages do not fit.
    """
    assets = find_assets()
    workspace = Workspace(root.resolve() / "build")
    write_workspace(rendered, assets, workspace)
    run_mkdocs(workspace.settings)
    files = finish(read_tree(workspace.raw), rendered.blocks)
    digest = site_digest(rendered.digest, files)
    worker = (assets.root / "dist" / "sw.js").read_text("utf-8")
    files["sw.js"] = fill_worker(worker, digest, tuple(files)).encode()
    changed = write_tree(out, files)
    return SiteReport(
        folder=out,
        digest=digest,
        files=tuple(sorted(files)),
        changed=changed,
        size=sum(len(content) for content in files.values()),
    )


def finish(raw: Mapping[str, bytes], blocks: Mapping[str, str]) -> dict[str, bytes]:
    """Return the site's files: blocks in place, index filled, what is unused left out.

    Args:
        raw: site path to bytes, as MkDocs wrote them.
        blocks: key to finished HTML.

    Raises:
        BuildError: blocks and pages do not fit together.
    """
    files = {path: content for path, content in raw.items() if not _unused(path)}
    pages = {path: content.decode() for path, content in files.items() if path.endswith(".html")}
    filled = fill_blocks(pages, blocks)
    files |= {path: text.encode() for path, text in filled.items()}
    index = fill_index(files[INDEX].decode(), blocks)
    files[INDEX] = index.encode()
    files["search/search_index.js"] = index_script(index).encode()
    return files | trimmed(files)


def _unused(path: str) -> bool:
    return any(fnmatch.fnmatchcase(path, pattern) for pattern in UNUSED)
