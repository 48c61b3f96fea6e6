"""asburied verify"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Annotated, Any

import typer

from record.cli.app import app
from record.cli.asking import Json, tell

if TYPE_CHECKING:
    from record.cli.points import Held
    from record.entry import Checkpoint, Entry
    from record.log import Log, Verdict
    from record.trust import Judged

SHOWN = 12  # of the entries whose content is missing
FORKED = "one number, two entries: two devices wrote as one, or a copy was restored; both count"
Files = tuple[tuple[str, str], ...]
Signatures = tuple["Judged", ...]


@app.command()
def verify(
    ctx: typer.Context,
    checkpoint: Annotated[
        str | None,
        typer.Option(
            metavar="HASH|FILE",
            help="Say whether the record still extends a checkpoint handed over earlier: its hash "
            "or first 8 digits, or a file of the lines printed under it.",
        ),
    ] = None,
    edition: Annotated[
        int | None,
        typer.Option(metavar="N", help="Say whether the record still extends an edition."),
    ] = None,
    as_json: Json = False,
) -> None:
    """
    Check every entry against its seal, every chain, every kept file and every signature.

    Names the first entry of each writer that does not match, and how many before it are sound;
    of each sign-off whether it holds, and how much was written since. A fork is told.
    The checkpoint at the end is the one that an edition of the manual carries. A chain cut at its
    end looks whole: only something handed over earlier shows it, by --checkpoint or --edition.

    Example: asburied --record larch-end verify --edition 1

    Exit status is 0 if all match, 1 if something does not, 2 if the command itself was wrong.
    """
    from record.cli.reserved import reserved_of
    from record.log import Log, checked
    from record.log.kept import missing_files
    from record.trust import judge

    with Log.open(ctx.obj) as log:
        found = checked(log)
        verdict, point = found.verdict, found.point
        files = missing_files(log.files, found.named)
        held = tuple(_held(log, found.entries, checkpoint, edition))
        reserved = reserved_of(log.files, found.entries)
    signed = judge(found.entries)
    words = [*_words(verdict, point, files, signed), *_held_words(held), *reserved.words]
    form = {**_form(verdict, point, files, signed), "held": [_held_form(one) for one in held]}
    form["sound"] = form["sound"] and not any(one.lacks for one in held)
    form |= {"reserved": reserved.form}
    form["sound"] = form["sound"] and not reserved.faulty
    tell(words, form, as_json)
    if not form["sound"]:
        raise typer.Exit(1)


def _held(
    log: Log, entries: tuple[Entry, ...], checkpoint: str | None, edition: int | None
) -> Iterator[Held]:
    """Yield what was handed over earlier, held against the record."""
    if checkpoint is None and edition is None:
        return
    from record.cli.points import of_checkpoint, of_edition, unread
    from record.log import LogFault

    try:
        entries = entries or log.entries()
    except LogFault:  # the verdict names the line
        yield unread()
        return
    if checkpoint is not None:
        yield of_checkpoint(checkpoint, entries, [(at, stored) for stored, at, *_ in log.lines()])
    if edition is not None:
        yield of_edition(edition, entries)


def _held_words(held: Sequence[Held]) -> Iterator[str]:
    from record.cli.points import words

    return words(held)


def _held_form(one: Held) -> dict[str, Any]:
    lacks = [{"entry": entry, "problem": what} for entry, what in one.lacks]
    return {"what": one.what, "extended": not lacks, "entries": one.entries, "lacks": lacks}


def _words(
    verdict: Verdict, point: Checkpoint | None, files: Files, signed: Signatures
) -> list[str]:
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
    lines += [line for one in signed for line in _signature(one)]
    total = sum(count for _, count in verdict.counts)
    chains = ", ".join(f"{writer} {count}" for writer, count in verdict.counts)
    if not total and verdict.sound and not files:
        lines.append("There are no entries yet.")
    elif verdict.sound and not files:
        one = "The one entry matches its seal"
        match = one if total == 1 else f"All {total} entries match their seals"
        lines.append(f"{match}: {chains}.")
    if verdict.without:
        lines += [
            f"This copy does not hold what {verdict.withheld} of them say: "
            + ", ".join(verdict.without[:SHOWN])
            + (", …" if verdict.withheld > SHOWN else "."),
            "  In a reader's copy that is as it should be, and editions for others are not missed;",
            "  in the owner's, something is gone.",
        ]
    if point:
        lines += ["Checkpoint " + point.hash, *("  " + line for line in point.text.splitlines())]
    return lines


def _signature(one: Judged) -> list[str]:
    """Tell a sign-off: what it is worth, then each chain it covers."""

    from record.entry.counted import entries_said

    mark = "" if one.standing == "good" else ": it does not count"
    why = f" ({one.why})" if one.why else ""
    lines = [f"{one.entry.number}: {one.day} signed off by {one.signer}: {one.standing}{why}{mark}"]
    for chain in one.covers:
        since = f"{entries_said(chain.since)} since" if chain.since else "nothing since"
        if chain.since_of_day:
            since += f", {chain.since_of_day} of them of that day"
        lines.append(f"  signed to {chain.to}; {chain.fault or since}")
    return lines


def _form(
    verdict: Verdict, point: Checkpoint | None, files: Files, signed: Signatures
) -> dict[str, Any]:
    return {
        "sound": verdict.sound and not files and not any(one.faulty for one in signed),
        "faults": [
            {"entry": f.entry, "problem": f.problem, "sound_before": f.sound_before}
            for f in verdict.faults
        ],
        "files": [{"entry": number, "problem": what} for number, what in files],
        "writers": dict(verdict.counts),
        "withheld": verdict.withheld,
        "without": list(verdict.without),
        "signatures": [
            {
                "entry": one.entry.number,
                "signer": one.signer,
                "day": one.day,
                "standing": one.standing.value,
                "why": one.why,
                "covers": [
                    {
                        "to": chain.to,
                        "head": chain.head.hash,
                        "since": chain.since,
                        "since_of_that_day": chain.since_of_day,
                        "fault": chain.fault,
                    }
                    for chain in one.covers
                ],
            }
            for one in signed
        ],
        "forks": [list(twins) for twins in verdict.forks],
        "checkpoint": point.hash if point else None,
    }
