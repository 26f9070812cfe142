"""From rendered pages to a folder of plain files."""

from __future__ import annotations

import gzip
import re
from dataclasses import replace
from html.parser import HTMLParser
from pathlib import Path

import pytest
from tests.site.sample import PAGES, sample_site

from threeview.errors import BuildError
from threeview.site import build_site
from threeview.site.files import read_tree

LOADS = {
    ("script", "src"), ("img", "src"), ("iframe", "src"), ("source", "src"), ("video", "src"),
    ("audio", "src"), ("embed", "src"), ("object", "data"), ("use", "href"), ("image", "href"),
}  # fmt: skip
PRELOADED = ("literata-latin.woff2", "source-sans-3-latin.woff2")


class Loads(HTMLParser):
    """Collects what a page fetches without being asked."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note the addresses of scripts, images, frames, style sheets and icons."""
        for name, value in attrs:
            if (tag, name) in LOADS or (tag, name) == ("link", "href"):
                self.found.append(value or "")


def loads(html: str) -> list[str]:
    """Return the addresses that a page fetches without being asked."""
    parser = Loads()
    parser.feed(html)
    return parser.found


def test_two_builds_are_byte_identical(site: Path, tmp_path: Path) -> None:
    """The same course in another folder gives the same files, byte for byte."""
    again = build_site(sample_site(), tmp_path / "elsewhere", root=tmp_path)
    assert read_tree(again.folder) == read_tree(site)


def test_only_what_changed_is_written(tmp_path: Path) -> None:
    """A second build touches no file; a changed page touches itself and the search index."""
    sample, out = sample_site(), tmp_path / "out"
    build_site(sample, out, root=tmp_path)
    assert build_site(sample, out, root=tmp_path).changed == ()
    (out / "stray.html").write_text("left by somebody")
    privacy = sample.pages["privacy.md"] + "\nOne more sentence.\n"
    changed = build_site(
        replace(sample, pages={**sample.pages, "privacy.md": privacy}), out, root=tmp_path
    ).changed
    index = ("search/search_index.js", "search/search_index.json")
    assert set(changed) - {"sw.js"} == {"privacy.html", "stray.html", *index}


def test_digest_follows_the_content(report: object, tmp_path: Path) -> None:
    """The name of a build changes with one letter of content, and only then."""
    first = build_site(sample_site(), tmp_path / "a", root=tmp_path).digest
    assert first == report.digest  # type: ignore[attr-defined]
    other = replace(sample_site(), digest="1" * 64)
    assert build_site(other, tmp_path / "b", root=tmp_path).digest != first


def test_report_names_exactly_the_files(report: object, site: Path) -> None:
    """The report lists what lies in the folder, sorted, with its size."""
    tree = read_tree(site)
    assert report.files == tuple(sorted(tree))  # type: ignore[attr-defined]
    assert report.size == sum(map(len, tree.values()))  # type: ignore[attr-defined]


def test_broken_page_stops_the_build(tmp_path: Path) -> None:
    """A link to a page that is not there fails with MkDocs' own words and leaves the site alone."""
    sample, out = sample_site(), tmp_path / "out"
    build_site(sample, out, root=tmp_path)
    before = read_tree(out)
    pages = {**sample.pages, "privacy.md": "# Privacy\n\n[gone](nowhere.md)\n"}
    with pytest.raises(BuildError, match=r"nowhere\.md"):
        build_site(replace(sample, pages=pages), out, root=tmp_path)
    assert read_tree(out) == before


def test_missing_block_stops_the_build(tmp_path: Path) -> None:
    """A page that asks for a block nobody made fails with the page's name."""
    sample = sample_site()
    pages = {**sample.pages, "privacy.md": "# Privacy\n\ntv-block:nobody\n"}
    with pytest.raises(BuildError, match=r"privacy\.html: no block is called nobody"):
        build_site(replace(sample, pages=pages), tmp_path / "out", root=tmp_path)


def test_nothing_useless_is_shipped(site: Path) -> None:
    """No source maps, no languages of the search, no map of a site without an address."""
    names = list(read_tree(site))
    assert not [name for name in names if name.endswith(".map") or "lunr" in name]
    assert not {"404.html", "sitemap.xml", "sitemap.xml.gz"} & set(names)
    assert "assets/tv/fonts/OFL-literata.txt" in names


def test_pages_fetch_only_their_own_files(site: Path) -> None:
    """Every script, style, icon and image of every page is a file of the site."""
    for path in sorted(site.rglob("*.html")):
        found = loads(path.read_text("utf-8"))
        assert found, path
        for address in found:
            assert ":" not in address
            assert not address.startswith("//")
            assert (path.parent / address.partition("#")[0]).is_file(), f"{path}: {address}"


def test_styles_fetch_only_their_own_files(site: Path) -> None:
    """Every url() in a style sheet is inline data or a file of the site."""
    for path in sorted(site.rglob("*.css")):
        text = path.read_text("utf-8")
        assert "@import" not in text
        for address in re.findall(r"url\(\s*[\"']?([^\"')]+)", text):
            if not address.startswith("data:"):
                assert (path.parent / address).is_file(), f"{path}: {address}"


def test_fonts_weigh_what_was_promised(site: Path) -> None:
    """The two fonts every page needs weigh at most 66 kB; the italic at most 38 kB."""
    fonts = site / "assets" / "tv" / "fonts"
    assert sum((fonts / name).stat().st_size for name in PRELOADED) <= 66_000
    assert (fonts / "literata-latin-italic.woff2").stat().st_size <= 38_000


def test_page_weight(site: Path, kind: str) -> None:
    """HTML, styles, scripts and the two fonts weigh at most 175 kB before anybody clicks."""
    page = site / PAGES[kind]
    files = {page, *(page.parent / a.partition("#")[0] for a in loads(page.read_text("utf-8")))}
    total = sum(len(gzip.compress(path.read_bytes(), 9)) for path in files)
    total += sum((site / "assets" / "tv" / "fonts" / name).stat().st_size for name in PRELOADED)
    assert total <= 175_000


def test_one_heading_and_the_way_to_the_root(site: Path, kind: str) -> None:
    """Each page has one h1, names the way to the site's root, and keeps the theme's hooks."""
    html = (site / PAGES[kind]).read_text("utf-8")
    assert len(re.findall(r"<h1[ >]", html)) == 1
    depth = PAGES[kind].count("/")
    assert f'<meta name="tv-root" content="{"../" * depth or "./"}">' in html
    for hook in ("header", "search", "search-query", "search-result", "palette", "main"):
        assert f'data-md-component="{hook}"' in html
    assert "Education only." in html
    assert 'rel="next"' not in html
