"""asburied pass, asburied passes"""

from __future__ import annotations

from typing import Annotated

import typer

from record.cli.app import Refused, app
from record.cli.asking import AsOf, Json, KnownAt, Reader, day_option, now, tell, view


@app.command("pass")
def work_pass(
    ctx: typer.Context,
    hull: Annotated[str, typer.Argument(help="The hull's tag.")],
    face: Annotated[str, typer.Argument(help="near, far, left, right, floor or ceiling.")],
    depth: Annotated[str, typer.Option("--depth", help="How deep holes may go, such as '30 mm'.")],
    until: Annotated[str, typer.Option("--until", metavar="DAY", help="The last day of it.")],
    for_whom: Annotated[str, typer.Option("--for", help="Which trade, or who.")],
    writer: Annotated[
        str, typer.Option("--writer", help="Who gives it: then it is recorded.")
    ] = "",
    tag: Annotated[str, typer.Option("--tag", help="The tag it is recorded under.")] = "",
    as_json: Json = False,
) -> None:
    """
    Give another trade a pass: which boards are open, how deep, until when, and whom to ring.

    Reserved boards are told whole, and among them stand some that hide nothing, so that a
    reserved board points at no secret. With --writer and --tag the pass is recorded.

    Example: asburied --record larch-end pass A left --depth "20 mm" --until 2031-06-01
    --for painter

    Exit status is 0 if it was given, 1 if none can be, 2 if the command itself was wrong.
    """
    from record import answers
    from record.answers.work_pass import pass_words
    from record.answers.work_pass import work_pass as give
    from record.cli.lengths import metres
    from record.facts.hull import FACES

    if face not in FACES:
        raise Refused(f'"{face}" is no face; write one of {", ".join(FACES)}', 2)
    if bool(writer) != bool(tag):
        raise Refused("a pass is recorded with --writer and --tag, or with neither", 2)
    seen, trade = (view(ctx.obj, None, None, who) for who in ("owner", "trade"))
    given = give(
        seen,
        trade,
        hull,
        face,
        depth_m=metres(depth),
        until=day_option(until).isoformat(),
        for_whom=for_whom,
    )
    tell(pass_words(given), answers.json_form(given), as_json)
    if writer:
        _record(ctx, seen.built.site, given, depth, tag, writer)


def _record(
    ctx: typer.Context, site: str, given: object, depth: str, tag: str, writer: str
) -> None:
    from zoneinfo import ZoneInfo

    from record.answers.work_pass import WorkPass
    from record.cli.asking import read_entries
    from record.cli.say import record_block
    from record.fold import zone_of

    assert isinstance(given, WorkPass)
    zone = zone_of(read_entries(ctx.obj))
    today = now().astimezone(ZoneInfo(zone)).date().isoformat()
    said = {
        "for": given.for_whom,
        "hull": given.hull,
        "face": given.face,
        "open": ", ".join(given.open) or "none",
        "reserved": ", ".join(given.reserved) or "none",
        "depth": depth,
        "from": today,
        "until": given.until,
        "stop rule": given.stop,
        "ring": given.ring,
    }
    fields = "\n".join(f"- {key}: {' '.join(value.split())}" for key, value in said.items())
    record_block(
        ctx.obj,
        f"# {today} {writer} pass-{tag.casefold()}\n\n- site: {site}\n- zone: {zone}\n\n"
        f"## work pass {tag}\n\n{fields}\n",
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
    from record.answers.passes import OPEN, passes_words
    from record.answers.passes import passes as ask

    today = as_of or now().date().isoformat()
    found = ask(view(ctx.obj, known_at, as_of, reader), today=today)
    form = [{**answers.json_form(one), "closed": one.closed} for one in found]
    tell(passes_words(found), form, as_json)
    if any(one.state != OPEN and not one.closed for one in found):
        raise typer.Exit(1)
