"""The rules between the parts: every kind of fault is reported with its line."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from threeview.errors import Problem

Problems = Callable[..., list[Problem]]
MODULE = "content/modules/01-one.yaml"
ITEMS = "quizzes/one.yaml"
SIZES = "content/reference/sizes.yaml"
TEXT = "The invented lesion was"


@pytest.mark.parametrize(
    ("new", "found"),
    [
        ('{{ value("widht") }} is', "the unknown value 'widht'"),
        ('{{ cite("papr") }} is', "the unknown source 'papr'"),
        ('{{ term("typ") }} is', "the unknown term 'typ'"),
        ('{{ computed("lesion-widht", set=80) }} is', "the unknown question 'lesion-widht'"),
        ('{{ computed("lesion-width", set=80, time=90) }} is', "no 'electrode'"),
        ('{{ computed("lesion-width", electrode="conventional-9g-10mm", set=80, time=90) }}',
         "gauge 9"),
        ('{{ computed("lesion-width", electrode="conventional-18g-10mm", set=999, time=90) }}',
         "set 999"),
        ("{{ vlaue('width') }} is", "the unknown function 'vlaue'"),
        ("{{ value(width) }} is", "value() with something that is not written out"),
        ("{{ ''.__class__ }} is", "an expression that is not a call"),
        ("{% for x in y %}{% endfor %} is", "a template statement"),
        ("{{ value( is", "unreadable"),
        ('{{ caution("careful") }} is', "caution() inside a paragraph"),
        ("It was 5 mm. The", "the bare quantity '5 mm'"),
        ("It was 80–90 °C. The", "the bare quantity '80–90 °C'"),
        ("It took two minutes. The", "the bare quantity 'two minutes'"),
        ("A 22-gauge needle. The", "the bare quantity '22-gauge'"),
        ("It was 5 % wider. The", "the bare quantity '5 %'"),
        ("It was <b>wide</b>. The", "HTML or an attribute list"),
        ("It was wide.{: onclick=x } The", "HTML or an attribute list"),
        ("It was &lt;wide. The", "HTML or an attribute list"),
        ("See [it](javascript:alert). The", "a link to 'javascript:alert'"),
        ("See [it](other.md). The", "a link to 'other.md'"),
        ("See ![it](https://a.org/b.png). The", "an image from 'https://a.org/b.png'"),
    ],
)  # fmt: skip
def test_faults_in_prose(problems: Problems, new: str, found: str) -> None:
    """Unknown ids, bare quantities, HTML and strange links are refused where they stand."""
    reported = problems((MODULE, TEXT, new))
    assert (MODULE, 19) in {(p.file, p.line) for p in reported if found in p.found}, [
        str(p) for p in reported
    ]


def test_a_line_deep_in_a_text_is_found(problems: Problems) -> None:
    """The line is that of the fault, not of the field."""
    reported = problems((MODULE, "Computed, it is", "Computed, it is 7 mm or"))
    assert [(p.line, p.found) for p in reported] == [(26, "the bare quantity '7 mm'")]


@pytest.mark.parametrize("text", ["It was wide in 2014.", "L4 and L5 V.", "Figure 3 shows it.",
                                  "ISO 9626 says so.", "Read [it](https://a.org/b). The",
                                  'In {{ plain("5 mm") }} steps.', "p < 0.05 holds"])  # fmt: skip
def test_what_is_no_fault(problems: Problems, text: str) -> None:
    """Years, levels, links to the web and counted escapes pass."""
    assert problems((MODULE, TEXT, f"{text} {TEXT}")) == []


@pytest.mark.parametrize(
    ("file", "old", "new", "found"),
    [
        (MODULE, 'figure("cut")', 'figure("cutt")', "the unknown figure 'cutt'"),
        (MODULE, 'figure("cut")', 'item("argue-it")', "figure 'cut' is shown nowhere"),
        (MODULE, 'item("how-wide")', 'item("how-wid")', "the unknown item 'how-wid'"),
        (MODULE, '{{ caution("careful") }}', "Careful.",
         "the caution 'careful' does not stand on this page"),
        ("content/pages/limits.md", '{{ caution("careful") }}', "Careful.",
         "the caution 'careful' does not stand on this page"),
        (MODULE, "kind: cross-section", "kind: cros-section", "the unknown figure kind"),
        (MODULE, "parameters: {electrode: conventional-18g-10mm, set: 80",
         "parameters: {electrode: conventional-18g-99mm, set: 80", "tip length 99"),
        (MODULE, "key_values: [width]", "key_values: [widht]", "the unknown value 'widht'"),
        (MODULE, "- id: count\n", "- id: none\n", "objective 'none' without an item"),
        (SIZES, "sources: [paper]", "sources: [papr]", "the unknown source 'papr'"),
        (SIZES, "  conditions: invented\n", "  conflicts_with: [verdict]\n",
         "'verdict' does not conflict back"),
        ("content/reference/cautions.yaml", "  values: [width]\n", "", "without evidence"),
        ("content/glossary.yaml", "definition: The bare end.",
         "definition: The bare end.\n  see: [tipp]", "the unknown term 'tipp'"),
        (ITEMS, "objective: count", "objective: cuont", "the unknown objective 'cuont'"),
        (ITEMS, "look_again: first", "look_again: frist", "the unknown section 'frist'"),
        (ITEMS, "reference: width, relation", "reference: widht, relation",
         "the unknown value 'widht'"),
    ],
)  # fmt: skip
def test_faults_between_parts(
    problems: Problems, file: str, old: str, new: str, found: str
) -> None:
    """Unknown, missing and one-sided references are reported in the file that has to change."""
    reported = problems((file, old, new))
    assert any(found in p.found and p.file == file and p.line for p in reported), [
        str(p) for p in reported
    ]


def test_a_page_has_at_most_one_stop(problems: Problems) -> None:
    """Two stop frames on a page are reported at the page's cautions."""
    reported = problems(
        ("content/reference/cautions.yaml", "kind: caution", "kind: stop"),
        (
            "content/reference/cautions.yaml",
            "- id: careful",
            "- {id: slow, kind: stop, text: Slow., values: [width]}\n- id: careful",
        ),
        (
            MODULE,
            '{{ caution("careful") }}',
            '{{ caution("careful") }}\n\n      {{ caution("slow") }}',
        ),
    )
    assert [p.found for p in reported] == ["2 stop frames on one page (careful, slow)"]


