"""asburied due"""

from __future__ import annotations

from typing import Annotated

import typer

from record.cli.app import EMPTY, Refused, app
from record.cli.asking import AsOf, Json, KnownAt, Reader, day_option, now, tell, view


@app.command()
def due(
    ctx: typer.Context,
    until: Annotated[
        str | None, typer.Option("--until", metavar="DAY", help="Only what is due by then.")
    ] = None,
    role: Annotated[
        str | None,
        typer.Option("--for", metavar="ROLE", help="owner, technician, electrician, plumber."),
    ] = None,
    as_json: Json = False,
    known_at: KnownAt = None,
    as_of: AsOf = None,
    reader: Reader = "owner",
) -> None:
    """
    List the upkeep that is due: overdue first, each with what it is counted from.

    What was missed stays in the list until it is done; `say serviced TAG task=…` records it.

    Example: asburied --record larch-end due --until 2031-12-31

    Exit status is 0 once told, 1 if the record cannot be read, 2 if the command itself was wrong.
    """
    from zoneinfo import ZoneInfo

    from record.fold import zone_of
    from record.upkeep import WHO, CannotTell, json_form, services_for_nothing, words
    from record.upkeep import due as ask

    if role is not None and role not in WHO:
        raise Refused(f'"{role}" is not a role; roles are {", ".join(WHO)}', 2)
    seen = view(ctx.obj, known_at, as_of, reader)
    if not seen.built.entries:
        raise Refused(EMPTY)
    zone = ZoneInfo(zone_of(seen.built.entries))
    today = day_option(as_of) if as_of else now().astimezone(zone).date()
    try:
        dues = ask(seen, today=today, until=day_option(until) if until else None, role=role)
    except CannotTell as fault:
        raise Refused(str(fault)) from fault
    nothing = services_for_nothing(seen, today=today)
    said = words(dues, view=seen, today=today, for_nothing=nothing)
    tell(said, {"due": [json_form(one) for one in dues]}, as_json)
