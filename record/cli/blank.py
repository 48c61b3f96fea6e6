"""asburied blank"""

from __future__ import annotations

import re
from datetime import date, timedelta
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from record.cli.app import EMPTY, Refused, app
from record.cli.asking import Reader, today_there, view

if TYPE_CHECKING:
    from record.blank import Block
    from record.facts import Kind
    from record.fold import AsBuilt
    from record.readers import View


TOMORROW, HANDOVER, ALL = "tomorrow", "handover", "kinds"


@app.command()
def blank(
    ctx: typer.Context,
    what: Annotated[
        str,
        typer.Argument(
            metavar="KIND|TAG|tomorrow|handover|kinds",
            help="A kind, such as run; a covering's tag; or a word below.",
        ),
    ],
    tag: Annotated[str, typer.Argument(metavar="[TAG]", help="The thing it is about.")] = "",
    writer: Annotated[str, typer.Option("--writer", help="Who writes it; else a gap.")] = "",
    day: Annotated[
        str | None, typer.Option("--day", metavar="DAY", help="The day of the sheet; else today.")
    ] = None,
    out: Annotated[
        Path | None, typer.Option("--out", metavar="FILE", help="Write it there, not over a file.")
    ] = None,
    reader: Reader = "owner",
) -> None:
    """
    Print a day sheet to fill in, on paper or in an editor.

    For a kind: every field it has. What the record knows of the thing stands beside as hints,
    which are not recorded again; what is missing is a gap. For a covering: all that ready
    still wants before it, and its release. For tomorrow: the same for every covering that may
    go on by then, the water, what must come off. For handover: what the manual still lacks.
    A gap that was not filled is refused. kinds lists every kind, and what each is.

    Example: asburied --record larch-end blank FILL-TR --writer ld --out today.md

    Exit status is 0 if it was printed, 1 if there is no such thing or the file is there already,
    2 if the command itself was wrong.
    """
    from record.blank import Form, kinds_words, write

    if what == ALL and not tag:
        for line in kinds_words():
            print(line)
        return
    seen = view(ctx.obj, None, None, reader)
    on, zone = today_there(seen, day)
    first = not seen.built.entries
    if first:
        title, notes, blocks = _first(seen, what, tag)
    elif what == TOMORROW and not tag and seen.built.thing(what) is None:
        tonight = on if day is None else _moved(on, -1)
        on = _moved(tonight, 1)
        title, notes, blocks = _tomorrow(seen, tonight)
    elif what == HANDOVER and not tag and seen.built.thing(what) is None:
        title, notes, blocks = _handover(seen)
    else:
        title, notes, blocks = _asked(seen, what, tag)
    form = Form(
        day=on,
        writer=writer,
        part=part_for(seen, on, title),
        site=seen.built.site or (tag if what == "site" else ""),
        zone="" if first else zone,
        notes=notes,
        blocks=blocks,
    )
    _give(write(form), out)


Asked = tuple[str, tuple[str, ...], tuple["Block", ...]]


def _first(seen: View, what: str, tag: str) -> Asked:
    """Return the first sheet of a record, which is of a kind: nothing has a tag yet."""
    if _kind(what) is None:
        raise Refused(EMPTY)
    return _asked(seen, what, tag)


def _moved(day: str, days: int) -> str:
    return (date.fromisoformat(day) + timedelta(days=days)).isoformat()


def _tomorrow(seen: View, tonight: str) -> Asked:
    from record.blank import of_tomorrow
    from record.evening import evening

    notes = (f"What stands open on the evening of {tonight}.",)
    return TOMORROW, notes, of_tomorrow(seen, evening(seen, tonight))


def _handover(seen: View) -> Asked:
    from record.blank import of_handover
    from record.checks import HANDOVER_RULES

    found = [one for rule in HANDOVER_RULES for one in rule.find(seen)]
    return HANDOVER, ("Before the work is handed over.",), of_handover(seen, found)


