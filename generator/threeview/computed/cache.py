"""Computed values on disk, addressed by the digest of everything they depend on."""

from __future__ import annotations

import hashlib
import json
import os
from functools import cache
from importlib.util import find_spec
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Callable

__all__ = ["Cache", "engine_version"]


@cache
def engine_version() -> str:
    """Return a digest of the engine's own source: another engine shares no cached value."""
    digest = hashlib.sha256()
    spec = find_spec("threeview.lesion")
    for folder in (spec.submodule_search_locations or ()) if spec else ():
        for path in sorted(Path(folder).glob("*.py")):
            digest.update(path.read_bytes())
    return digest.hexdigest()[:12]


class Cache:
    """Keeps JSON values under a folder; without a folder it remembers only within the process.

    Args:
        folder: where to keep them (`build/cache` of a course), or None.
    """

    def __init__(self, folder: Path | None = None) -> None:
        self._folder = folder
        self._held: dict[str, Any] = {}

    def get(self, kind: str, inputs: dict[str, Any], compute: Callable[[], Any]) -> Any:  # noqa: ANN401 - any JSON value
        """Return the value for `inputs`, computing it only if it is not held yet.

        Args:
            kind: what is computed; part of the address.
            inputs: everything the value depends on, as JSON.
            compute: called without arguments when the value is not held; returns JSON.
        """
        text = json.dumps([kind, engine_version(), inputs], sort_keys=True)
        key = hashlib.sha256(text.encode()).hexdigest()[:32]
        if key not in self._held:
            self._held[key] = self._from_disk(key)
        if self._held[key] is None:
            self._held[key] = compute()
            self._to_disk(key)
        return self._held[key]

    def _from_disk(self, key: str) -> Any:  # noqa: ANN401 - any JSON value
        path = self._path(key)
        if path is None or not path.is_file():
            return None
        try:
            return json.loads(path.read_text(encoding="utf-8"))
        except ValueError:
            return None  # a write that was cut short: compute again

    def _to_disk(self, key: str) -> None:
        path = self._path(key)
        if path is None:
            return
        path.parent.mkdir(parents=True, exist_ok=True)
        # A reader never sees half a file: write beside it, then put it in place.
        draft = path.with_suffix(f".{os.getpid()}.part")
        draft.write_text(json.dumps(self._held[key], separators=(",", ":")), encoding="utf-8")
        draft.replace(path)

    def _path(self, key: str) -> Path | None:
        return None if self._folder is None else self._folder / key[:2] / f"{key}.json"
