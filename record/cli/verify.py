"""asburied verify"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import typer

from record.cli.app import app
from record.cli.asking import Json, tell

if TYPE_CHECKING:
    from record.entry import Entry
    from record.log import Verdict

SHOWN = 12  # of the entries whose content is missing
FORKED = "one number, two entries: two devices wrote as one, or a copy was restored; both count"
Files = tuple[tuple[str, str], ...]


@app.command()
def verify(ctx: typer.Context, as_json: Json = False) -> None:
    """
    Check every entry against its seal, every chain, and every kept file.

    Names the first entry of each writer that does not match, and how many before it are sound.
    The checkpoint at the end can be held against the one printed in an edition of the manual.

    Example: asburied --record larch-end verify

    Exit status is 0 if all match, 1 if something does not, 2 if the command itself was wrong.
    """
    from record.log import Log
    from record.log import verify as check
    from record.log.kept import missing_files

    with Log.open(ctx.obj) as log:
        verdict = check(log.lines())
        entries = log.entries() if verdict.sound else ()
        files = missing_files(log.folder, entries)
    tell(_words(verdict, entries, files), _form(verdict, entries, files), as_json)
    if not verdict.sound or files:
        raise typer.Exit(1)


def _words(verdict: Verdict, entries: tuple[Entry, ...], files: Files) -> list[str]:
    from record.entry import checkpoint

    lines = []
    for fault in verdict.faults:
        lines.append(f"{fault.entry}: {fault.problem}")
        before = f"the {fault.sound_before} entries" if fault.sound_before > 1 else "the entry"
        lines.append(
            f"  {before} of this writer before it match; what follows rests on it."
            if fault.sound_before
            else "  Nothing of this writer before it can be relied on."
        )
    lines += [f"{number}: {what}" for number, what in files]
    lines += [f"{' and '.join(twins)}: {FORKED}" for twins in verdict.forks]
    total = sum(count for _, count in verdict.counts)
    chains = ", ".join(f"{writer} {count}" for writer, count in verdict.counts)
    if verdict.sound and not files:
        lines.append(f"All {total} entries match their seals: {chains}.")
    if verdict.without:
        lines += [
            f"This copy does not hold what {verdict.withheld} of them say: "
            + ", ".join(verdict.without[:SHOWN])
            + (", …" if verdict.withheld > SHOWN else "."),
            "  In a reader's copy that is as it should be; in the owner's, something is gone.",
        ]
    if entries:
        point = checkpoint(entries[0].link.site, entries)
        lines += ["Checkpoint " + point.hash, *("  " + line for line in point.text.splitlines())]
    return lines


def _form(verdict: Verdict, entries: tuple[Entry, ...], files: Files) -> dict[str, Any]:
    from record.entry import checkpoint

    return {
        "sound": verdict.sound and not files,
        "faults": [
            {"entry": f.entry, "problem": f.problem, "sound_before": f.sound_before}
            for f in verdict.faults
        ],
        "files": [{"entry": number, "problem": what} for number, what in files],
        "writers": dict(verdict.counts),
        "withheld": verdict.withheld,
        "without": list(verdict.without),
        "forks": [list(twins) for twins in verdict.forks],
        "checkpoint": checkpoint(entries[0].link.site, entries).hash if entries else None,
    }
