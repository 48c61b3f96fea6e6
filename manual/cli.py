"""The console script: the record's commands, and the manual's beside them."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from manual.brief import command as brief_command  # noqa: F401  each mounts its command
from manual.brief import profile as profile_command  # noqa: F401
from record.cli import Refused, app, run
from record.cli.app import EMPTY
from record.cli.asking import Json, Reader, clock, now, read_entries, salt, tell, view

if TYPE_CHECKING:
    from manual.languages import Language

InLanguage = Annotated[
    str,
    typer.Option(
        "--language", metavar="TAG|FOLDER", help="A language, or the folder of a translation."
    ),
]

manual = typer.Typer(
    name="manual", no_args_is_help=True, rich_markup_mode=None, pretty_exceptions_enable=False
)
app.add_typer(manual)


def main() -> None:
    """Run ``asburied``."""
    run(app)


@manual.callback()
def about() -> None:
    """
    Issue the owner's manual, and list the editions.

    Example: asburied --record larch-end manual issue --writer of --out .

    Exit status is 0 when done, 1 when something is wrong, 2 when the command itself was wrong.
    """


@manual.command()
def issue(
    ctx: typer.Context,
    writer: Annotated[str, typer.Option("--writer", help="Who issues it.")] = "of",
    reader: Reader = "owner",
    out: Annotated[
        Path | None,
        typer.Option("--out", metavar="FOLDER", help="Also put the files here, by their names."),
    ] = None,
    again: Annotated[
        bool, typer.Option("--again", help="Issue one even though nothing is new.")
    ] = False,
    in_language: InLanguage = "en",
) -> None:
    """
    Issue the next edition: PDF, one HTML file, the upkeep calendar, and the emergency pages by
    themselves, as a small HTML file for a phone and as cards.

    The files are kept in the record by their hashes, and an entry says what the edition rests
    on. The same record gives the same bytes.

    Example: asburied --record larch-end manual issue --writer of --out .

    Exit status is 0 if it was issued or nothing is new, 1 if it could not be, 2 if the command
    itself was wrong.
    """
    from zoneinfo import ZoneInfo

    from manual.chapter import ChapterFault
    from manual.handing import copied_to, kept_at, tell_issued
    from manual.issue import NothingNew, NotIssued
    from manual.issue import issue as issue_edition
    from manual.languages import speaking
    from manual.plans.pictures import PictureFault
    from manual.printing.press import PressFault
    from record.fold import zone_of
    from record.log import Log

    _known_reader(reader)
    with speaking(_language(in_language)), Log.open(ctx.obj) as log:
        zone = ZoneInfo(zone_of(log.entries()))
        try:
            issued = issue_edition(
                log,
                writer=writer,
                reader=reader,
                clock=clock(),
                salt=salt(),
                progress=_progress,
                again=again,
                today=lambda: now().astimezone(zone).date().isoformat(),
            )
        except NothingNew as fault:
            print(fault)
            return
        except (ChapterFault, PressFault, PictureFault, NotIssued) as fault:
            raise Refused(f"the manual was not issued: {fault}") from fault
        # Every copy is made before a word is printed: whoever reads along may leave early.
        places, failed = copied_to(issued, out) if out else ([], "")
        tell_issued(issued, places or kept_at(issued, log))
        if failed:
            raise Refused(failed)


def _language(asked: str) -> Language:
    from manual.languages import LanguageFault, language

    try:
        return language(asked)
    except LanguageFault as fault:
        raise Refused(str(fault)) from fault


def _known_reader(reader: str) -> None:
    from record.facts import READERS

    if reader not in READERS:
        raise Refused(f'"{reader}" is not a reader; readers are {", ".join(READERS)}', 2)


def _progress(number: int, words: str) -> None:
    """Say which stage it is at, on a terminal only."""
    if _on_terminal():
        print(f"  {number} of 6  {words}", file=sys.stderr)


def _on_terminal() -> bool:
    return sys.stderr.isatty()


@manual.command("list")
def list_editions(ctx: typer.Context, as_json: Json = False) -> None:
    """
    List the editions issued, newest last, and which of them stand.

    Example: asburied --record larch-end manual list

    Exit status is 0 once told, 1 if the record cannot be read, 2 if the command itself was wrong.
    """

    from manual.bound.editions import editions, last_for, since
    from record.entry.counted import entries_said

    entries = read_entries(ctx.obj)
    issued = editions(entries)
    form = []
    lines = []
    for edition in issued:
        stands = last_for(issued, edition.reader, edition.language) is edition
        newer = len(since(entries, edition))
        form.append(
            {
                "edition": edition.number,
                "reader": edition.reader,
                "language": edition.language,
                "recorded_to": edition.recorded_to,
                "superseded": not stands,
                "entries_since": newer,
                "checkpoint": edition.checkpoint,
                "pdf": edition.pdf,
                "html": edition.html,
                "calendar": edition.calendar,
                "emergency": edition.emergency,
                "cards": edition.cards,
                "entry": edition.entry.number,
            }
        )
        state = f"stands; {entries_said(newer)} since" if stands else "superseded"
        lines.append(
            f"edition {edition.number}  {edition.reader:10}  recorded to {edition.recorded_to}  "
            f"{state}  ({edition.entry.number})"
        )
    tell(lines or ["No edition was issued."], form, as_json)


@manual.command()
def compare(
    ctx: typer.Context,
    one: Annotated[int, typer.Argument(metavar="EDITION", help="Its number, such as 1.")],
    other: Annotated[int, typer.Argument(metavar="EDITION", help="The other's.")],
    out: Annotated[
        Path | None, typer.Option("--out", metavar="FILE", help="Write it as a page, FILE.html.")
    ] = None,
    as_json: Json = False,
    reader: Reader = "owner",
) -> None:
    """
    Tell what came between two editions: each entry, by the tag it is about.

    Example: asburied --record larch-end manual compare 1 3

    Exit status is 0 once told, 1 if there is no such edition or the page cannot be written, 2 if
    the command itself was wrong.
    """
    from manual.bound.editions import editions
    from manual.compare import between, form, page, words

    seen = view(ctx.obj, None, None, reader)
    issued = {edition.number: edition for edition in editions(seen.built.entries)}
    for number in (one, other):
        if number not in issued:
            there = ", ".join(map(str, issued)) or "none was issued"
            raise Refused(f"there is no edition {number}; editions: {there}")
    found = between(seen, issued[one], issued[other])
    if out is not None:
        from manual import theme
        from manual.languages import spoken
        from manual.printing import press

        text = press.plain_page(
            page(found), title=found.heading, lang=spoken().code, css=theme.stylesheet()
        )
        try:
            with out.open("x", encoding="utf-8") as file:
                file.write(text)
        except OSError as fault:
            raise Refused(f"{out}: {fault.strerror or fault}; nothing was written") from fault
    tell(words(found), form(found), as_json)


@manual.command()
def check(
    ctx: typer.Context,
    as_json: Json = False,
    reader: Reader = "owner",
    in_language: InLanguage = "en",
) -> None:
    """
    Lay the manual out as it would be printed now, and read it over: each finding with its page
    and what to do.

    It finds tags that the record does not have and things that no page names, links that lead
    nowhere, words that run out of their place or are too faint, and pictures that say nothing.
    Blanks to fill in, drafts and what is not settled are told too, and are no fault of the manual.

    Example: asburied --record larch-end manual check

    Exit status is 0 if nothing is to be mended, 1 if something is or a chapter cannot be written,
    2 if the command itself was wrong.
    """
    from manual.chapter import ChapterFault
    from manual.check import check as read_over
    from manual.check import form, told
    from manual.issue import kept_photos
    from manual.languages import speaking
    from manual.plans.pictures import PictureFault
    from record.answers.unsettled import unsettled
    from record.log import Log
    from record.reserved import carried_in

    _known_reader(reader)
    spoken_in = _language(in_language)
    try:
        with speaking(spoken_in), Log.open(ctx.obj) as log:
            if not (entries := log.entries()):
                raise Refused(EMPTY)
            packed = carried_in(log.files, entries)
            book, found = read_over(
                entries, reader, _progress, kept=kept_photos(log), packed=packed
            )
    except (ChapterFault, PictureFault) as fault:
        raise Refused(str(fault)) from fault
    lines = ["Every chapter can be written.", *told(found)]
    lines += [f"Said in English, not in {spoken_in.code}: {lacking}" for lacking in spoken_in.lacks]
    if open_points := unsettled(book.view.built):
        lines += [f"Not settled: {one.words}" for one in open_points]
        lines.append("  It is printed as not settled, until one entry that names both mends both.")
    wrong = sum(one.stops for one in found)
    lines.append(f"{wrong} to mend." if wrong else "Nothing to mend.")
    tell(lines, form(found), as_json)
    if wrong:
        raise typer.Exit(1)


if __name__ == "__main__":
    main()
