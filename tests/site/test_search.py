"""What the search may find, and what it may not."""

from __future__ import annotations

import gzip
import json
from typing import TYPE_CHECKING

from threeview.site.search import fill_index, index_script
from threeview.site.words import Passage, read_block

if TYPE_CHECKING:
    from pathlib import Path

INDEX = json.dumps(
    {
        "config": {"lang": ["en"]},
        "docs": [
            {"location": "e.html", "title": "Evidence", "text": ""},
            {"location": "e.html#evidence", "title": "Evidence", "text": "<p>tv-block:rows</p>"},
            {"location": "m.html#s", "title": "S", "text": "<p>Prose.</p> <p>tv-block:it</p>"},
        ],
    }
)


def test_rows_become_entries() -> None:
    """A value and a term are found at their own address; the page keeps the rest."""
    rows = (
        '<p>Lead.</p><ul class="tv-refs"><li id="v"><span class="tv-refs__number">5 mm</span>'
        '<span class="tv-refs__what">Wide &amp; flat. <span class="tv-refs__conditions">Ex vivo.'
        '</span></span><span class="tv-refs__source">Source.</span></li></ul>'
        '<dl><dt id="t">Term</dt><dd>Meaning.</dd></dl><p>End.</p>'
    )
    filled = json.loads(fill_index(INDEX, {"rows": rows, "it": ""}))["docs"]
    assert filled[:3] == [
        {"location": "e.html", "title": "Evidence", "text": "Lead. End."},
        {"location": "e.html#v", "title": "Wide &amp; flat.", "text": "5 mm Ex vivo. Source."},
        {"location": "e.html#t", "title": "Term", "text": "Meaning."},
    ]


def test_questions_stay_out() -> None:
    """Nothing of an item reaches the index, nor drawings and tables; what follows them does."""
    block = (
        "<section>Before <tv-item><p>Stem</p><details>Key</details><script>{}</script></tv-item>"
        '<svg><text>45</text></svg><table><td>7.8</td></table> after</section><p id="p">x</p>'
    )
    assert read_block(block) == ("Before after x", ())


def test_reference_stays_part_of_its_page() -> None:
    """A source in a list has an anchor but no statement; its words belong to the page."""
    assert read_block('<ol><li id="source-a">A. Title.</li></ol>') == ("A. Title.", ())
    assert read_block('<dl><dt id="a">A</dt><dd>B</dd></dl>') == ("", (Passage("a", "A", "B"),))


def test_built_index(site: Path) -> None:
    """Both copies agree, hold no quiz word and no placeholder, and weigh at most 80 kB."""
    text = (site / "search" / "search_index.json").read_text("utf-8")
    assert (site / "search" / "search_index.js").read_text("utf-8") == index_script(text)
    assert "glossary.html#lesion" in text
    assert "tv-block" not in text
    assert "Quizword" not in text
    assert "widens the lesion most" not in text
    assert not [d for d in json.loads(text)["docs"] if d["location"].startswith("quizzes/")]
    assert len(gzip.compress(text.encode(), 9)) <= 80_000
