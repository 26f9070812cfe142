"""`threeview lesion`: one lesion, in numbers."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import click

from threeview.cli.options import course_option

if TYPE_CHECKING:
    from pathlib import Path

_ROWS = (
    ("width_mm", "width", "mm", 1),
    ("length_mm", "length", "mm", 1),
    ("distal_mm", "beyond the tip", "mm", 1),
    ("proximal_mm", "up the shaft", "mm", 1),
    ("volume_mm3", "volume", "mm³", 0),
    ("peak_tissue_c", "peak tissue temperature", "°C", 1),
)


@click.command()
@click.option("--electrode", required=True, metavar="NAME", help="Such as conventional-18g-10mm.")
@click.option("--set", "set_temperature", required=True, metavar="°C", help="Set temperature.")
@click.option("--time", required=True, metavar="S", help="Seconds from set temperature.")
@click.option("--tissue", metavar="NAME", help="muscle (default) or ex-vivo-medium.")
@click.option("--start", metavar="°C", help="Start temperature; 37 if left out.")
@click.option("--perfusion", metavar="1/S", help="Blood flow; the tissue's own if left out.")
@click.option("--ramp", metavar="S", help="Seconds from switching on to set temperature; 10.")
@click.option("--criterion", metavar="WORDS", help='Such as "isotherm 50" (default) or damage.')
@click.option("--json", "as_json", is_flag=True, help="Print JSON.")
@course_option
def lesion(folder: Path, *, as_json: bool, set_temperature: str, **given: str | None) -> None:
    """Compute a lesion and print its dimensions.

    A model for teaching, not a device or a protocol: it leaves out bone, vessels, fluid and the
    spread of tissue properties.
    """
    from threeview.computed import Answers
    from threeview.course import find_course, load_bench

    answers = Answers(load_bench(find_course(folder)))
    parameters = {name: text for name, text in given.items() if text is not None}
    found = answers.lesion({**parameters, "set": set_temperature})
    summary = {name: found[name] for name, *_ in _ROWS}
    summary |= {"criterion": found["criterion"], "energy_residual": found["energy_residual"]}
    if as_json:
        click.echo(json.dumps({**summary, "conditions": found["words"]}, ensure_ascii=False))
        return
    _print(summary, found)


def _print(summary: dict[str, Any], found: dict[str, Any]) -> None:
    click.echo(found["words"])
    for name, words, unit, decimals in _ROWS:
        click.echo(f"  {words:<24}{summary[name]:>9.{decimals}f} {unit}")
    click.echo(f"  {'criterion':<24}{summary['criterion']:>9}")
    click.echo(f"  {'energy residual':<24}{summary['energy_residual']:>9.1e}")
    click.echo("Computed by a teaching model; local policy and licensed practice decide settings.")
