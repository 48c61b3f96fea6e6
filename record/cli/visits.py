"""asburied visits"""

from __future__ import annotations

from typing import Annotated

import typer

from record.cli.app import EMPTY, Refused, app
from record.cli.asking import AsOf, Json, KnownAt, Reader, day_option, now, tell, view


@app.command()
def visits(
    ctx: typer.Context,
    until: Annotated[
        str | None, typer.Option("--until", metavar="DAY", help="So far ahead; else a year.")
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
    Gather the upkeep of the coming year into the fewest visits.

    Each shows the days on which it may fall; the day itself evens the gaps, is a weekday if it
    can be, and keeps work outside out of deep winter. What is overdue comes first, today.

    Example: asburied --record larch-end visits --for technician

    Exit status is 0 once told, 1 if the record cannot be read, 2 if the command itself was wrong.
    """
    from zoneinfo import ZoneInfo

    from record.fold import zone_of
    from record.upkeep import WHO, CannotTell, due
    from record.upkeep.dates import add_months
    from record.upkeep.visit_words import form, words
    from record.upkeep.visits import visits as gather

    if role is not None and role not in WHO:
        raise Refused(f'"{role}" is not a role; roles are {", ".join(WHO)}', 2)
    seen = view(ctx.obj, known_at, as_of, reader)
    if not seen.built.entries:
        raise Refused(EMPTY)
    zone = ZoneInfo(zone_of(seen.built.entries))
    today = day_option(as_of) if as_of else now().astimezone(zone).date()
    last = day_option(until) if until else add_months(today, 12)
    try:
        dues = due(seen, today=today, until=last, role=role)
    except CannotTell as fault:
        raise Refused(str(fault)) from fault
    found = gather(seen, dues, today=today, until=last)
    said = words(found, view=seen, today=today, until=last)
    tell(said, {"visits": [form(one) for one in found]}, as_json)
