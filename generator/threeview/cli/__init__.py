"""The command `threeview`: one file a subcommand, errors without tracebacks."""

from __future__ import annotations

import sys

import click

from threeview import __version__
from threeview.cli.build import build
from threeview.cli.check import check
from threeview.cli.edition import edition
from threeview.cli.lesion import lesion
from threeview.cli.schemas import schemas
from threeview.cli.serve import serve
from threeview.errors import ThreeviewError

__all__ = ["main", "threeview"]


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="threeview")
def threeview() -> None:
    """Build courses from YAML: computed figures, checked quizzes, saved progress.

    A course is the nearest folder upward with content/course.yaml.
    """


for _command in (build, check, edition, lesion, schemas, serve):
    threeview.add_command(_command)


def main() -> None:
    """Run the command; errors made on purpose are printed, anything else is a bug."""
    try:
        threeview()
    except ThreeviewError as error:
        click.echo(str(error), err=True)
        sys.exit(1)
