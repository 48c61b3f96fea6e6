"""asburied pass, asburied passes"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Annotated, Any

import typer

from record.cli.app import Refused, app
from record.cli.asking import AsOf, Json, KnownAt, Reader, day_option, now, tell, today_there, view

if TYPE_CHECKING:
    from record.answers.ground_pass import GroundPass
    from record.answers.work_pass import WorkPass
    from record.readers import View

    Given = tuple[WorkPass | GroundPass, Iterator[str], dict[str, str]]


@app.command("pass")
def work_pass(
    ctx: typer.Context,
    depth: Annotated[
        str, typer.Option("--depth", help="How deep holes or digging may go, such as '30 mm'.")
    ],
    until: Annotated[str, typer.Option("--until", metavar="DAY", help="The last day of it.")],
    for_whom: Annotated[str, typer.Option("--for", help="Which trade, or who.")],
    hull: Annotated[str | None, typer.Argument(help="The hull's tag.")] = None,
    face: Annotated[
        str | None, typer.Argument(help="near, far, left, right, floor or ceiling.")
    ] = None,
    ground: Annotated[
        str | None,
        typer.Option(
            "--ground",
            metavar="X,Y,W,H",
            help="Instead of a face, ground outside: its south-west corner on the site's grid, "
            "then how far east and north, in metres.",
        ),
    ] = None,
    writer: Annotated[
        str, typer.Option("--writer", help="Who gives it: then it is recorded.")
    ] = "",
    tag: Annotated[str, typer.Option("--tag", help="The tag it is recorded under.")] = "",
    as_json: Json = False,
) -> None:
    """
    Give another trade a pass: which boards or ground are open, how deep, until when, whom to ring.

    Reserved boards, and squares of ground, are told whole, and among them stand some that hide
    nothing, so that a reserved one points at no secret. With --writer and --tag the pass is
    recorded. Open says that the record reserves nothing there, and never that it is clear.

    Example: asburied --record larch-end pass A left --depth "20 mm" --until 2031-06-01
    --for painter

    Exit status is 0 if it was given, 1 if none can be, 2 if the command itself was wrong.
    """
    from record import answers
    from record.cli.lengths import metres

    if bool(writer) != bool(tag):
        raise Refused("a pass is recorded with --writer and --tag, or with neither", 2)
    if (ground is None) == (hull is None or face is None):
        raise Refused("a pass is for a hull and its face, or for ground: --ground X,Y,W,H", 2)
    seen, trade = (view(ctx.obj, None, None, who) for who in ("owner", "trade"))
    last = day_option(until).isoformat()
    if last < (today := today_there(seen)[0]):
        raise Refused(f"{last} is past, today is {today}; write the last day that it is to hold", 2)
    more = {"depth_m": metres(depth), "until": last, "for_whom": for_whom}
    given: WorkPass | GroundPass
    if ground is not None:
        given, words, said = _for_ground(seen, trade, ground, more)
    else:
        given, words, said = _for_face(seen, trade, hull or "", face or "", more)
    tell(words, answers.json_form(given), as_json)
    if writer:
        _record(ctx, seen.built.site, given, {**said, "depth": depth}, tag, writer)


def _for_face(seen: View, trade: View, hull: str, face: str, more: dict[str, Any]) -> Given:
    from record.answers.work_pass import pass_words, work_pass
    from record.facts.hull import FACES

    if face not in FACES:
        raise Refused(f'"{face}" is no face; write one of {", ".join(FACES)}', 2)
    given = work_pass(seen, trade, hull, face, **more)
    said = {
        "hull": given.hull,
        "face": given.face,
        "open": ", ".join(given.open) or "none",
        "reserved": ", ".join(given.reserved) or "none",
    }
    return given, pass_words(given), said


def _for_ground(seen: View, trade: View, ground: str, more: dict[str, Any]) -> Given:
    from record.answers.ground_pass import ground_pass, ground_pass_words, rows

    try:
        east, north, wide, high = (float(part) for part in ground.split(","))
    except ValueError:
        raise Refused(f"{ground} is no area; write it as 22,0,8,8 in metres", 2) from None
    given = ground_pass(seen, trade, (east, north, wide, high), **more)
    said = {
        "corner east": f"{east} m",
        "corner north": f"{north} m",
        "size east": f"{wide} m",
        "size north": f"{high} m",
        "open": "; ".join(rows(given.open)) or "none",
        "reserved": "; ".join(rows(given.reserved)) or "none",
    }
    return given, ground_pass_words(given), said


def _record(
    ctx: typer.Context,
    site: str,
    given: WorkPass | GroundPass,
    said: dict[str, str],
    tag: str,
    writer: str,
) -> None:
    from zoneinfo import ZoneInfo

    from record.cli.asking import read_entries
    from record.cli.say import record_block
    from record.fold import zone_of

    zone = zone_of(read_entries(ctx.obj))
    today = now().astimezone(ZoneInfo(zone)).date().isoformat()
    kind = "work pass" if "hull" in said else "ground pass"
    said = {
        "for": given.for_whom,
        **said,
        "from": today,
        "until": given.until,
        "stop rule": given.stop,
        "ring": given.ring,
    }
    fields = "\n".join(f"- {key}: {' '.join(value.split())}" for key, value in said.items())
    record_block(
        ctx.obj,
        f"# {today} {writer} pass-{tag.casefold()}\n\n- site: {site}\n- zone: {zone}\n\n"
        f"## {kind} {tag}\n\n{fields}\n",
    )


@app.command()
def passes(
    ctx: typer.Context,
    as_json: Json = False,
    known_at: KnownAt = None,
    as_of: AsOf = None,
    reader: Reader = "owner",
) -> None:
    """
    List every pass that was given to another trade: open, run out, back or broken.

    A breach names the tests that prove nothing since. A pass is closed once it is back with a
    picture of the work, those tests are done again, and every valve that was touched is in a
    stated position.

    Example: asburied --record larch-end passes

    Exit status is 0 if every pass is open or closed, 1 if one ran out, is broken or not closed,
    2 if the command itself was wrong.
    """
    from record import answers
    from record.answers.behind_panel import further
    from record.answers.passes import OPEN, passes_words
    from record.answers.passes import passes as ask

    seen = view(ctx.obj, known_at, as_of, reader)
    found = ask(seen, today=today_there(seen, as_of)[0])
    form = {
        "passes": [{**answers.json_form(one), "closed": one.closed} for one in found],
        "reader": seen.reader,
        "further_entries": further(seen),
    }
    tell((*passes_words(found), "", further(seen)), form, as_json)
    if any(one.state != OPEN and not one.closed for one in found):
        raise typer.Exit(1)
