"""The service worker: which files it keeps, under which name."""

from __future__ import annotations

import hashlib
import json
from typing import TYPE_CHECKING

from threeview.errors import BuildError

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["DIGEST_MARK", "FILES_MARK", "fill_worker", "site_digest"]

DIGEST_MARK = '"__TV_DIGEST__"'
FILES_MARK = '"__TV_FILES__"'


def site_digest(content: str, files: Mapping[str, bytes]) -> str:
    """Return the name of this build: 16 hexadecimal digits over content digest and all files."""
    total = hashlib.sha256(content.encode())
    for path, data in sorted(files.items()):
        total.update(path.encode() + b"\0" + hashlib.sha256(data).digest())
    return total.hexdigest()[:16]


def fill_worker(template: str, digest: str, paths: tuple[str, ...]) -> str:
    """Return the service worker that keeps `paths` under the name `digest`.

    Raises:
        BuildError: the template lacks one of its two marks, or has one twice.
    """
    for mark in (DIGEST_MARK, FILES_MARK):
        if template.count(mark) != 1:
            raise BuildError(
                f"The service worker must contain {mark} exactly once; "
                f"it stands there {template.count(mark)} times. Rebuild the scripts."
            )
    listed = json.dumps(sorted(paths), ensure_ascii=False)
    return template.replace(DIGEST_MARK, json.dumps(digest)).replace(FILES_MARK, listed)
