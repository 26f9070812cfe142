"""The built pages as a reader meets them: in Chromium, from disk, with keyboard and on a phone."""

from __future__ import annotations

from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

import pytest
from tests.site.sample import PAGES

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from playwright.sync_api import Browser, Page

pytestmark = pytest.mark.browser

VIEWS = {
    "wide-light": (1280, 900, "light"),
    "wide-dark": (1280, 900, "dark"),
    "narrow-light": (320, 640, "light"),
    "projector": (1920, 1080, "light"),
}
NO_FETCH = {"preload": False}  # axe would ask for the style sheets, which a disk refuses
TALL_ENOUGH = """() => [...document.querySelectorAll(
  'button, summary, select, .tv-button, .tv-option, .tv-number, .tv-order a, .tv-head a, '
  + '.tv-head label, .tv-foot a, .md-sidebar--primary .md-nav__link, .tv-look-again a')]
  .filter(e => e.checkVisibility({visibilityProperty: true}))
  .map(e => [e.outerHTML.slice(0, 90), e.getBoundingClientRect().height])
  .filter(([_, height]) => height < 43.5)"""
BEYOND = """() => [...document.querySelectorAll('body *')]
  .filter(e => e.checkVisibility({visibilityProperty: true}) && !e.closest('.tv-table-scroll, svg'))
  .filter(e => { const r = e.getBoundingClientRect()
    return r.width > 1 && (r.right > innerWidth + .5 || r.left < -.5) })
  .map(e => e.outerHTML.slice(0, 90))"""
# characters on each line but the last of each paragraph, by where the letters stand
LINES = """() => [...document.querySelectorAll('.tv-prose > p')].flatMap(p => {
  const counts = new Map(), range = document.createRange()
  const top = p.getBoundingClientRect().top, height = parseFloat(getComputedStyle(p).lineHeight)
  const walk = document.createTreeWalker(p, NodeFilter.SHOW_TEXT)
  for (let node = walk.nextNode(); node; node = walk.nextNode()) {
    if (node.parentElement.closest('sup')) continue
    for (let i = 0; i < node.length; i++) {
      range.setStart(node, i); range.setEnd(node, i + 1)
      const box = range.getBoundingClientRect()
      const line = Math.floor(((box.top + box.bottom) / 2 - top) / height)
      counts.set(line, (counts.get(line) || 0) + 1)
    }
  }
  return [...counts.values()].slice(0, -1)
})"""


@contextmanager
def opened(
    browser: Browser, site: Path, path: str, view: str = "wide-light", *, script: bool = True
) -> Iterator[Page]:
    """Open a page from disk; fail on script errors and on requests that leave the disk."""
    width, height, scheme = VIEWS[view]
    context = browser.new_context(
        viewport={"width": width, "height": height},
        color_scheme=scheme,  # type: ignore[arg-type]
        java_script_enabled=script,
    )
    page = context.new_page()
    faults: list[str] = []
    page.on("pageerror", lambda error: faults.append(str(error)))
    page.on("console", lambda said: faults.append(said.text) if said.type == "error" else None)
    page.on(
        "request",
        lambda asked: (
            faults.append(asked.url)
            if not asked.url.startswith(("file:", "data:", "blob:"))
            else None
        ),
    )
    page.goto((site / path).as_uri())
    yield page
    context.close()
    assert faults == []


def focused(page: Page) -> str:
    """Return the text of the element that has the focus."""
    return str(page.evaluate("document.activeElement.textContent")).strip()


@pytest.mark.parametrize("view", ["wide-light", "narrow-light"])
def test_search_works_from_disk(browser: Browser, site: Path, view: str) -> None:
    """From disk and without a network, a word leads to a glossary entry; nothing is asked for."""
    with opened(browser, site, PAGES["module"], view) as page:
        page.get_by_role("button", name="Search", exact=True).click()
        page.keyboard.type("electrode")
        page.locator(".md-search-result__item").first.wait_for(timeout=20_000)
        hits = page.locator(".md-search-result__link")
        assert hits.count() >= 2
        page.locator(".md-search-result__link", has_text="Active tip").click()
        page.wait_for_url("**/glossary.html#active-tip")


