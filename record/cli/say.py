"""asburied say"""

from __future__ import annotations

import hashlib
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from record.cli.app import EMPTY, Refused, app
from record.cli.asking import clock, now, on_terminal, read_entries, salt

if TYPE_CHECKING:
    from record.entry import Entry
    from record.facts import Kind
    from record.facts.values import Value
    from record.log import Place
    from record.posting import Posted


Fields = list[tuple[str, str]]


@app.command()
def say(
    ctx: typer.Context,
    kind: Annotated[str, typer.Argument(help="What it is or what happened, such as valve.")],
    writer: Annotated[str, typer.Option("--writer", help="Who writes it down.")],
    about: Annotated[
        list[str] | None, typer.Argument(metavar="[TAG] [FIELD=VALUE]…", show_default=False)
    ] = None,
    on: Annotated[
        str | None, typer.Option("--on", "--day", help="The day it is true of; else today.")
    ] = None,
) -> None:
    """
    Record one fact without a sheet.

    Fields are given as FIELD=VALUE, with the same words and units as in a sheet; at, did, saw,
    mends and because too. On a terminal, what is missing is asked for, and what was understood
    is read back in both unit systems before it is recorded: each line can still be changed.

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
        raise Refused(EMPTY)
    tag, fields = _parted(entries, found, about or [])
    if on_terminal():
        tag, fields = _asked(entries, found, tag, fields)
        _settle(ctx.obj, entries, found, tag, fields, writer, on)
    else:
        record_block(ctx.obj, _sheet(entries, found, tag, fields, writer, on))


def record_block(record: Place, text: str) -> None:
    """Post a sheet of one block, and read back what it was understood to say."""
    posted = _posted(record, text)
    if not posted.recorded:
        print(f"already recorded as {posted.already[0].number}; nothing new")
    for entry in posted.recorded[:-1]:
        for line in read_back(entry):
            print(line)


def _posted(record: Place, text: str) -> Posted:
    from record.log import Log
    from record.posting import post as post_sheet

    with Log.open(record) as log:
        return post_sheet(log, "say", text.encode(), folder=Path(), clock=clock(), salt=salt())


def _settle(
    record: Place,
    entries: tuple[Entry, ...],
    kind: Kind,
    tag: str,
    fields: Fields,
    writer: str,
    on: str | None,
) -> None:
    """Show what is understood until it is right, then record it; a fault is shown and mended."""
    from record.cli.prompts import answer
    from record.sheets import SheetRejected

    while True:
        text = _sheet(entries, kind, tag, fields, writer, on)
        print(f"\n{kind.word} {tag}".rstrip())
        for number, line in enumerate(_understood(text, fields), start=1):
            print(f"  {number}  {line}")
        said = answer("Enter records it; a number changes that line; Ctrl-C leaves it: ")
        if said.isdecimal() and 1 <= int(said) <= len(fields):
            fields = _changed(entries, kind, fields, int(said) - 1)
        elif not said:
            try:
                record_block(record, text)
            except SheetRejected as fault:
                for each in fault.faults:
                    print(f"{each.problem}. {each.remedy}")
                if not fields:
                    raise
            else:
                return


def _changed(entries: tuple[Entry, ...], kind: Kind, fields: Fields, place: int) -> Fields:
    """Ask for one line again; the others stay."""
    from record.cli.prompts import answer, ask_field
    from record.fold import fold

    key, _ = fields[place]
    field = kind.field(key.casefold())
    said = ask_field(fold(entries), kind, field) if field else answer(f"{key}: ")
    return [*fields[:place], (key, said), *fields[place + 1 :]]


def _understood(text: str, fields: Fields) -> list[str]:
    """Return each field as it is understood, measured values in both unit systems."""
    from record.sheets import SheetRejected, read_sheet

    try:
        draft = next(iter(read_sheet("say", text.encode()).drafts), None)
    except SheetRejected as fault:
        print("; ".join(each.problem for each in fault.faults))
        draft = None
    lines = []
    for key, said in fields:
        name = key.casefold().replace(" ", "_")
        value = draft.body.get(name) if draft else None
        words = said if draft is None or value is None else value_words(draft.kind, name, value)
        lines.append(f"{key}: {words}")
    return lines


def _parted(
    entries: tuple[Entry, ...], kind: Kind, about: list[str]
) -> tuple[str, list[tuple[str, str]]]:
    """Return the tag and the fields; the words of a remark need no field's name before them."""
    if kind.word == "remark" and about and "=" not in "".join(about):
        tagged = len(about) > 1 and any(e.content and e.content.about == about[0] for e in entries)
        words = " ".join(about[1:] if tagged else about)
        return about[0] if tagged else "", [("text", words)]
    tag = about[0] if about and "=" not in about[0] else ""
    fields = []
    for piece in about[1 if tag else 0 :]:
        key, sign, value = piece.partition("=")
        if not sign:
            raise Refused(_not_a_field(kind, piece), 2)
        fields.append((key.strip(), value.strip()))
    return tag, fields


