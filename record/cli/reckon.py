"""asburied reckon"""

from __future__ import annotations

from difflib import get_close_matches
from typing import Annotated

import typer

from record.cli.app import Refused, app
from record.cli.asking import Json, tell


@app.command()
def reckon(
    name: Annotated[str | None, typer.Argument(metavar="NAME", help="Which sum.")] = None,
    given: Annotated[
        list[str] | None,
        typer.Argument(
            metavar="KEY=VALUE …", help="What it takes, with units as crews write them."
        ),
    ] = None,
    as_json: Json = False,
) -> None:
    """
    Work one sum by name: formula, inputs and result in both unit systems, source and caution.

    Without a name it lists the sums; with a name alone it tells what that one takes. It needs no
    record.

    Example: asburied reckon dew-point air="25 °C" humidity="60 %"

    Exit status is 0 once worked, 1 if what was given cannot be or is outside the formula's range,
    2 if the command itself was wrong.
    """
    from record.reckon import SUMS, CannotReckon, catalogue, json_form, read, usage, words

    if name is None:
        sums = [{"name": one.name, "title": one.title} for one in SUMS.values()]
        tell(catalogue(SUMS), sums, as_json)
        return
    one = SUMS.get(name)
    if one is None:
        near = get_close_matches(name, SUMS, 1, 0.5)
        hint = f"Did you mean {near[0]}?" if near else "`asburied reckon` lists them."
        raise Refused(f'there is no sum "{name}". {hint}', 2)
    if not given:
        takes = {"name": one.name, "inputs": [each.key for each in one.inputs]}
        tell(usage(one), takes, as_json)
        return
    try:
        said = read(one, given)
        figures = one.work(said.given)
    except CannotReckon as fault:
        raise Refused(f"{fault}\n\n`asburied reckon {name}` tells what it takes.") from fault
    except ValueError as fault:
        raise Refused(f"{one.name}: {fault}") from fault
    tell(words(one, said, figures), json_form(one, said, figures), as_json)