def test_a_source_that_nothing_cites_is_refused(small: Path, problems: Problems) -> None:
    """Clutter in the source list is a problem at its line."""
    path = small / "content/reference/sources.yaml"
    path.write_text(path.read_text() + "- {id: idle, type: book, title: Idle}\n")
    assert [(p.line, p.found) for p in problems()] == [(6, "the source 'idle' is not cited")]


@pytest.mark.parametrize(
    ("old", "new", "found"),
    [
        ("key: [b]\n  rationale: The paper says {{", "key: [a]\n  rationale: The paper says {{",
         "keyed option 'a' is not within"),
        ("key: [b]\n  rationale: The paper says {{", "key: [a]\n  rationale: The paper says {{",
         "option 'b' is within 5–6\u00a0mm"),
        ("quantity: {value: 2, unit: mm}", "quantity: {value: 5.2, unit: mm}",
         "option 'a' is within 5–6\u00a0mm"),
        ("quantity: {value: 1, unit: cm}", "quantity: {value: 0.55, unit: cm}",
         "option 'c' is within 5–6\u00a0mm"),
        ("quantity: {value: 1, unit: cm}", "quantity: {value: 1, unit: °C}", "a quantity in °C"),
        ("{id: a, text: 2 mm, quantity: {value: 2, unit: mm}, ", "{id: a, text: narrow, ",
         "option 'a' without a quantity"),
        ("category: strong", "category: weak", "option 'a' names 'weak'"),
        ("text: It was weak, category: weak", "text: It was weak, category: faint",
         "keyed option 'b' names 'faint'"),
        ("evidence: {kind: category, reference: verdict}",
         "evidence: {kind: category, reference: width}", "'width' has no category"),
        ("units: [mm, cm]", "units: [cm]", "no 'mm' among the units"),
        ("units: [mm, cm]", "units: [mm, °C]", "'°C' under mm"),
        ("step: 0.1}", "step: 0.1, accept: {low: 5.5, high: 6}}",
         "accepted answers leave out 5–6\u00a0mm"),
        ("  evidence: {kind: quantity, reference: width}\n- id: argue",
         "  evidence: {kind: quantity, reference: verdict}\n- id: argue",
         "quantity evidence on a value without a number"),
        ("reference: width, relation: within", "reference: usual-width, relation: equals",
         "a critical item on 'usual-width' (common practice)"),
    ],
)  # fmt: skip
def test_a_key_that_its_evidence_does_not_support(
    problems: Problems, old: str, new: str, found: str
) -> None:
    """Swapped keys, moved options, wrong units and weak ground under a critical item."""
    reported = problems((ITEMS, old, new))
    assert any(found in p.found and p.file == ITEMS and p.line for p in reported), [
        str(p) for p in reported
    ]


def test_a_moved_value_is_caught_in_the_item(problems: Problems) -> None:
    """When the ledger changes under a key, the item says so."""
    reported = problems((SIZES, "low: 5\n  high: 6", "low: 1\n  high: 3"))
    assert any("keyed option 'b'" in p.found for p in reported)


def test_a_disputed_value_wants_its_guideline_in_the_stem(problems: Problems) -> None:
    """An item on a conflicted value must say whose value it asks for."""
    clash = ("  conditions: invented\n", "  conflicts_with: [verdict]\n  guideline: panel 1\n")
    back = ("  category: weak\n", "  category: weak\n  conflicts_with: [width]\n")
    reported = problems((SIZES, *clash), (SIZES, *back))
    assert any("'width' is disputed (by verdict)" in p.found for p in reported)
    named = problems((ITEMS, "How wide was", "By panel 1, how wide was"))
    assert not any("'width' is disputed" in p.found and p.line == 1 for p in named)
