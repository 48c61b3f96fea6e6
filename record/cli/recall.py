"""asburied recall"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Annotated

import typer

from record.cli.app import Refused, app
from record.cli.asking import AsOf, Json, KnownAt, Reader, check_day, tell

if TYPE_CHECKING:
    from record.entry import Entry
    from record.readers import View
    from record.recall import Recall
    from record.recall.meaning import Asks


@app.command()
def recall(
    ctx: typer.Context,
    what: Annotated[
        str, typer.Argument(help="A lot, a maker's part, or the number of a notice on record.")
    ],
    part: Annotated[
        str | None, typer.Option("--part", help="The maker's part that the lot is of.")
    ] = None,
    kind: Annotated[
        str | None, typer.Option("--kind", help="What it is, such as valve, where no record says.")
    ] = None,
    every: Annotated[
        bool, typer.Option("--every", help="List each piece that is ruled out, not their count.")
    ] = False,
    as_json: Json = False,
    known_at: KnownAt = None,
    as_of: AsOf = None,
    reader: Reader = "owner",
) -> None:
    """
    Say which pieces are of a lot or a maker's part, over all records in a folder or database.

    Four lists: has it, replaced, not recorded (it cannot be ruled out), ruled out; then who was
    told, who is done, and whose copy of the manual needs a new edition. A recall, who was told
    and what was done are recorded as "recall noticed", "recall told" and "recall done".

    Example: asburied --record all-sites recall V-0291

    Exit status is 0 if nothing is left to do, 1 if a piece has it or may have it and nothing is
    recorded as done, or a record cannot be read, 2 if the command itself was wrong.
    """
    from record import answers
    from record.answers.saying import FURTHER, WHOLE
    from record.facts import KINDS, READERS
    from record.facts.kind import OWNER
    from record.recall import recall as ask
    from record.recall.many import asked_of, records_in, sites_at
    from record.recall.words import recall_words

    if reader not in READERS:
        raise Refused(f'"{reader}" is not a reader; readers are {", ".join(READERS)}', 2)
    if kind is not None and kind not in KINDS:
        raise Refused(f'"{kind}" is no kind of thing; write one such as valve or run', 2)
    day = check_day(as_of)

    def see(entries: Sequence[Entry]) -> View:
        from record.cli.known import known
        from record.readers import look

        there = known(entries, known_at)[0] if known_at else entries
        return look(there, reader, as_of=day)

    records = records_in(ctx.obj)
    further = WHOLE if reader == OWNER else FURTHER

    def answered(sites: Sequence[Asks], faults: Sequence[str]) -> Recall:
        return ask(
            sites,
            what,
            part=part,
            kind=kind,
            reader=reader,
            further=further,
            not_read=faults,
            every=every or as_json,
        )

    if reader == OWNER and not known_at and not day:
        answer = asked_of(ctx.obj, records, answered)
    else:
        answer = answered(*sites_at(records, see))
    then = {"as_known_at": known_at, "as_of": day}
    form = {**answers.json_form(answer), **then} if as_json else then
    head = [f"As known at {known_at}:"] if known_at else []
    head += [f"As it stood on {day}:"] if day else []
    tell([*head, *recall_words(answer, every=every)], form, as_json)
    if answer.not_read or any(at.open for at in answer.sites):
        raise typer.Exit(1)
