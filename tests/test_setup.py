"""Setting up on a fresh machine: what is missing is said, with what to do about it."""

from __future__ import annotations

import os
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
# Answers as a Python of version $VERSION would; its venv part is missing.
FAKE_PYTHON = """#!/bin/sh
case "$2" in
*version_info\\ \\<*) [ "$VERSION" -ge 11 ] ;;
*ensurepip*) exit 1 ;;
*print*) echo "python3.$VERSION-venv" ;;
esac
"""


@pytest.fixture
def bare(tmp_path: Path) -> Path:
    """Return a PATH folder of a user who is not root and has one fake Python."""
    folder = tmp_path / "bin"
    folder.mkdir()
    for name, text in {"python3": FAKE_PYTHON, "id": "#!/bin/sh\necho 1000\n"}.items():
        (folder / name).write_text(text)
        (folder / name).chmod(0o755)
    return folder


def set_up(script: str, path: Path, version: int) -> subprocess.CompletedProcess[str]:
    """Run a set-up script with nothing but `path` on the PATH."""
    environment = {"PATH": str(path), "VERSION": str(version), "HOME": os.environ["HOME"]}
    command = ["/bin/sh", str(ROOT / "tools" / script), str(path / "venv")]
    return subprocess.run(command, env=environment, capture_output=True, text=True, check=False)


def test_an_old_python_is_told_what_is_wanted(bare: Path) -> None:
    """Python 3.9 alone: the wanted version and a way to it, exit code 1."""
    done = set_up("make-venv.sh", bare, 9)
    assert done.returncode == 1
    assert "Python 3.11 or newer was not found." in done.stderr
    assert "apt install python3" in done.stderr


def test_a_missing_venv_part_is_named_with_its_package(bare: Path) -> None:
    """Without root, the package to install and the next step are printed."""
    done = set_up("make-venv.sh", bare, 12)
    assert done.returncode == 1
    assert "sudo apt install python3.12-venv" in done.stderr
    assert "run make again" in done.stderr


def test_missing_browsers_are_named(bare: Path) -> None:
    """Without root and browsers, the tests say what they need instead of failing one by one."""
    done = set_up("find-browsers.sh", bare, 12)
    if Path("/usr/bin/chromium").exists():
        assert "firefox" in done.stderr.lower()
    assert done.returncode == 1
    assert "sudo apt install chromium firefox-esr" in done.stderr
