"""`threeview edition close`: release what the course says today."""

from __future__ import annotations

from datetime import date, datetime
from typing import TYPE_CHECKING

import click

from threeview.cli.options import course_option, load

if TYPE_CHECKING:
    from pathlib import Path


@click.group()
def edition() -> None:
    """Closed editions: what was released stays provable."""


@edition.command()
@click.argument("day", type=click.DateTime(["%Y-%m-%d"]))
@course_option
def close(day: datetime, folder: Path) -> None:
    """Write the digests of every value, item and objective into content/editions.yaml."""
    from threeview.course.editions import close_edition

    course, _ = load(folder)
    text = close_edition(course, date(day.year, day.month, day.day))
    path = course.root / "content" / "editions.yaml"
    path.write_text(text, encoding="utf-8")
    click.echo(f"edition of {day:%Y-%m-%d} closed in {path}")
