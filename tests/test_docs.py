"""The project's documents against the project: commands, fields, links, versions, wording."""

from __future__ import annotations

import re
import shlex
import typing
from pathlib import Path

import click
import pytest
import yaml
from click.testing import CliRunner
from pydantic import BaseModel

from threeview import __version__
from threeview.cli import threeview
from threeview.computed import FIGURE_DATA, QUESTIONS
from threeview.course.model import PlainPage
from threeview.course.prose import FUNCTIONS
from threeview.course.schemas import SCHEMAS
from threeview.quiz import Response, ScorableItem, score

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
ADRS = sorted((ROOT / "docs" / "adr").glob("[0-9]*.md"))
DOCUMENTS = [
    ROOT / "README.md",
    ROOT / "DEVELOPERS.md",
    ROOT / "CHANGELOG.md",
    *sorted((ROOT / "docs").rglob("*.md")),
]

# Words that praise, pad or hedge instead of saying something.
EMPTY = (
    "best practice", "best-in-class", "blazing", "cutting-edge", "cutting edge", "delve",
    "effortless", "game-chang", "important to note", "in order to", "it should be noted",
    "leverag", "next-generation", "of course,", "powerful", "revolutionary", "robust", "seamless",
    "simply ", "state of the art", "state-of-the-art", "user-friendly", "world-class",
    "clinicians should always",
)  # fmt: skip


def make_targets() -> set[str]:
    """Return the targets that the Makefile calls phony: those a person runs."""
    text = (ROOT / "Makefile").read_text(encoding="utf-8").replace("\\\n", " ")
    declared = re.search(r"^\.PHONY:(.*)$", text, re.MULTILINE)
    assert declared
    return set(declared[1].split())


def made(text: str) -> set[str]:
    """Return the targets of the make commands that a document shows as code."""
    return {target for line in code(text) for target in re.findall(r"\bmake ([a-z]+)", line)}


def code(text: str) -> list[str]:
    """Return the lines of fenced blocks and the inline code of a document."""
    fence = re.compile(r"^```[a-z]*\n(.*?)^```$", re.MULTILINE | re.DOTALL)
    fenced = fence.findall(text)
    inline = re.findall(r"`([^`\n]+)`", fence.sub("", text))
    return [*"".join(fenced).splitlines(), *inline]


def commands(group: click.Group, name: str) -> list[str]:
    """Return every command of the program, as it is typed."""
    found = []
    for part, command in group.commands.items():
        typed = f"{name} {part}"
        found += commands(command, typed) if isinstance(command, click.Group) else [typed]
    return found


def models(annotation: object) -> set[type[BaseModel]]:
    """Return the models that an annotation reaches, through fields and unions."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        parts = [field.annotation for field in annotation.model_fields.values()]
        return {annotation}.union(*(models(part) for part in parts))
    return set().union(*(models(part) for part in typing.get_args(annotation)))


def authored() -> dict[str, set[str]]:
    """Return the fields of every model that an author fills in, as they are spelled in YAML."""
    roots = [model for _, model in SCHEMAS.values()] + [PlainPage]
    found = set().union(*(models(root) for root in roots))
    return {
        model.__name__: {info.alias or name for name, info in model.model_fields.items()}
        for model in found
    }


def described() -> dict[str, set[str]]:
    """Return the fields that DEVELOPERS.md has a row for, by the model of their heading."""
    found: dict[str, set[str]] = {}
    name = ""
    for line in DEVELOPERS.splitlines():
        if line.startswith("#"):
            heading = re.match(r"#### `(\w+)`", line)
            name = heading[1] if heading else ""
        row = re.match(r"\| `([^`]+)` \|", line)
        if name and row:
            found.setdefault(name, set()).add(row[1])
    return found


def test_readme_runs_what_the_makefile_has() -> None:
    """README's make commands exist, and the two that matter are among them."""
    assert {"course", "test"} <= made(README) <= make_targets()


def test_developers_guide_runs_what_the_makefile_has() -> None:
    """Every make command of the contributor guide exists, and every target is explained there."""
    assert made(DEVELOPERS) == make_targets() - {"help"}


def test_landing_runs_the_readmes_test_command() -> None:
    """.ci/run calls `make test` and nothing else, so a green landing means what README says."""
    lines = (ROOT / ".ci" / "run").read_text(encoding="utf-8").splitlines()
    ran = [line for line in lines if line.strip() and not line.startswith("#")]
    assert ran == ["set -eu", 'cd "$(dirname "$0")/.."', "make test"]


@pytest.mark.parametrize("typed", commands(threeview, "threeview"))
def test_every_command_is_explained(typed: str) -> None:
    """Each command of the program stands in README and in the contributor guide."""
    assert any(line.startswith(typed) for line in code(README)), f"README lacks {typed}"
    assert any(line.startswith(typed) for line in code(DEVELOPERS)), f"DEVELOPERS lacks {typed}"


@pytest.mark.parametrize("document", [README, DEVELOPERS], ids=["README", "DEVELOPERS"])
def test_shown_commands_exist(document: str) -> None:
    """Each `threeview ...` that a document shows names a command and options that exist."""
    shown = [line for line in code(document) if re.match(r"(\$ )?threeview [a-z]", line)]
    assert shown
    for line in shown:
        words = shlex.split(line.removeprefix("$ "), comments=True)[1:]
        command: click.Command = threeview
        while words and isinstance(command, click.Group):
            name = words.pop(0)
            assert name in command.commands, line
            command = command.commands[name]
        options = {"--help"} | {option for part in command.params for option in part.opts}
        assert {word for word in words if word.startswith("--")} <= options, line