def test_search_never_shows_a_question(browser: Browser, site: Path) -> None:
    """A word that stands only in quiz items is not found."""
    with opened(browser, site, PAGES["module"]) as page:
        page.get_by_role("button", name="Search", exact=True).click()
        page.keyboard.type("quizword")
        page.get_by_text("No matching documents").wait_for(timeout=20_000)
        assert page.locator(".md-search-result__item").count() == 0


def test_search_by_keyboard(browser: Browser, site: Path) -> None:
    """Enter opens it, Escape closes it and gives the focus back; a bare letter does nothing."""
    with opened(browser, site, PAGES["plain"]) as page:
        panel = page.locator(".tv-search__panel")
        for letter in "fs/":
            page.keyboard.press(letter)
            assert not panel.is_visible()
        page.get_by_role("button", name="Search", exact=True).focus()
        page.keyboard.press("Enter")
        assert panel.is_visible()
        assert page.evaluate("document.activeElement.id") == "tv-query"
        page.keyboard.press("Escape")
        panel.wait_for(state="hidden")
        page.wait_for_function("document.activeElement.textContent.trim() === 'Search'")


def test_drawer_by_keyboard(browser: Browser, site: Path) -> None:
    """On a phone the menu opens with the focus inside; Escape closes it; closed, it is skipped."""
    with opened(browser, site, PAGES["module"], "narrow-light") as page:
        drawer = page.locator(".md-sidebar--primary")
        assert not drawer.is_visible()
        menu = page.get_by_role("button", name="Menu")
        menu.focus()
        page.keyboard.press("Enter")
        assert drawer.is_visible()
        assert menu.get_attribute("aria-expanded") == "true"
        assert focused(page) == "Start"
        page.keyboard.press("Escape")
        assert not drawer.is_visible()
        assert focused(page) == "Menu"


def test_drawer_opens_on_the_first_page_too(browser: Browser, site: Path) -> None:
    """Home has no column on a wide screen, but its drawer lists the modules."""
    with opened(browser, site, PAGES["home"], "narrow-light") as page:
        page.get_by_role("button", name="Menu").click()
        link = page.locator(".md-sidebar--primary").get_by_text("2 How RF makes a lesion")
        link.click()
        page.wait_for_url("**/how-rf-makes-a-lesion.html")


def test_drawer_opens_without_script(browser: Browser, site: Path) -> None:
    """With script off the menu still opens, and search and scheme are not offered."""
    with opened(browser, site, PAGES["module"], "narrow-light", script=False) as page:
        page.locator(".tv-head__menu--plain").click()
        assert page.locator(".md-sidebar--primary").is_visible()
        assert not page.locator(".tv-head__find").is_visible()
        assert not page.locator(".tv-head__scheme").is_visible()


def test_scheme_follows_the_system_and_is_remembered(browser: Browser, site: Path) -> None:
    """A dark system gets the dark scheme; the switch wins, also on the next page."""
    scheme = "document.body.dataset.mdColorScheme"
    with opened(browser, site, PAGES["plain"], "wide-dark") as page:
        assert page.evaluate(scheme) == "slate"
        page.get_by_title("Switch to the light scheme").click()
        assert page.evaluate(scheme) == "default"
        page.goto((site / PAGES["module"]).as_uri())
        assert page.evaluate(scheme) == "default"


@pytest.mark.parametrize("view", ["wide-light", "wide-dark", "narrow-light"])
def test_no_serious_barrier(browser: Browser, site: Path, kind: str, view: str) -> None:
    """Axe-core finds nothing serious or critical, and no breach of WCAG A or AA."""
    from axe_playwright_python.sync_playwright import Axe

    with opened(browser, site, PAGES[kind], view) as page:
        found: list[dict[str, Any]] = Axe().run(page, options=NO_FETCH).response["violations"]
    bad = [
        (rule["id"], rule["nodes"][0]["html"][:120])
        for rule in found
        if rule["impact"] in {"serious", "critical"}
        or any(tag.startswith("wcag") for tag in rule["tags"])
    ]
    assert bad == []


