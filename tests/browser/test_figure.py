"""An explored figure: opened from disk, in both schemes, on a narrow screen, with files missing."""

from __future__ import annotations

import shutil
from typing import TYPE_CHECKING, Any

import pytest
from playwright.sync_api import expect

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from playwright.sync_api import Locator, Page
    from tests.browser.learner import Learner

pytestmark = pytest.mark.browser

EXPLORE = "Explore the figure"
PLOTLY = "plotly-cartesian.min.js"
FONT = "element => getComputedStyle(element).fontFamily"
SIDEWAYS = "document.documentElement.scrollWidth - document.documentElement.clientWidth"
WIDTHS = """figure => ['.tv-explore', '.tv-explore .main-svg']
  .map(name => figure.querySelector(name).getBoundingClientRect().width)"""
# what the plot is painted with, and what the page says that paper is, both as the browser writes it
PAPERS = """figure => {
  const probe = document.createElement('i')
  probe.style.background = 'var(--tv-paper)'
  figure.append(probe)
  const named = getComputedStyle(probe).backgroundColor
  probe.remove()
  return [getComputedStyle(figure.querySelector('.main-svg')).backgroundColor, named]
}"""


@pytest.fixture
def explored(course: dict[str, Any]) -> Callable[[Learner], Page]:
    """Return what opens the first page that has a figure to explore."""

    def opened(learner: Learner) -> Page:
        for module in course["modules"]:
            page = learner.open(module["page"])
            if page.locator("tv-figure [data-explore]").count():
                return page
            page.close()
        raise AssertionError("no page of the course has a figure to explore")

    return opened


@pytest.fixture
def torn(site: Path, tmp_path: Path) -> Iterator[Path]:
    """Return a copy of the site that a test may take files from."""
    copy = tmp_path / "site"
    shutil.copytree(site, copy)
    yield copy
    shutil.rmtree(copy)


def explore(page: Page) -> Locator:
    """Explore the page's first figure that can be; return it once it is drawn."""
    figure = page.locator("tv-figure:has([data-explore])").first
    figure.get_by_role("button", name=EXPLORE).click()
    expect(figure.locator(".tv-explore .scatterlayer").first).to_be_visible(timeout=30_000)
    return figure


def test_exploring_from_disk_is_quiet(
    new_learner: Callable[..., Learner], explored: Callable[[Learner], Page]
) -> None:
    """From disk the plot comes from the course's own folder, without a word on the console."""
    learner = new_learner()  # its end fails the test if a request left the course
    said: list[str] = []
    learner.context.on("console", lambda message: said.append(f"{message.type}: {message.text}"))
    page = explored(learner)
    explore(page)
    assert page.url.startswith("file://")
    assert [line for line in said if line.startswith(("error", "warning"))] == []


def test_plot_is_loaded_once_however_often_it_is_asked_for(
    new_learner: Callable[..., Learner], explored: Callable[[Learner], Page]
) -> None:
    """Opening, closing and opening again asks for each script once."""
    page = explored(new_learner())
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    figure = explore(page)
    figure.locator("[data-explore]").click()
    expect(figure.locator(".tv-explore")).to_have_count(0)
    explore(page)
    name = figure.get_attribute("data-figure")
    scripts = [url.rpartition("/")[2] for url in asked if url.endswith(".js")]
    assert {PLOTLY, f"figure-{name}.js"} <= set(scripts)
    assert len(scripts) == len(set(scripts))


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_plot_takes_the_colours_of_the_page(
    new_learner: Callable[..., Learner], explored: Callable[[Learner], Page], scheme: str
) -> None:
    """In either scheme the plot lies on the page's own paper, in the page's own type."""
    page = explored(new_learner(color_scheme=scheme))
    figure = explore(page)
    painted, named = figure.evaluate(PAPERS)
    assert painted == named
    red = int(named.removeprefix("rgb(").split(",")[0])
    assert (red > 128) == (scheme == "light"), named
    fonts = [figure.locator(place).first.evaluate(FONT) for place in (".xtick text", "table")]
    assert fonts[0] == fonts[1]


