"""asburied beneath"""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from record.cli.app import Refused, app
from record.cli.asking import AsOf, Json, KnownAt, Reader, spelled, tell, view
from record.cli.lengths import metres

if TYPE_CHECKING:
    from record.answers.asked_spot import AskedSpot
    from record.readers import View

# A place on the grid may be west or south of the peg: -3.60 is a number there, and no option.
SETTINGS = {"ignore_unknown_options": True}


@app.command(context_settings=SETTINGS)
def beneath(
    ctx: typer.Context,
    spot: Annotated[
        list[str] | None,
        typer.Argument(help="X,Y on the site grid (metres, or 78' 9\",19' 8\"), or a tag."),
    ] = None,
    pulled: Annotated[
        list[str] | None,
        typer.Option(
            "--from",
            metavar="LANDMARK LENGTH",
            help='A tape pulled from a landmark, such as "H2 14.142 m"; give two or more.',
        ),
    ] = None,
    side: Annotated[
        str,
        typer.Option(
            "--side",
            metavar="WORDS",
            help="On which side of the line from the first landmark to the second: south, left.",
        ),
    ] = "",
    within: Annotated[
        str | None,
        typer.Option("--within", metavar="L", help="How far round the spot to look."),
    ] = None,
    as_json: Json = False,
    known_at: KnownAt = None,
    as_of: AsOf = None,
    reader: Reader = "owner",
) -> None:
    """
    Say what is recorded below a spot, from the surface down, and how sure.

    The spot is a place on the site grid, something that has a tag, or where tapes from landmarks
    meet. It is what was recorded, never a clearance to dig.

    Example: asburied --record larch-end beneath 24.00,6.00

    Example: asburied beneath --from "H2 14.142 m" --from "W1 10.308 m" --side south

    Exit status is 0 once told, 1 if there is no such spot or the record cannot be read, 2 if
    the command itself was wrong.
    """
    from record import answers
    from record.answers.beneath import beneath as ask
    from record.answers.beneath_words import beneath_words

    words = " ".join(spot or ())
    if bool(words) == bool(pulled):
        raise Refused('give one of: X,Y, a tag, or --from "LANDMARK LENGTH" twice', 2)
    looked = None if within is None else metres(within)
    seen = view(ctx.obj, known_at, as_of, reader)
    spots = _taped(seen, pulled, side, looked) if pulled else _placed(seen, words, looked)
    asked = " and ".join(pulled) if pulled else words
    found = ask(seen, asked, spots)
    tell(beneath_words(found), answers.json_form(found), as_json)


def _taped(
    seen: View, pulled: list[str], side: str, within_m: float | None
) -> tuple[AskedSpot, ...]:
    from record.answers.asked_spot import Pull, by_tapes

    pulls = []
    for text in pulled:
        landmark, _, long = text.strip().partition(" ")
        if not long:
            raise Refused(f'"{text}" is no tape: write --from "H2 14.142 m"', 2)
        pulls.append(Pull(spelled(seen, landmark), metres(long)))
    return by_tapes(seen, pulls, side, within_m)


def _placed(seen: View, words: str, within_m: float | None) -> tuple[AskedSpot, ...]:
    from record.answers.asked_spot import by_grid, by_tag

    if words.startswith("--"):
        raise Refused(f"{words.split()[0]} is no option of beneath", 2)
    if seen.built.thing(words.partition("/")[0]) is not None:
        return (by_tag(seen, words, within_m),)
    one, comma, other = words.partition(",") if "," in words else words.partition(" ")
    if not comma or not any(letter.isdigit() for letter in one):
        tag = spelled(seen, words)
        return (by_tag(seen, tag, within_m),)  # says that there is no such tag, and which are
    in_feet = (site := seen.built.site_thing()) is not None and site.text("units") == "feet"
    unit = None if in_feet else "m"
    return (by_grid(metres(one, unit), metres(other, unit), within_m),)