def _asked(seen: View, what: str, tag: str) -> Asked:
    """Return what the sheet is called, its notes and its blocks. Raises Refused."""
    from record.blank import of_covering, of_kind

    kind = _kind(what)
    thing = seen.built.thing(what)
    if kind is None and not tag and thing is not None:
        if thing.kind.word == "covering":
            return what, (f"Before {what} goes on, as the record stands.",), of_covering(seen, what)
        kind, tag = thing.kind, what
    if kind is None:
        raise Refused(_no_such(seen.built, what))
    about = _about(seen.built, kind, tag)
    return f"{kind.word} {about}", (), (of_kind(seen.built, kind, about),)


def _kind(word: str) -> Kind | None:
    from record.blank import NO_FORM
    from record.facts import KINDS
    from record.facts.faults import plain

    name = plain(word)
    kind = KINDS.get(name) or KINDS.get(name.replace("-", " "))
    if kind is not None and kind.word in NO_FORM:
        raise Refused(f"there is no form for {kind.word}: {NO_FORM[kind.word]}")
    if kind is not None and kind.key:
        whole = next(each.word for each in KINDS.values() if each.rows is kind)
        raise Refused(f"a {kind.word} is a row of a {whole}: `asburied blank {whole} TAG`")
    return kind


def _about(built: AsBuilt, kind: Kind, tag: str) -> str:
    """Return the tag a form is for; a site has only its own. Raises Refused."""
    from record.facts import Sort
    from record.facts.named import TAG

    if tag and not TAG.fullmatch(tag):
        raise Refused(f'"{tag}" is not a tag, such as AIR-IN', 2)
    if kind.word == "site" or (kind.tagless and not tag):
        return built.site or tag
    thing = built.thing(tag)
    if kind.sort is Sort.THING:
        if thing is not None and thing.kind is not kind:
            raise Refused(f"{tag} is a {thing.kind.word}, not a {kind.word}")
    elif tag and thing is None:
        raise Refused(_no_such(built, tag))
    elif thing is not None and kind.about and thing.kind.word not in kind.about:
        raise Refused(f"{kind.word} is said of a {' or '.join(kind.about)}, not of {tag}")
    return tag


def _no_such(built: AsBuilt, word: str) -> str:
    from difflib import get_close_matches

    from record.facts import KINDS
    from record.sheets.trade_words import told

    if meant := told(word):
        return f'"{word}" is neither a kind nor a tag of this record. {meant}'
    names = {name.casefold(): name for name in (*KINDS, *built.things)}
    near = [names[found] for found in get_close_matches(word.casefold(), names, 3, 0.6)]
    hint = (
        f"did you mean {' or '.join(near)}?" if near else "`asburied blank kinds` lists the kinds"
    )
    return f'"{word}" is neither a kind nor a tag of this record; {hint}'


def part_for(seen: View, day: str, title: str) -> str:
    """Return a part of the day that no posted sheet has yet, or the two would be compared."""
    part = re.sub(r"[^a-z0-9]+", "-", title.casefold()).strip("-")[:26] or "form"
    taken = _taken(seen, day)
    return next(
        each for each in (part, *(f"{part}-{n}" for n in range(2, 1000))) if each not in taken
    )


def _taken(seen: View, day: str) -> set[str]:
    found = set()
    for entry in seen.built.entries:
        source = (entry.content.source or {}) if entry.content else {}
        words = str(source.get("sheet", "")).split()
        if words[:1] == [day]:
            found.update(words[2:])
    return found


def _give(text: str, out: Path | None) -> None:
    if out is None:
        print(text, end="")
        return
    try:
        with out.open("x", encoding="utf-8") as file:
            file.write(text)
    except FileExistsError as fault:
        raise Refused(f"{out} is there already, and may be half filled in") from fault
    print(f"{out}: fill it in, then `asburied post {out}`")