def test_example_output_is_current() -> None:
    """The lesion that README prints is the one that the program prints."""
    block = re.search(r"^```console\n\$ (threeview lesion .*)\n([^`]*)```$", README, re.MULTILINE)
    assert block, "README shows no lesion"
    asked = [*shlex.split(block[1])[1:], "--course", str(ROOT)]
    done = CliRunner().invoke(threeview, asked)
    assert done.exit_code == 0, done.output

    def steady(text: str) -> list[str]:
        # The residual is rounding noise and may differ between machines; the rest may not.
        return [re.sub(r"(energy residual).*", r"\1", line) for line in text.splitlines()]

    assert steady(block[2]) == steady(done.output)


@pytest.mark.parametrize("model", sorted(authored()))
def test_every_authored_field_has_a_row(model: str) -> None:
    """The contributor guide has one row for each field of each model, and none that is gone."""
    assert described().get(model, set()) == authored()[model]


def test_no_row_for_a_model_that_is_gone() -> None:
    """The contributor guide describes no model that authors cannot write."""
    assert described().keys() <= authored().keys()


@pytest.mark.parametrize("name", [*FUNCTIONS, *QUESTIONS, *FIGURE_DATA])
def test_names_an_author_can_use_are_listed(name: str) -> None:
    """Each text function, computed question and figure kind has a row in the guide."""
    rows = re.findall(r"^\| `([a-z-]+)", DEVELOPERS, re.MULTILINE)
    assert name in rows


def test_every_decision_is_listed() -> None:
    """Each decision record has its row in the index, with three headings and its own number."""
    index = (ROOT / "docs" / "adr" / "README.md").read_text(encoding="utf-8")
    assert ADRS
    for path in ADRS:
        number = int(path.name[:4])
        text = path.read_text(encoding="utf-8")
        assert f"[{path.name[:4]}]({path.name})" in index
        assert text.startswith(f"# {number}. ")
        headings = re.findall(r"^## (.*)$", text, re.MULTILINE)
        assert headings == ["Context", "Decision", "Consequences"], path.name
    assert index.count("](0") == len(ADRS)


@pytest.mark.parametrize("path", DOCUMENTS, ids=lambda p: p.relative_to(ROOT).as_posix())
def test_links_lead_somewhere(path: Path) -> None:
    """Each relative link and picture of a document exists."""
    text = path.read_text(encoding="utf-8")
    links = re.findall(r"\]\(([^)\s]+)\)", text)
    for target in [*links, *re.findall(r'src="([^"]+)"', text)]:
        if not target.startswith(("http", "#")):
            assert (path.parent / target.partition("#")[0]).exists(), target


@pytest.mark.parametrize("path", DOCUMENTS, ids=lambda p: p.relative_to(ROOT).as_posix())
def test_wording_says_something(path: Path) -> None:
    """No document praises itself or pads."""
    text = " ".join(path.read_text(encoding="utf-8").casefold().split())
    assert [phrase for phrase in EMPTY if phrase in text] == []


def test_scoring_table_is_what_the_scorer_does() -> None:
    """Each row of the examples in docs/scoring.md earns what it says."""
    text = (ROOT / "docs" / "scoring.md").read_text(encoding="utf-8")
    rows = re.findall(r"^\| ([a-d, ]+) \| ([a-d, ]+) \| (\d+) \| (yes|no) \|$", text, re.MULTILINE)
    assert len(rows) == text.count("\n| a,")
    assert rows
    for keyed, chosen, points, right in rows:
        item = ScorableItem(
            id="bank/item", version=1, type="multiple", objective="any",
            options=tuple("abcd"), key=tuple(keyed.split(", ")),
        )  # fmt: skip
        found = score(item, Response(choice=tuple(chosen.split(", "))))
        assert (found.earned, found.right) == (int(points), right == "yes"), chosen


def test_versions_agree() -> None:
    """Citation, change log and package name one version, and the open edition is the course's."""
    citation = yaml.safe_load((ROOT / "CITATION.cff").read_text(encoding="utf-8"))
    course = yaml.safe_load((ROOT / "content" / "course.yaml").read_text(encoding="utf-8"))
    changes = (ROOT / "CHANGELOG.md").read_text(encoding="utf-8")
    latest = re.search(r"^## \[?([0-9.]+)\]?", changes, re.MULTILINE)
    assert citation["version"] == __version__
    assert latest is not None
    assert latest[1] == __version__
    assert str(course["edition"]) in changes


def test_hooks_run_without_a_network() -> None:
    """Every pre-commit hook is local, and what it starts comes from this checkout or is git's."""
    settings = yaml.safe_load((ROOT / ".pre-commit-config.yaml").read_text(encoding="utf-8"))
    assert {repository["repo"] for repository in settings["repos"]} == {"local"}
    hooks = [hook for repository in settings["repos"] for hook in repository["hooks"]]
    assert hooks
    for hook in hooks:
        assert hook["language"] == "system", hook["id"]
        assert hook["entry"].startswith((".venv-test/bin/", "git ")), hook["id"]