@pytest.mark.parametrize(
    ("part", "view"),
    [("Search", "wide-dark"), ("Search", "narrow-light"), ("Menu", "narrow-light")],
)
def test_no_serious_barrier_when_open(browser: Browser, site: Path, part: str, view: str) -> None:
    """The same with the search or the drawer open."""
    from axe_playwright_python.sync_playwright import Axe

    with opened(browser, site, PAGES["module"], view) as page:
        page.get_by_role("button", name=part, exact=True).click()
        if part == "Search":
            page.keyboard.type("electrode")
            page.locator(".md-search-result__item").first.wait_for(timeout=20_000)
        found = Axe().run(page, options=NO_FETCH).response["violations"]
    assert [r["id"] for r in found if r["impact"] in {"serious", "critical"}] == []


@pytest.mark.parametrize("view", ["narrow-light", "wide-light"])
def test_nothing_runs_sideways(browser: Browser, site: Path, kind: str, view: str) -> None:
    """No page is wider than the window; at 320 px that is the reflow of WCAG 1.4.10."""
    with opened(browser, site, PAGES[kind], view) as page:
        width = VIEWS[view][0]
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        assert page.evaluate(BEYOND) == []


def test_controls_are_tall_enough(browser: Browser, site: Path, kind: str) -> None:
    """On a phone every control, row of the menu and link outside running text is 44 px high."""
    with opened(browser, site, PAGES[kind], "narrow-light") as page:
        assert page.evaluate(TALL_ENOUGH) == []
        page.get_by_role("button", name="Menu").click()
        assert page.evaluate(TALL_ENOUGH) == []


@pytest.mark.parametrize("view", ["wide-light", "projector"])
def test_measure(browser: Browser, site: Path, view: str) -> None:
    """Lines of prose hold 60 to 75 characters on average, and none is longer than 80."""
    with opened(browser, site, PAGES["module"], view) as page:
        counts = page.evaluate(LINES)
    assert len(counts) >= 8
    assert 60 <= sum(counts) / len(counts) <= 75
    assert max(counts) <= 80


def test_note_stands_beside_its_paragraph(browser: Browser, site: Path) -> None:
    """Wide, a source note begins on the row of its paragraph; narrow, it follows it."""
    top = "s => document.querySelector(s).getBoundingClientRect()"
    paragraph, note = ".tv-prose > p", ".tv-prose > .tv-source"
    with opened(browser, site, PAGES["module"]) as page:
        text, beside = page.evaluate(top, paragraph), page.evaluate(top, note)
        assert abs(text["top"] - beside["top"]) <= 8
        assert beside["left"] > text["right"]
    with opened(browser, site, PAGES["module"], "narrow-light") as page:
        text, below = page.evaluate(top, paragraph), page.evaluate(top, note)
        assert below["top"] >= text["bottom"]
        assert below["left"] >= text["left"]


def test_target_is_not_under_the_header(browser: Browser, site: Path) -> None:
    """A section opened by its address shows its heading below the header."""
    with opened(browser, site, PAGES["module"]) as page:
        page.goto((site / PAGES["module"]).as_uri() + "#what-the-numbers-are")
        page.wait_for_function("scrollY > 0")
        heading = page.locator("#what-the-numbers-are").bounding_box()
        header = page.locator(".md-header").bounding_box()
        assert heading
        assert header
        assert heading["y"] >= header["y"] + header["height"]
        assert heading["y"] < 200


def test_labels_of_a_plate(browser: Browser, site: Path) -> None:
    """In a plate 336 px wide the labels are 15 px."""
    with opened(browser, site, PAGES["module"]) as page:
        page.evaluate("document.querySelector('.tv-plate').style.width = '338px'")
        sizes = page.evaluate(
            "[...document.querySelectorAll('.tv-plot text')].map(t => "
            "parseFloat(getComputedStyle(t).fontSize) * t.getScreenCTM().a)"
        )
    assert sizes
    assert min(sizes) >= 14.99


def test_print_is_black_on_white(browser: Browser, site: Path) -> None:
    """On paper the dark scheme turns white, the chrome goes and the caption stays."""
    with opened(browser, site, PAGES["module"], "wide-dark") as page:
        page.emulate_media(media="print")
        assert page.evaluate("getComputedStyle(document.body).backgroundColor") == (
            "rgb(255, 255, 255)"
        )
        for gone in (".md-header", ".md-sidebar--primary", ".tv-item .tv-button"):
            assert not page.locator(gone).first.is_visible()
        assert page.locator("figcaption").is_visible()
