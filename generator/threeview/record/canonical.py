"""Canonical JSON: one text for one value, in both languages.

The twin of `site_assets/src/core/canonical.ts`. It follows the JSON Canonicalization Scheme
(RFC 8785) for the values it accepts: keys sorted by UTF-16 code unit, no spaces, strings escaped as
ECMAScript's JSON.stringify does, lone surrogates refused. Numbers are whole and at most 2**53 - 1
in size; fractions are refused, because languages write them differently.
"""

from __future__ import annotations

import hashlib
import json
import re

__all__ = ["CanonicalError", "canonical_json", "sha256_hex"]

DEPTH = 16
"""Deepest nesting that is written or read."""

_SAFE = 2**53 - 1
_LONE_SURROGATE = re.compile("[\ud800-\udfff]")


class CanonicalError(ValueError):
    """A value has no canonical form; the message says why."""


def canonical_json(value: object) -> str:
    """Return the canonical text of a value made of dict, list, tuple, str, int, bool and None.

    Raises:
        CanonicalError: another type, a fraction, too large a number, a lone surrogate, or nested
            too deep.
    """
    return _write(value, 0)


def sha256_hex(text: str) -> str:
    """Return the SHA-256 of the text's UTF-8 bytes as 64 lower-case hexadecimal digits."""
    return hashlib.sha256(text.encode()).hexdigest()


def _write(value: object, depth: int) -> str:
    if depth > DEPTH:
        raise CanonicalError(f"nested more than {DEPTH} deep")
    if value is None or isinstance(value, bool):
        return json.dumps(value)
    if isinstance(value, int):
        if abs(value) > _SAFE:
            raise CanonicalError("a number is larger than a safe whole number")
        return str(value)
    if isinstance(value, str):
        return _write_text(value)
    if isinstance(value, list | tuple):
        return "[" + ",".join(_write(entry, depth + 1) for entry in value) + "]"
    if isinstance(value, dict):
        return _write_object(value, depth)
    raise CanonicalError(f"{type(value).__name__} has no place in canonical JSON")


def _write_object(value: dict[object, object], depth: int) -> str:
    keys = sorted((_checked_key(key) for key in value), key=_utf16)
    return (
        "{" + ",".join(f"{_write_text(key)}:{_write(value[key], depth + 1)}" for key in keys) + "}"
    )


def _checked_key(key: object) -> str:
    if not isinstance(key, str):
        raise CanonicalError(f"the key {key!r} is not text")
    return key


def _utf16(key: str) -> bytes:
    return key.encode("utf-16-be", "surrogatepass")


def _write_text(text: str) -> str:
    if _LONE_SURROGATE.search(text):
        raise CanonicalError("half of a surrogate pair has no place in text")
    return json.dumps(text, ensure_ascii=False)
