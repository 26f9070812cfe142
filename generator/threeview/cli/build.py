"""`threeview build`: from the course folder to plain files."""

from __future__ import annotations

from pathlib import Path

import click

from threeview.cli.options import course_option


@click.command()
@course_option
@click.option(
    "--out",
    type=click.Path(file_okay=False, path_type=Path),
    default=None,
    help="Where the site goes; build/site in the course folder if left out.",
)
def build(folder: Path, out: Path | None) -> None:
    """Check and build the course; the last line says how to open it."""
    from threeview.cli.steps import build_course

    report = build_course(folder, out)
    click.echo(f"{len(report.files)} files, {report.size / 1e6:.1f} MB in {report.folder}")
    click.echo(f"Open it: {report.folder / 'index.html'}  (or: threeview serve)")
