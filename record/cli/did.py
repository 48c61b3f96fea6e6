"""asburied did"""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches
from typing import TYPE_CHECKING, Annotated

import typer

from record.cli.app import Refused, app
from record.cli.asking import now, view
from record.cli.say import own_sheet, record_block

if TYPE_CHECKING:
    from record.readers import View
    from record.upkeep import Due


@app.command()
def did(
    ctx: typer.Context,
    task: Annotated[str, typer.Argument(help="Its word in the list, such as drain-clearing.")],
    tag: Annotated[str, typer.Argument(help="Of which thing.")],
    writer: Annotated[str, typer.Option("--writer", help="Who writes it down.")],
    failed: Annotated[
        bool, typer.Option("--failed", help="It did not pass: it stays due until retested.")
    ] = False,
    found: Annotated[str | None, typer.Option("--found", help="What was found.")] = None,
    reading: Annotated[str | None, typer.Option("--reading", help="What was read.")] = None,
    left_as: Annotated[
        str | None, typer.Option("--left-as", help="How valves and switches were left.")
    ] = None,
    photo: Annotated[
        list[str] | None,
        typer.Option("--photo", metavar="FILE", help="A picture, such as of the filled card."),
    ] = None,
    typed_by: Annotated[
        str | None, typer.Option("--typed-by", help="Who typed it, if from a filled card.")
    ] = None,
    on: Annotated[
        str | None, typer.Option("--on", "--day", help="The day it was done; else today.")
    ] = None,
    at: Annotated[str | None, typer.Option("--at", help="The hour it was done.")] = None,
) -> None:
    """
    Write down that a task of upkeep was done: only that task of that thing is off the list.

    With --failed it stays due until a later pass. Nothing said means not done, never done.

    Example: asburied did drain-clearing D-2 --writer ow --reading "5.0 L in, 4.8 L out"

    Exit status is 0 if it was recorded or was there already, 1 if it was not, 2 if the command
    itself was wrong.
    """
    from record.upkeep.services import named

    seen = view(ctx.obj, None, None, "owner")
    word = _asked_for(seen, named(task), tag)
    fields = {
        "task": word,
        "at": at,
        "result": "failed" if failed else "passed",
        "found": found,
        "reading": reading,
        "left as": left_as,
        "typed by": typed_by,
    }
    block = _block(f"serviced {tag}", fields.items())
    for file in photo or ():
        shown = (("file", file), ("caption", f"{word} of {tag}"), ("shows", tag))
        block += ["", *_block("photographed", shown)]
    record_block(ctx.obj, own_sheet(tuple(seen.built.entries), block, writer, on))
    _tell_next(view(ctx.obj, None, None, "owner"), word, tag)


def _block(heading: str, fields: Iterable[tuple[str, str | None]]) -> list[str]:
    return [f"## {heading}", "", *(f"- {key}: {said}" for key, said in fields if said)]


def _asked_for(seen: View, word: str, tag: str) -> str:
    """Return the task's word. Raises Refused with what comes near where the thing has no such."""
    from record.answers.found import find_thing
    from record.upkeep import catalogue
    from record.upkeep.services import named

    find_thing(seen, tag)
    titles = {named(one.title): one.word for one in catalogue().values()}
    known = titles.get(word, word)
    mine = [one.task.word for one in _due_of(seen, tag)]
    if known in mine:
        return known
    theirs = ", ".join(get_close_matches(word, mine, 3, 0.4) or mine) or "none"
    raise Refused(f'{tag} has no task "{word}"; its tasks: {theirs}')


def _due_of(seen: View, tag: str) -> tuple[Due, ...]:
    from zoneinfo import ZoneInfo

    from record.fold import zone_of
    from record.upkeep import due

    today = now().astimezone(ZoneInfo(zone_of(seen.built.entries))).date()
    return tuple(one for one in due(seen, today=today) if one.about == tag)


def _tell_next(seen: View, word: str, tag: str) -> None:
    for one in _due_of(seen, tag):
        if one.task.word == word:
            why = "; it failed, and is due until it is retested" if one.failed else ""
            print(f"next due {one.due}{why}")
