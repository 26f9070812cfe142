"""A learner in a browser: opens pages, answers items, looks at what is kept."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from pathlib import Path

    from playwright.sync_api import BrowserContext, Locator, Page

# everything that IndexedDB holds of the course
KEPT = """id => new Promise((resolve, reject) => {
  const opening = indexedDB.open(`threeview:${id}`)
  opening.onerror = () => reject(opening.error)
  opening.onsuccess = () => {
    const database = opening.result, rooms = [...database.objectStoreNames], kept = {}
    if (rooms.length === 0) { database.close(); resolve({events: []}); return }
    const work = database.transaction(rooms)
    for (const room of rooms) {
      const asking = work.objectStore(room).getAll()
      asking.onsuccess = () => { kept[room] = asking.result }
    }
    work.oncomplete = () => { database.close(); resolve(kept) }
  }
})"""


class Learner:
    """One profile of a browser on the course.

    Attributes:
        context: the profile.
        course: the course data that the pages load.
        root: address of the course's folder, with a stroke at its end.
        faults: script errors and requests that left the course.
    """

    def __init__(self, context: BrowserContext, course: dict[str, Any], root: str) -> None:
        self.context = context
        self.course = course
        self.root = root
        self.faults: list[str] = []

    def open(self, path: str) -> Page:
        """Open a page of the course in a new tab."""
        page = self.context.new_page()
        page.on("pageerror", lambda error: self.faults.append(str(error)))
        page.on("request", lambda asked: self._check_request(asked.url))
        page.goto(self.root + path)
        return page

    def open_quiz(self, module: int = 0) -> Page:
        """Open a module's quiz and wait until it shows one item."""
        page = self.open(self.course["modules"][module]["quiz"])
        page.locator(".tv-quiz__place").get_by_text("Item").or_(
            page.locator(".tv-quiz__place").get_by_text("Result")
        ).wait_for()
        return page

    def kept(self, page: Page, room: str = "events") -> list[dict[str, Any]]:
        """Return what the browser keeps of the course in one room."""
        found: list[dict[str, Any]] = page.evaluate(KEPT, self.course["id"]).get(room, [])
        return found

    def answers(self, page: Page) -> list[dict[str, Any]]:
        """Return the answers that the browser keeps, in order."""
        events = [event for event in self.kept(page) if event["kind"] == "answered"]
        return sorted(events, key=lambda event: (event["time"], event["id"]))

    def item(self, page: Page) -> dict[str, Any]:
        """Return the scorable item that a quiz shows."""
        versioned = shown(page).get_attribute("data-item")
        for module in self.course["modules"]:
            for item in module["items"]:
                if f"{item['id']}@{item['version']}" == versioned:
                    found: dict[str, Any] = item
                    return found
        raise AssertionError(f"the course data lack {versioned}")

    def give(self, page: Page, *, right: bool) -> None:
        """Answer the item that a quiz shows, without checking it."""
        item, box = self.item(page), shown(page)
        if item["type"] == "numeric":
            self._give_number(box, item, right=right)
            return
        picks = item["key"] if right else [o for o in item["options"] if o not in item["key"]][:1]
        for pick in picks:
            box.locator(f"input[value={pick}]").check()

    def check(self, page: Page) -> None:
        """Check the item that a quiz shows and wait until it is kept."""
        before = len(self.kept(page))
        shown(page).get_by_role("button", name="Check", exact=True).click()
        page.wait_for_function(
            f"async () => (await ({KEPT})(id)).events.length > {before}".replace(
                "(id)", f"('{self.course['id']}')"
            )
        )

    def answer(self, page: Page, *, right: bool) -> None:
        """Answer and check the item that a quiz shows."""
        self.give(page, right=right)
        self.check(page)

    def save_copy(self, folder: Path) -> Path:
        """Save a copy from the logbook; return the file."""
        page = self.open("logbook.html")
        with page.expect_download() as download:
            page.get_by_role("button", name="Save a copy", exact=True).click()
        target = folder / download.value.suggested_filename
        download.value.save_as(target)
        return target

    def _give_number(self, box: Locator, item: dict[str, Any], *, right: bool) -> None:
        numeric = item["numeric"]
        top, bottom = numeric["step"]
        steps = numeric["low"] if right else numeric["high"] + 1000
        box.locator("[name=value]").fill(f"{steps * top / bottom:.6f}".rstrip("0").rstrip("."))
        unit = next(name for name, ratio in numeric["units"].items() if ratio == [1, 1])
        box.locator("[name=unit]").select_option(unit)

    def _check_request(self, url: str) -> None:
        if not url.startswith((self.root, "data:", "blob:")):
            self.faults.append(f"a request left the course: {url}")


def shown(page: Page) -> Locator:
    """Return the item that a quiz shows."""
    return page.locator("tv-item:not([hidden])")


def verdict(page: Page) -> str:
    """Return what the shown item's live region says."""
    return (shown(page).locator(".tv-item__live").text_content() or "").strip()


def on(page: Page) -> None:
    """Go on to the next item, or to the result."""
    page.locator(".tv-quiz__actions button").first.click()
