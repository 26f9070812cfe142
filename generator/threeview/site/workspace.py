"""The folder MkDocs builds from: documents, theme overrides and settings.

The Markdown, the static files and the settings are complete in themselves: another builder that
reads MkDocs' files can build the same folder.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

import yaml

from threeview.site.files import read_tree, write_tree

if TYPE_CHECKING:
    from pathlib import Path

    from threeview.pages.rendered import RenderedSite
    from threeview.site.assets import Assets

__all__ = ["Workspace", "bundle_css", "write_workspace"]

FOOT = (
    ("Limits and cautions", "limits"),
    ("Privacy", "privacy"),
    ("Evidence", "evidence"),
    ("Glossary", "glossary"),
)
# what the pages of every kind read, before the script that reads it
COURSE_DATA = frozenset({"assets/data/course.js"})
SHIPPED = (".js", ".txt", ".woff2")
IMPORT = re.compile(r'^@import "\./(?P<name>[a-z-]+\.css)";$', re.MULTILINE)
COMMENT = re.compile(r"/\*.*?\*/", re.DOTALL)
INDENT = re.compile(r"\n\s+")


@dataclass(frozen=True)
class Workspace:
    """Where a build keeps what it makes on the way.

    Attributes:
        folder: `build/` of the course.
    """

    folder: Path

    @property
    def docs(self) -> Path:
        """Markdown and static files."""
        return self.folder / "docs"

    @property
    def theme(self) -> Path:
        """Overrides of the theme and our icons."""
        return self.folder / "theme"

    @property
    def settings(self) -> Path:
        """The mkdocs.yml of this build."""
        return self.folder / "mkdocs.yml"

    @property
    def raw(self) -> Path:
        """What MkDocs wrote, before the blocks are put in."""
        return self.folder / "raw"


def write_workspace(rendered: RenderedSite, assets: Assets, workspace: Workspace) -> None:
    """Write documents, theme and settings, touching only files that changed."""
    write_tree(workspace.docs, _documents(rendered, assets))
    write_tree(workspace.theme, _theme(assets))
    text = yaml.safe_dump(
        _settings(rendered, assets, workspace), sort_keys=False, allow_unicode=True, width=100
    )
    if not workspace.settings.is_file() or workspace.settings.read_text("utf-8") != text:
        workspace.settings.write_text(text, encoding="utf-8")


def bundle_css(entry: Path) -> str:
    """Return the style sheet `entry` with its `@import "./name.css";` lines replaced by the files.

    Comments and indentation are dropped; nothing else is rewritten.
    """
    text = IMPORT.sub(
        lambda match: (entry.parent / match["name"]).read_text("utf-8"), entry.read_text("utf-8")
    )
    return INDENT.sub("\n", COMMENT.sub("", text)).strip() + "\n"


def _documents(rendered: RenderedSite, assets: Assets) -> dict[str, bytes]:
    files = {path: text.encode() for path, text in rendered.pages.items()}
    files |= {path: text.encode() for path, text in rendered.data.items()}
    for name in ("tokens.css", "base.css"):
        files[f"assets/tv/{name}"] = bundle_css(assets.root / "css" / name).encode()
    for path, content in read_tree(assets.root / "dist").items():
        if path.startswith("vendor/"):
            files[f"assets/{path}"] = content
        elif path.endswith(SHIPPED) and path != "sw.js":
            files[f"assets/tv/{path}"] = content
    files["assets/tv/favicon.svg"] = (assets.root / "icons" / "favicon.svg").read_bytes()
    return files


def _theme(assets: Assets) -> dict[str, bytes]:
    files = read_tree(assets.root / "overrides")
    icons = read_tree(assets.root / "icons")
    return files | {f".icons/tv/{path}": content for path, content in icons.items()}


def _settings(rendered: RenderedSite, assets: Assets, workspace: Workspace) -> dict[str, object]:
    return {
        "INHERIT": str(assets.settings),
        "site_name": rendered.title,
        # relative to the file itself: the successor of MkDocs refuses absolute paths
        "docs_dir": workspace.docs.name,
        "site_dir": workspace.raw.name,
        "use_directory_urls": False,  # a folder opened from disk has no index pages
        "theme": {"custom_dir": workspace.theme.name},
        "plugins": ["search", "offline"],
        "extra_css": ["assets/tv/tokens.css", "assets/tv/base.css"],
        "extra_javascript": [*sorted(COURSE_DATA & rendered.data.keys()), "assets/tv/base.js"],
        "extra": {
            # the offline plugin would name a copy on the net; this one lies beside the pages
            "polyfills": ["assets/vendor/iframe-worker.js"],
            "subject": rendered.subject,
            "edition": rendered.edition,
            "logbook": "logbook.md" in rendered.pages,
            "foot": [
                {"title": title, "path": f"{name}.html"}
                for title, name in FOOT
                if f"{name}.md" in rendered.pages
            ],
        },
        "nav": [{entry.title: entry.page} for entry in rendered.nav],
    }