def _asked(entries: tuple[Entry, ...], kind: Kind, tag: str, fields: Fields) -> tuple[str, Fields]:
    """Ask for the tag and the needed fields that were not given, each until it can be read."""
    from record.cli.prompts import ask_field, ask_tag
    from record.facts import Sort
    from record.fold import fold

    built = fold(entries)
    given = {key.casefold().replace("_", " ") for key, _ in fields}
    if "mends" in given:
        return tag, fields
    thing = built.thing(tag.partition("/")[0])
    if not tag or (kind.sort is not Sort.THING and thing is None):
        tag = ask_tag(built, kind, tag)
    known = kind.sort is Sort.THING and built.thing(tag) is not None
    for field in kind.fields:
        level = field.key == "level" and given & {"invert", "centre", "crown"}
        if field.needed and not known and field.key not in given and not level:
            fields = [*fields, (field.key, ask_field(built, kind, field))]
    if not fields:
        raise Refused(f"nothing was said of {tag}; give FIELD=VALUE, such as size=6 in")
    return tag, fields


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


def read_back(entry: Entry, names: set[str] | None = None) -> list[str]:
    """
    Return what an entry was understood to say, measured values in both unit systems.

    Of all its fields, or of those in ``names``. Nothing where its content is not here.
    """
    from record.facts import STORED
    from record.facts.values import from_json

    content = entry.content
    if content is None:
        return []
    kind = STORED.get(content.kind)
    if kind is None:
        return []
    moment = f"{content.on} {content.at}" if content.at else content.on
    lines = [f"{entry.number}: {kind.word} {content.about}, {moment}"]
    for name, form in content.body.items():
        if names is not None and name not in names:
            continue
        lines.append(f"  {name.replace('_', ' ')}: {value_words(kind, name, from_json(form))}")
    return lines


def value_words(kind: Kind, name: str, value: Value) -> str:
    """Return a value as it was written, and where it is measured in both unit systems."""
    from record.facts.sizes import Measure
    from record.facts.values import Level, in_words
    from record.units import Dimension, Quantity, in_both

    words, field = in_words(value), kind.field(name)
    if isinstance(value, Quantity) and field and isinstance(field.holds, Measure):
        return f"{words} = {in_both(value, field.holds.dimension)}"
    if isinstance(value, Level):
        return f"{words} = {in_both(value.height, Dimension.LENGTH)}"
    return words


def _not_a_field(kind: Kind, piece: str) -> str:
    keys = [field.key for field in kind.fields] or ["because"]
    first = next((field.key for field in kind.fields if field.needed), keys[0])
    more = f", or with another of {', '.join(keys)}" if len(keys) > 1 else ""
    return f'"{piece}" says no field: write it as "{first}={piece}"{more}'


def _unknown(kind: str) -> str:
    from record.sheets import nearest_kind

    hint = nearest_kind(kind.split()) or "`asburied blank kinds` lists them; or say it as a remark."
    return f'"{kind}" is not a kind of fact. {hint}'
