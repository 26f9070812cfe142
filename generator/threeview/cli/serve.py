"""`threeview serve`: build, serve on this machine, rebuild what changes."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from threeview.cli.options import course_option

if TYPE_CHECKING:
    from pathlib import Path


@click.command()
@course_option
@click.option("--port", type=click.IntRange(1, 65535), default=8000, show_default=True)
def serve(folder: Path, port: int) -> None:
    """Serve the course on http://127.0.0.1 and rebuild it when its files change."""
    from threeview.cli.steps import build_course
    from threeview.course import find_course
    from threeview.site import serve_site

    root = find_course(folder)
    serve_site(root, lambda: build_course(root, None), port=port)
