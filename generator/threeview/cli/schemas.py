"""`threeview schemas`: JSON Schemas of the authored files, for editors."""

from __future__ import annotations

from pathlib import Path

import click


@click.command()
@click.option(
    "--out",
    type=click.Path(file_okay=False, path_type=Path),
    default=Path("build/schemas"),
    show_default=True,
)
def schemas(out: Path) -> None:
    """Write a JSON Schema for each kind of course file."""
    from threeview.course.schemas import write_schemas

    for path in write_schemas(out):
        click.echo(str(path))
