"""asburied say"""

from __future__ import annotations

import hashlib
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from record.cli.app import Refused, app
from record.cli.asking import clock, now, on_terminal, read_entries, salt

if TYPE_CHECKING:
    from record.entry import Entry
    from record.facts import Kind


@app.command()
def say(
    ctx: typer.Context,
    kind: Annotated[str, typer.Argument(help="What it is or what happened, such as valve.")],
    about: Annotated[list[str], typer.Argument(metavar="[TAG] [FIELD=VALUE]…")],
    writer: Annotated[str, typer.Option("--writer", help="Who writes it down.")],
    on: Annotated[
        str | None, typer.Option("--on", help="The day it is true of; else today.")
    ] = None,
) -> None:
    """
    Record one fact without a sheet.

    Fields are given as FIELD=VALUE, with the same words and units as in a sheet; at, did, saw,
    mends and because too. On a terminal, what is missing is asked for. What was understood is
    read back in both unit systems.

    Example: asburied say "reading taken" DP-1 "what=water level" "reading=47.10 m" --writer ow

    Exit status is 0 if it was recorded or was there already, 1 if it was not, 2 if the command
    itself was wrong.
    """
    from record.facts import KINDS

    word = kind.casefold().replace("-", " ")
    found = KINDS.get(word) or KINDS.get(kind.casefold())
    if found is None or found.key:
        raise Refused(_unknown(kind), 2)
    entries = read_entries(ctx.obj)
    if not entries:
        raise Refused("the record is empty; post the first day sheet, which says which site it is")
    tag, fields = _parted(about)
    if on_terminal():
        fields += _asked(found, {key for key, _ in fields})
    record_block(ctx.obj, _sheet(entries, found, tag, fields, writer, on))


def record_block(record: Path, text: str) -> None:
    """Post a sheet of one block, and read back what it was understood to say."""
    from record.log import Log
    from record.posting import post as post_sheet

    with Log.open(record) as log:
        posted = post_sheet(log, "say", text.encode(), folder=Path(), clock=clock(), salt=salt())
    if not posted.recorded:
        print(f"already recorded as {posted.already[0].number}; nothing new")
    for entry in posted.recorded[:-1]:
        for line in read_back(entry):
            print(line)


def _parted(about: list[str]) -> tuple[str, list[tuple[str, str]]]:
    tag = about[0] if about and "=" not in about[0] else ""
    fields = []
    for piece in about[1 if tag else 0 :]:
        key, sign, value = piece.partition("=")
        if not sign:
            raise Refused(f'"{piece}" is not FIELD=VALUE', 2)
        fields.append((key.strip(), value.strip()))
    return tag, fields


def _asked(kind: Kind, given: set[str]) -> list[tuple[str, str]]:
    """Ask for the needed fields that were not given; an empty answer is "not recorded"."""
    answers = []
    for field in kind.fields:
        if field.needed and field.key not in given and "mends" not in given:
            answer = input(f"{field.key} ({field.holds.says}; empty is not recorded): ").strip()
            answers.append((field.key, answer or "not recorded"))
    return answers


def _sheet(
    entries: tuple[Entry, ...],
    kind: Kind,
    tag: str,
    fields: list[tuple[str, str]],
    writer: str,
    on: str | None,
) -> str:
    """Write the fact as a sheet of its own, so that it is read and refused like any other."""
    block = [f"## {kind.word} {tag}".rstrip(), "", *(f"- {key}: {value}" for key, value in fields)]
    return own_sheet(entries, block, writer, on)


def own_sheet(
    entries: tuple[Entry, ...], block: list[str], writer: str, on: str | None = None
) -> str:
    """Return a sheet of one block; the same words on the same day are the same sheet."""
    from zoneinfo import ZoneInfo

    from record.fold import zone_of

    zone = zone_of(entries)
    day = on or now().astimezone(ZoneInfo(zone)).date().isoformat()
    text = "\n".join(block)
    part = "say-" + hashlib.sha256(text.encode()).hexdigest()[:8]
    site = entries[0].link.site
    return f"# {day} {writer} {part}\n\n- site: {site}\n- zone: {zone}\n\n{text}\n"


def read_back(entry: Entry) -> list[str]:
    """Return what an entry was understood to say, measured values in both unit systems."""
    from record.facts import STORED
    from record.facts.fields import Measure
    from record.facts.values import Level, from_json, in_words
    from record.units import Dimension, Quantity, in_both

    content = entry.content
    if content is None:
        return []
    kind = STORED[content.kind]
    lines = [f"{entry.number}: {kind.word} {content.about}, {content.on}"]
    for name, form in content.body.items():
        value = from_json(form)
        words = in_words(value)
        field = kind.field(name)
        if isinstance(value, Quantity) and field and isinstance(field.holds, Measure):
            words += f" = {in_both(value, field.holds.dimension)}"
        elif isinstance(value, Level):
            words += f" = {in_both(value.height, Dimension.LENGTH)}"
        lines.append(f"  {name.replace('_', ' ')}: {words}")
    return lines


def _unknown(kind: str) -> str:
    from difflib import get_close_matches

    from record.facts import KINDS

    near = get_close_matches(kind.casefold(), KINDS, 1, 0.5)
    hint = f' Did you mean "{near[0]}"?' if near else ' Try "remark".'
    return f'"{kind}" is not a kind of fact.{hint}'
