"""asburied merge"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Annotated, Any

import typer

from record.cli.app import app, place
from record.cli.asking import Json, now, tell

if TYPE_CHECKING:
    from record.entry import Entry
    from record.log import Merged

SHOWN = 12  # files that are missing, by name


@app.command()
def merge(
    ctx: typer.Context,
    others: Annotated[
        list[str],
        typer.Argument(
            metavar="OTHER…",
            help="Other copies: folders of records or of lines, or postgresql://…#SITE.",
        ),
    ],
    dry_run: Annotated[
        bool, typer.Option("--dry-run", help="Tell what would come, and take nothing.")
    ] = False,
    as_json: Json = False,
) -> None:
    """
    Take in what other copies of this record hold: two people wrote without signal.

    Lines come byte for byte, kept files with them; all of it comes or nothing. Each line is held
    against its hash first. In any order, and again, the result is the same. Nothing is chosen:
    two entries of one number are both kept, as ld-17/a3f2 and ld-17/09c1.

    Example: asburied --record larch-end merge /media/stick/larch-end

    Exit status is 0 if it was merged or nothing was new, 1 if it was refused (another site, a
    line that does not match), 2 if the command itself was wrong.
    """
    from record.cli.reserved import Told, reserved_of
    from record.log import Log, handed_over
    from record.log import merge as take_in
    from record.posting.clock import instant

    handed = [handed_over(place(other)) for other in others]
    with Log.open(ctx.obj) as log:
        merged = take_in(log, handed, received=instant(now()), dry_run=dry_run)
        copies = any(entry.content is None for other in handed for entry in other.entries)
        reserved = reserved_of(log.files, log.entries()) if copies and not dry_run else Told()
    wrong = reserved.words if reserved.faulty else ()
    tell([*_words(merged, dry_run), *wrong], _form(merged, dry_run), as_json)


def _words(merged: Merged, dry_run: bool) -> Iterator[str]:
    from record.entry.counted import entries_said

    came = "would come" if dry_run else "came"
    links, contents = merged.union.links, merged.union.contents
    if not (links or contents or merged.files):
        yield "Nothing new: this record holds all of it already."
    else:
        new = {entry.hash for entry in links}
        older = sum(1 for entry in contents if entry.hash not in new)
        words = [f"{entries_said(len(links))} {came}" + (f": {_runs(links)}" if links else "")]
        if older:
            content = f"the content of {entries_said(older)}"
            words.append(f"{content} {came}, of which only the link was here")
        if merged.files:
            words.append(f"{len(merged.files)} files {came}")
        yield "; ".join(words) + "."
    for twins in merged.union.forks:
        yield (
            f"{' and '.join(e.number for e in twins)}: one number, {len(twins)} entries; "
            "all are kept, and all count."
        )
    for entry in merged.union.broken:
        yield f"{entry.number} rests on an entry that is not here."
    if merged.absent:
        shown = ", ".join(name[: name.index("/") + 13] + "…" for name in merged.absent[:SHOWN])
        yield f"{len(merged.absent)} files were not in any copy: {shown}"


def _runs(entries: Sequence[Entry]) -> str:
    """Return numbers by writer, those in a row told by the first and the last."""
    runs: list[tuple[Entry, Entry]] = []
    for entry in sorted(entries, key=lambda e: (e.link.writer, e.link.seq, e.hash)):
        last = runs[-1][1].link if runs else None
        if last and last.writer == entry.link.writer and entry.link.seq - last.seq in (0, 1):
            runs[-1] = (runs[-1][0], entry)
        else:
            runs.append((entry, entry))
    return ", ".join(a.place if a is b else f"{a.place} to {b.place}" for a, b in runs)


def _form(merged: Merged, dry_run: bool) -> dict[str, Any]:
    union = merged.union
    return {
        "taken": not dry_run,
        "entries": [entry.place for entry in union.links],
        "contents": len(union.contents),
        "files": list(merged.files),
        "files_absent": list(merged.absent),
        "forks": [[entry.number for entry in twins] for twins in union.forks],
        "rests_on_nothing_here": [entry.number for entry in union.broken],
    }