@pytest.mark.parametrize("width", [320, 360, 1280])
def test_plot_fits_the_screen(
    new_learner: Callable[..., Learner], explored: Callable[[Learner], Page], width: int
) -> None:
    """The plot fills its panel and the page does not scroll sideways."""
    page = explored(new_learner(viewport={"width": width, "height": 740}))
    figure = explore(page)
    panel, plot = figure.evaluate(WIDTHS)
    assert plot == pytest.approx(panel, abs=4)  # the panel's border
    assert page.evaluate(SIDEWAYS) == 0


def test_plot_follows_the_width_of_its_place(
    new_learner: Callable[..., Learner], explored: Callable[[Learner], Page]
) -> None:
    """A turned phone or a narrowed window draws the plot anew at its new width."""
    page = explored(new_learner(viewport={"width": 1280, "height": 900}))
    figure = explore(page)
    before = figure.evaluate(WIDTHS)[1]
    page.set_viewport_size({"width": 320, "height": 740})
    page.wait_for_function(
        "([figure, before]) => figure.querySelector('.main-svg').getBoundingClientRect().width"
        " < before && document.documentElement.scrollWidth <= innerWidth",
        arg=[figure.element_handle(), before],
    )
    panel, plot = figure.evaluate(WIDTHS)
    assert plot == pytest.approx(panel, abs=4)


@pytest.mark.parametrize(
    "missing", [f"assets/vendor/{PLOTLY}", "assets/data/figure-*.js", "assets/tv/explore.js"]
)
def test_missing_file_is_told_and_the_drawing_stays(
    new_learner: Callable[..., Learner],
    explored: Callable[[Learner], Page],
    torn: Path,
    missing: str,
) -> None:
    """A torn copy of the course says in words that loading failed; with the file back, it works."""
    page = explored(new_learner(f"{torn.as_uri()}/"))
    taken = {path: path.read_bytes() for path in torn.glob(missing)}
    assert taken, f"nothing is called {missing}"
    for path in taken:
        path.unlink()
    figure = page.locator("tv-figure:has([data-explore])").first
    figure.locator("[data-explore]").click()
    expect(figure.get_by_role("status")).to_contain_text("could not be loaded")
    expect(figure.locator(".tv-plate svg").first).to_be_visible()
    expect(figure.locator(".tv-explore")).to_have_count(0)
    for path, content in taken.items():
        path.write_bytes(content)
    figure.locator("[data-explore]").click()
    expect(figure.locator(".tv-explore .scatterlayer").first).to_be_visible(timeout=30_000)


def test_two_quick_clicks_open_one_plot(
    new_learner: Callable[..., Learner], explored: Callable[[Learner], Page]
) -> None:
    """An impatient second click while the plot loads opens no second one that would stay."""
    page = explored(new_learner())
    figure = page.locator("tv-figure:has([data-explore])").first
    figure.locator("[data-explore]").evaluate("button => { button.click(); button.click() }")
    figure.get_by_role("button", name="Show the still figure again").wait_for()
    page.wait_for_load_state("networkidle")
    expect(figure.locator(".tv-explore")).to_have_count(1)
    figure.locator("[data-explore]").click()
    expect(figure.locator(".tv-explore")).to_have_count(0)


def test_plot_follows_a_change_of_scheme(
    new_learner: Callable[..., Learner], explored: Callable[[Learner], Page]
) -> None:
    """Turning the page dark while exploring turns the plot dark, at the same moment in time."""
    page = explored(new_learner(color_scheme="light"))
    figure = explore(page)
    slider = figure.get_by_role("slider")
    if slider.count():
        slider.focus()
        page.keyboard.press("Home")
    curve = figure.locator(".scatterlayer path.js-line").first
    before, shape = figure.evaluate(PAPERS), curve.get_attribute("d")
    page.locator("label[for=__palette_1]").click()
    page.wait_for_function(
        "([figure, before]) => getComputedStyle(figure.querySelector('.main-svg'))"
        ".backgroundColor !== before",
        arg=[figure.element_handle(), before[0]],
    )
    painted, named = figure.evaluate(PAPERS)
    assert painted == named != before[1]
    assert curve.get_attribute("d") == shape
