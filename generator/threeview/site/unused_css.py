"""Leave out of the theme's style sheets what no page and no script of the site can use.

The theme styles far more than a course has (tabs, annotations, code, icons of admonitions). A rule
is kept when each class, id and attribute value its selector asks for occurs as a word anywhere in
the pages or scripts, so what a script adds later keeps its style.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import tinycss2

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

__all__ = ["drop_unused_rules", "trimmed", "words_of"]

_WORD = re.compile(r"[A-Za-z_][\w-]*")
_GROUPS = frozenset({"media", "supports", "layer", "container"})
# What stands inside these only widens or negates: a class in it need not occur.
_LOOSE = re.compile(r":(?:not|is|where|has|any)\((?:[^()]|\([^()]*\))*\)")
_NAME = re.compile(r"[.#]((?:\\.|[\w-])+)|\[[\w-]+[~|^$*]?=[\"']?([\w-]+)")


def words_of(texts: Iterable[str]) -> frozenset[str]:
    """Return every identifier-like word of pages and scripts."""
    return frozenset(word for text in texts for word in _WORD.findall(text))


def drop_unused_rules(css: str, words: frozenset[str]) -> str:
    """Return `css` without the rules that cannot apply.

    Args:
        css: a style sheet.
        words: as `words_of` gives them.
    """
    rules = tinycss2.parse_stylesheet(css, skip_comments=True, skip_whitespace=True)
    return "".join(_kept(rules, words))


def _kept(rules: Iterable[object], words: frozenset[str]) -> Iterator[str]:
    for rule in rules:
        if isinstance(rule, tinycss2.ast.QualifiedRule):
            selectors = _selectors(tinycss2.serialize(rule.prelude))
            used = [selector for selector in selectors if _can_apply(selector, words)]
            if used:
                yield f"{','.join(used)}{{{tinycss2.serialize(rule.content)}}}"
        elif isinstance(rule, tinycss2.ast.AtRule):
            yield from _at_rule(rule, words)
        else:
            # A part the parser does not understand stays as it was.
            yield tinycss2.serialize([rule])


def _at_rule(rule: tinycss2.ast.AtRule, words: frozenset[str]) -> Iterator[str]:
    if rule.content is None or rule.lower_at_keyword not in _GROUPS:
        yield tinycss2.serialize([rule])
        return
    inner = tinycss2.parse_rule_list(rule.content, skip_comments=True, skip_whitespace=True)
    kept = "".join(_kept(inner, words))
    if kept:
        yield f"@{rule.at_keyword}{tinycss2.serialize(rule.prelude)}{{{kept}}}"


def _selectors(prelude: str) -> list[str]:
    """Split a selector list at its own commas, not at those inside brackets."""
    depth, start, parts = 0, 0, []
    for index, character in enumerate(prelude):
        depth += (character in "([") - (character in ")]")
        if character == "," and depth == 0:
            parts.append(prelude[start:index])
            start = index + 1
    return [*parts, prelude[start:]]


def _can_apply(selector: str, words: frozenset[str]) -> bool:
    wanted = _NAME.findall(_LOOSE.sub("", selector))
    return all(_occurs(name or value, words) for name, value in wanted)


def _occurs(name: str, words: frozenset[str]) -> bool:
    plain = name.replace("\\", "")
    return plain in words or not _WORD.fullmatch(plain)


def trimmed(files: Mapping[str, bytes]) -> dict[str, bytes]:
    """Return the theme's style sheets of a site (`assets/stylesheets/`) without unused rules.

    Args:
        files: site path to bytes, pages and scripts included.
    """
    sheets = [path for path in files if path.startswith("assets/stylesheets/")]
    words = words_of(files[path].decode() for path in files if _speaks(path))
    return {path: drop_unused_rules(files[path].decode(), words).encode() for path in sheets}


def _speaks(path: str) -> bool:
    """Whether a file may name a class: pages and our and the theme's scripts, not mere data."""
    ours = path.startswith(("assets/javascripts/", "assets/tv/"))
    return path.endswith(".html") or (ours and path.endswith(".js"))
