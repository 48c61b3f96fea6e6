"""asburied amend"""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from record.cli.app import Refused, app
from record.cli.asking import read_entries
from record.cli.say import own_sheet, read_back, record_block

if TYPE_CHECKING:
    from record.entry import Entry

NUMBERS = Annotated[
    str, typer.Argument(metavar="ENTRY", help="Its number, such as ld-16; several with commas.")
]
BECAUSE = Annotated[str, typer.Option("--because", help="Why, in a few words.")]
WRITER = Annotated[str, typer.Option("--writer", help="Who writes it down.")]


@app.command()
def amend(
    ctx: typer.Context,
    entry: NUMBERS,
    fields: Annotated[
        list[str], typer.Argument(metavar="FIELD=VALUE…", help="What it really was.")
    ],
    because: BECAUSE,
    writer: WRITER,
) -> None:
    """
    Mend what an entry says, where it was never so; both stay, with the reason.

    Only what is named is mended, and it holds from the day of the entry. What was so and has
    changed since is not a mend: say it anew. Naming two entries settles a disagreement.

    Example: asburied amend ld-68 "crown=47.906 m" --because "it was the crown" --writer ld

    Exit status is 0 if it was recorded or was there already, 1 if it was not, 2 if the command
    itself was wrong.
    """
    entries = read_entries(ctx.obj)
    target = find_entry(entries, entry)
    content = target.content
    if content is None:
        raise Refused(f"{target.number} is withheld from this copy, so that it cannot be mended")
    parted = _parted(fields)
    block = _block(content.kind, content.about, entry, because, parted)
    record_block(ctx.obj, own_sheet(entries, block, writer))
    _tell_before(entries, entry, {_name(key) for key, _ in parted})


@app.command()
def withdraw(ctx: typer.Context, entry: NUMBERS, because: BECAUSE, writer: WRITER) -> None:
    """
    Take an entry back that was never so, where nothing takes its place; it stays, marked.

    Withdrawing a withdrawal restores what it took back.

    Example: asburied withdraw ld-70 --because "that was the other pipe" --writer ld

    Exit status is 0 if it was recorded or was there already, 1 if it was not, 2 if the command
    itself was wrong.
    """
    entries = read_entries(ctx.obj)
    find_entry(entries, entry)
    block = ["## withdrawn", "", f"- mends: {entry}", f"- because: {because}"]
    record_block(ctx.obj, own_sheet(entries, block, writer))
    _tell_before(entries, entry)


def _tell_before(entries: tuple[Entry, ...], numbers: str, names: set[str] | None = None) -> None:
    """Print what the entries said until now, in both unit systems: all of it, or some fields."""
    for number in numbers.split(","):
        before = find_entry(entries, number)
        lines = read_back(before, names)
        if lines[1:]:
            print("in place of what was said:", *lines, sep="\n")


def _name(key: str) -> str:
    """Return the field a key names, as an entry holds it: "crown" is of the level."""
    from record.facts.values import Part

    name = "_".join(key.casefold().split())
    return "level" if name in {part.value for part in Part} else name


def find_entry(entries: tuple[Entry, ...], numbers: str) -> Entry:
    """Return the first of the entries a person named by number. Raises Refused."""
    first = numbers.split(",")[0].strip()
    plain, _, mark = first.partition("/")
    found = [each for each in entries if each.place == plain and each.hash.startswith(mark)]
    if not found:
        raise Refused(f"this record has no entry {first}; `asburied entries` shows their numbers")
    if len(found) > 1:
        raise Refused(f"{first} stands twice; write {' or '.join(e.number for e in found)}")
    return found[0]


def _parted(fields: list[str]) -> list[tuple[str, str]]:
    parted = []
    for field in fields:
        key, sign, value = field.partition("=")
        if not sign:
            raise Refused(f'"{field}" is not FIELD=VALUE', 2)
        parted.append((key.strip(), value.strip()))
    return parted


def _block(
    kind: str, about: str, numbers: str, because: str, fields: list[tuple[str, str]]
) -> list[str]:
    """Write the mend as a block: fields of a thing, or the one row of a part."""
    from record.facts import KINDS, STORED

    head = [f"- mends: {numbers}", f"- because: {because}"]
    whole, slash, key = about.partition("/")
    known = STORED.get(kind)
    if known is None:
        raise Refused(f'{numbers} is of a kind "{kind}" this version cannot read')
    if not slash:
        lines = [f"- {name}: {value}" for name, value in fields]
        return [f"## {known.word} {about}", "", *head, *lines]
    parent = next(each for each in KINDS.values() if each.rows is known)
    columns = [known.key, *(name for name, _ in fields)]
    cells = [key, *(value.replace("|", "\\|") for _, value in fields)]
    return [
        f"## {parent.word} {whole}",
        "",
        *head,
        "",
        f"| {' | '.join(columns)} |",
        "|---" * len(columns) + "|",
        f"| {' | '.join(cells)} |",
    ]
