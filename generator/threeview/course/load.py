"""From the course folder to a frozen `Course`, or to every problem at once."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar

from pydantic import BaseModel

from threeview.course.course import Course
from threeview.course.model import CourseMeta, Module, PlainPage, Release, Term
from threeview.course.origin import Origin, validate
from threeview.course.yamlfile import Marks, Plain, read_yaml
from threeview.errors import BuildError, ContentError, Problem, nearest
from threeview.evidence import Caution, Ledger, ReferenceValue, Source
from threeview.evidence.bench import Bench, Electrodes, Tissues
from threeview.quiz.item import Item

if TYPE_CHECKING:
    from pathlib import Path

__all__ = ["find_course", "load_bench", "load_course"]

_Model = TypeVar("_Model", bound=BaseModel)
_LARGEST = 4 * 1024 * 1024  # bytes; no authored file comes near, and a parser should not try


def find_course(start: Path) -> Path:
    """Return the nearest folder upward that holds `content/course.yaml`.

    Raises:
        BuildError: there is none.
    """
    for folder in (start.resolve(), *start.resolve().parents):
        if (folder / "content" / "course.yaml").is_file():
            return folder
    raise BuildError(
        f"no course here: neither {start.resolve()} nor a folder above it holds "
        "content/course.yaml; go to a course folder, or name one with --course"
    )


def load_course(root: Path) -> Course:
    """Read a course folder.

    Args:
        root: folder with `content/` and `quizzes/`.

    Raises:
        ContentError: with every problem of form in every file.
    """
    return _Loader(root).load()


def load_bench(root: Path) -> Bench:
    """Read only the electrodes and tissues of a course, whatever state the rest is in.

    Raises:
        ContentError: with every problem of form in the two files.
    """
    loader = _Loader(root)
    bench = loader.bench()
    if bench is None:
        raise ContentError(loader.problems)
    return bench


class _Loader:
    """Reads file after file, gathering problems instead of stopping at the first."""

    def __init__(self, root: Path) -> None:
        self._root = root
        self.problems: list[Problem] = []
        self._origins: dict[tuple[str, str], Origin] = {}

    def load(self) -> Course:
        meta = self._one(CourseMeta, "content/course.yaml", "course", "course")
        ledger = self._ledger()
        bench = self.bench()
        modules = self._modules(meta)
        names = tuple(module.id for module in modules)
        banks = {name: self._many(Item, f"quizzes/{name}.yaml", f"item:{name}") for name in names}
        retired = {
            name: self._many(Item, f"quizzes/retired/{name}.yaml", f"retired:{name}", missing=True)
            for name in names
        }
        terms = self._many(Term, "content/glossary.yaml", "term", missing=True)
        pages = self._pages(meta)
        releases = self._many(Release, "content/editions.yaml", "release", missing=True)
        self._strangers(meta)
        if self.problems or meta is None or bench is None:
            raise ContentError(self.problems)
        return Course(
            root=self._root,
            meta=meta,
            modules=modules,
            banks=banks,
            retired=retired,
            ledger=ledger,
            bench=bench,
            glossary={term.id: term for term in terms},
            pages=pages,
            releases=releases,
            origins=self._origins,
        )

    # --- single files -------------------------------------------------------------------------

    def _read(self, file: str, *, missing: bool = False) -> tuple[Plain, Marks]:
        text = self._text(file, missing=missing)
        if text is None:
            return None, Marks(1, 1)
        value, marks, problems = read_yaml(text, file)
        self.problems += problems
        return value, marks

    def _text(self, file: str, *, missing: bool = False) -> str | None:
        path = self._root / file
        if not path.is_file():
            if not missing:
                near = nearest(path.name, [p.name for p in path.parent.glob("*")])
                self.problems.append(Problem(file, 0, 0, "no such file", "expected it here", near))
            return None
        if path.stat().st_size > _LARGEST:
            found = f"{path.stat().st_size} bytes"
            self.problems.append(Problem(file, 0, 0, found, f"expected at most {_LARGEST}"))
            return None
        try:
            return path.read_text(encoding="utf-8")
        except UnicodeDecodeError as error:
            found = f"byte {error.start} is not UTF-8"
            self.problems.append(Problem(file, 0, 0, found, "expected text saved as UTF-8"))
            return None

    def _one(self, model: type[_Model], file: str, kind: str, name: str) -> _Model | None:
        value, marks = self._read(file)
        if value is None:
            return None
        origin = Origin(file, marks)
        self._origins[kind, name] = origin
        return validate(model, value, origin, self.problems)

    def _many(
        self, model: type[_Model], file: str, kind: str, *, missing: bool = False
    ) -> tuple[_Model, ...]:
        """Read a file that is a list; each entry is judged alone, ids must differ."""
        value, marks = self._read(file, missing=missing)
        if value is None:
            return ()
        if not isinstance(value, list):
            found, expected = "no list", "expected entries that begin with '- '"
            self.problems.append(Problem(file, marks.line, marks.column, found, expected))
            return ()
        found_models = []
        for index, entry in enumerate(value):
            origin = Origin(file, marks.at((index,)))
            built = validate(model, entry, origin, self.problems)
            if built is not None and self._claim(kind, _name(built), origin):
                found_models.append(built)
        return tuple(found_models)

    def _claim(self, kind: str, name: str, origin: Origin) -> bool:
        """Register where a thing stands; a second one of the same name is a problem."""
        first = self._origins.setdefault((kind, name), origin)
        if first is origin:
            return True
        found = f"'{name}' a second time (first in {first.file}:{first.marks.line})"
        self.problems.append(origin.problem(("id",), found, "expected each id once"))
        return False

    # --- parts of the course ------------------------------------------------------------------

    def _ledger(self) -> Ledger:
        sources = self._many(Source, "content/reference/sources.yaml", "source")
        cautions = self._many(Caution, "content/reference/cautions.yaml", "caution")
        values: dict[str, ReferenceValue] = {}
        topics: dict[str, str] = {}
        apart = {"sources", "cautions", "tissues", "electrodes"}
        folder = self._root / "content" / "reference"
        for path in sorted(folder.glob("*.yaml")):
            if path.stem in apart:
                continue
            file = f"content/reference/{path.name}"
            for value in self._many(ReferenceValue, file, "value"):
                values[value.id] = value
                topics[value.id] = path.stem
        return Ledger(
            values,
            {source.id: source for source in sources},
            {caution.id: caution for caution in cautions},
            topics,
        )

    def bench(self) -> Bench | None:
        electrodes = self._one(
            Electrodes, "content/reference/electrodes.yaml", "bench", "electrodes"
        )
        tissues = self._one(Tissues, "content/reference/tissues.yaml", "bench", "tissues")
        if electrodes is None or tissues is None:
            return None
        return Bench(electrodes=electrodes, tissues=tissues)

    def _modules(self, meta: CourseMeta | None) -> tuple[Module, ...]:
        modules = []
        for index, name in enumerate(meta.modules if meta else ()):
            file = self._module_file(name)
            if file is None:
                origin = self._origins["course", "course"]
                stems = [path.stem[3:] for path in self._module_paths()]
                expected = f"expected a file content/modules/NN-{name}.yaml"
                self.problems.append(
                    origin.problem(
                        ("modules", index),
                        f"no file for module '{name}'",
                        expected,
                        nearest(name, stems),
                    )
                )
                continue
            module = self._one(Module, file, "module", name)
            if module and module.id != name:
                origin = self._origins["module", name]
                expected = f"expected '{name}', as the file is named"
                self.problems.append(origin.problem(("id",), f"id is '{module.id}'", expected))
            elif module:
                modules.append(module)
        return tuple(modules)

    def _module_paths(self) -> list[Path]:
        return sorted((self._root / "content" / "modules").glob("[0-9][0-9]-*.yaml"))

    def _module_file(self, name: str) -> str | None:
        for path in self._module_paths():
            if path.stem[3:] == name:
                return f"content/modules/{path.name}"
        return None

    def _pages(self, meta: CourseMeta | None) -> tuple[PlainPage, ...]:
        pages = []
        for name in meta.pages if meta else ():
            file = f"content/pages/{name}.md"
            text = self._text(file)
            if text is None:
                continue
            page = self._page(file, name, text)
            if page:
                pages.append(page)
        return tuple(pages)

    def _page(self, file: str, name: str, text: str) -> PlainPage | None:
        parts = text.split("---\n", 2)
        if len(parts) != 3 or parts[0]:  # noqa: PLR2004 - nothing, front matter, text
            expected = "expected '---', fields (title: ...), '---', then the text"
            self.problems.append(Problem(file, 1, 1, "no front matter", expected))
            return None
        head, marks, problems = read_yaml("\n" + parts[1], file)
        self.problems += problems
        if not isinstance(head, dict):
            return None
        body = Marks(2 + parts[1].count("\n"), 1, literal=True)
        origin = Origin(file, Marks(1, 1, children={**marks.children, "text": body}))
        self._origins["page", name] = origin
        return validate(PlainPage, {"id": name, **head, "text": parts[2]}, origin, self.problems)

    def _strangers(self, meta: CourseMeta | None) -> None:
        """Refuse files that the course would silently leave out."""
        if meta is None:
            return
        for path in self._module_paths():
            if path.stem[3:] not in meta.modules:
                self._stray(path, "expected its id under 'modules' in content/course.yaml")
        for path in sorted((self._root / "quizzes").glob("*.yaml")):
            if path.stem not in meta.modules and path.stem != "forms":
                self._stray(path, "expected a bank named after a module of the course")
        for path in sorted((self._root / "content" / "pages").glob("*.md")):
            if path.stem not in meta.pages:
                self._stray(path, "expected its name under 'pages' in content/course.yaml")

    def _stray(self, path: Path, expected: str) -> None:
        file = path.relative_to(self._root).as_posix()
        self.problems.append(Problem(file, 0, 0, "a file that belongs to no page", expected))


def _name(model: BaseModel) -> str:
    """Return the name under which a thing is unique in its file."""
    name = getattr(model, "id", None)
    if name is None:
        return str(getattr(model, "date"))  # noqa: B009 - releases are named by their date
    return str(name)
