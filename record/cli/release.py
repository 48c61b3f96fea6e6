"""asburied release, asburied waive"""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from record.cli.app import Refused, app
from record.cli.asking import now, read_entries, today_there, view
from record.cli.say import own_sheet, record_block

if TYPE_CHECKING:
    from record.checks import Readiness
    from record.log import Place

By = Annotated[str, typer.Option("--by", help="Who answers for it, such as ld.")]
Second = Annotated[str, typer.Option("--second", help="The second person, who looked too.")]


@app.command()
def release(
    ctx: typer.Context,
    covering: Annotated[str, typer.Argument(metavar="COVERING", help="Its tag.")],
    by: By,
    second: Second,
    reading: Annotated[
        str, typer.Option("--reading", help="What was read that lets it go on.")
    ] = "",
) -> None:
    """
    Record that two people looked and let a covering go on, now.

    Whatever still stands against it is said, and stays against it: a release clears nothing.

    Example: asburied release FILL-TR --by ld --second ck --reading "falls 2 % in both lengths"

    Exit status is 0 if it was recorded, 1 if it was not, 2 if the command itself was wrong.
    """
    _two(by, second)
    left = _readiness(ctx.obj, covering)
    fields = [("hold", f"before {covering}"), ("second", second)]
    fields += [("reading", reading)] if reading else []
    _record(ctx.obj, "hold released", covering, by, fields)
    for finding in left.findings:
        if finding.stops:
            print(f"STILL STOPS {finding.about}: {finding.says}")


@app.command()
def waive(
    ctx: typer.Context,
    covering: Annotated[str, typer.Argument(metavar="COVERING", help="Its tag.")],
    rule: Annotated[str, typer.Argument(metavar="RULE", help="As ready names it.")],
    by: By,
    second: Second,
    reason: Annotated[str, typer.Option("--reason", help="Why the work goes on all the same.")],
    tags: Annotated[
        list[str] | None, typer.Argument(metavar="TAG…", help="What it is waived of.")
    ] = None,
) -> None:
    """
    Record that two people answer for what is missing, by rule, tag and reason.

    The finding stays told for ever, as waived; it stops nothing any more.

    Example: asburied waive FILL-LK "no lapsed proof" SM-2 --by ld --second gc --reason "no way in"

    Exit status is 0 if it was recorded, 1 if it was not, 2 if the command itself was wrong.
    """
    from record.checks import explain, rule_named

    _two(by, second)
    found = rule_named(rule)
    if not tags:
        said = f'waive {covering} "{found.word if found else "RULE"}" {"TAG" if found else rule}'
        raise Refused(
            f"name the rule, then what it is waived of: asburied {said}; {covering}'s "
            f"are told by `asburied ready {covering}`",
            2,
        )
    if found is None:
        raise Refused(explain(rule), 2)
    _readiness(ctx.obj, covering)
    fields = [("rule", found.word), ("tags", ", ".join(tags)), ("reason", reason)]
    _record(ctx.obj, "hold waived", covering, by, [*fields, ("second", second)])


def _two(by: str, second: str) -> None:
    if by.casefold().strip() == second.casefold().strip():
        raise Refused(f"{by} cannot be their own second", 2)


def _readiness(record: Place, covering: str) -> Readiness:
    from record.checks import NoSuchCovering, ready

    try:
        return ready(view(record, None, None, "owner"), covering)
    except NoSuchCovering as fault:
        raise Refused(str(fault)) from fault


def _record(record: Place, word: str, tag: str, by: str, fields: list[tuple[str, str]]) -> None:
    """Post the block, at this hour where the site is: without it, its order is not known."""
    from zoneinfo import ZoneInfo

    from record.readers import look

    entries = read_entries(record)
    _, zone = today_there(look(entries))
    clock = now().astimezone(ZoneInfo(zone)).strftime("%H:%M")
    said = [("at", clock), ("by", by), *fields]
    lines = [f"- {key}: {' '.join(value.split())}" for key, value in said]
    record_block(record, own_sheet(entries, [f"## {word} {tag}", "", *lines], by))
