"""References in one style, checked against the order of elements that biomedical journals ask for.

Source: the sample references of the US National Library of Medicine for articles in journals
(authors without stops, title, abbreviated journal, year;volume(issue):pages).
"""

from __future__ import annotations

from threeview.evidence import Bibliography, Source

HALPERN = Source.model_validate(
    {
        "id": "halpern",
        "type": "article-journal",
        "title": "Solid-organ transplantation in HIV-infected patients",
        "author": [
            {"family": "Halpern", "given": "Scott D"},
            {"family": "Ubel", "given": "Peter A"},
            {"family": "Caplan", "given": "Arthur L"},
        ],
        "container-title": "N Engl J Med",
        "issued": {"date-parts": [["2002"]]},
        "volume": "347",
        "issue": "4",
        "page": "284-7",
    }
)


def test_the_published_sample_reference() -> None:
    """The NLM's own first example, element for element (pages with an en dash)."""
    entry = Bibliography([HALPERN]).entry("halpern")
    assert entry == (
        "Halpern SD, Ubel PA, Caplan AL. Solid-organ transplantation in HIV-infected patients. "
        "N Engl J Med. 2002;347(4):284–7."
    )


def test_short_names() -> None:
    """Three authors are 'et al.'; without authors the journal stands in, never an invented name."""
    book = Bibliography([HALPERN, HALPERN.model_copy(update={"id": "bare", "author": ()})])
    assert book.short("halpern") == "Halpern et al., 2002"
    assert book.short("bare") == "N Engl J Med, 2002"


def test_a_record_that_stops_after_its_first_author() -> None:
    """'et al.' in the record is not an author of its own."""
    author = ({"family": "Halpern", "given": "Scott D"}, {"literal": "et al."})
    cut = HALPERN.model_copy(update={"author": author})
    assert Bibliography([cut]).short("halpern") == "Halpern et al., 2002"


def test_a_title_alone_is_cut_to_be_found_by() -> None:
    """Without author and journal the title's first words stand in."""
    bare = HALPERN.model_copy(
        update={"author": (), "container_title": None, "title": "a b c d e f g"}
    )
    assert Bibliography([bare]).short("halpern") == "a b c d e f…, 2002"
