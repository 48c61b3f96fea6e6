"""asburied sign-off"""

from __future__ import annotations

import os
from collections.abc import Sequence
from typing import TYPE_CHECKING, Annotated

import typer

from record.cli.app import Refused, app
from record.cli.asking import clock, day_option, now, salt

if TYPE_CHECKING:
    from record.entry import Entry
    from record.log import Log
    from record.trust import Head, Key

TRIES = 5  # others may post between reading and signing


@app.command("sign-off")
def sign_off(
    ctx: typer.Context,
    day: Annotated[
        str | None, typer.Option("--day", help="The day that is signed; else today.")
    ] = None,
    signer: Annotated[
        str | None, typer.Option("--as", metavar="WRITER", help="Who signs, by the key here.")
    ] = None,
    chains: Annotated[
        list[str] | None,
        typer.Option(
            "--for", metavar="WRITER", help="Whose chain is signed; else one's own. Repeatable."
        ),
    ] = None,
) -> None:
    """
    Sign a day: an Ed25519 signature over a chain as it stands, by the key of this device.

    All that the chain says up to the end of that day is signed with it. To countersign, another
    writer names the chain with --for. What comes after stays unsigned, and verify says how much.

    Example: asburied --record larch-end sign-off --day 2022-05-20 --as ck --for ld

    Exit status is 0 if it was signed or was signed already, 1 if it could not be, 2 if the
    command itself was wrong.
    """
    from record.log import Log
    from record.posting import RecordGrew
    from record.trust import keys_folder, read_key

    who = signer or _only_key()
    key = read_key(keys_folder(os.environ), who)
    with Log.open(ctx.obj) as log:
        for _ in range(TRIES):
            try:
                print("\n".join(_signed(log, key, day, chains or [who])))
                return
            except RecordGrew:
                continue
    raise Refused("others keep writing to this record; try again in a moment")


def _only_key() -> str:
    from record.trust import keys_folder, readable_keys

    names = readable_keys(keys_folder(os.environ))
    if len(names) != 1:
        found = ", ".join(names) or "none; `asburied writer NAME --record` makes one"
        raise Refused(f"say who signs, with --as; keys on this device: {found}", 2)
    return names[0]


def _signed(log: Log, key: Key, day: str | None, chains: Sequence[str]) -> list[str]:
    """Sign and record it; return what to say. Raises RecordGrew, Refused."""
    from zoneinfo import ZoneInfo

    from record.fold import zone_of
    from record.posting import append_facts, own_fact
    from record.trust import message, said_heads

    entries = log.entries()
    if not entries:
        raise Refused("the record is empty; there is nothing to sign")
    zone = zone_of(entries)
    today = now().astimezone(ZoneInfo(zone)).date().isoformat()
    signed_day = day_option(day).isoformat() if day else today
    if signed_day > today:
        raise Refused(f"{signed_day} is in the future; today is {today}")
    heads = [_head(entries, writer, signed_day) for writer in dict.fromkeys(chains)]
    _may_sign(entries, key)
    words = ", ".join(f"{head.writer} to {head.writer}-{head.count}" for head in sorted(heads))
    if before := _before(entries, key, signed_day, heads):
        return [f"{signed_day} is signed already by {key.writer}: {before.number}; {words}"]
    site = entries[0].link.site
    said = {
        "signer": key.writer,
        "day": signed_day,
        "chains": said_heads(heads),
        "public_key": key.public,
        "signature": key.sign(message(site, key.writer, signed_day, heads)),
    }
    fact = own_fact(
        "signed off", said, site=site, zone=zone, day=today, writer=key.writer, command="sign-off"
    )
    entry = append_facts(log, fact, clock=clock(), salt=salt(), made_of=entries)[0]
    return [f"{entry.number}: {signed_day} signed off by {key.writer}; {words}"]


def _head(entries: Sequence[Entry], writer: str, day: str) -> Head:
    """Return how far a chain speaks of days up to ``day``; sign-offs at its end are left out."""
    from record.entry import tips
    from record.trust import Head

    tip = tips(entries).get(writer)
    here = {entry.hash: entry for entry in entries}
    at = tip[0] if tip else None
    while at is not None:
        told = at.content
        if told is None or (told.on <= day and told.kind != "signed-off"):
            return Head(writer, at.link.seq, at.hash)
        at = here.get(at.link.prev or "")
    raise Refused(f"{writer} wrote nothing of {day} or before; there is nothing to sign")


def _may_sign(entries: Sequence[Entry], key: Key) -> None:
    """Refuse a signature that would count for nothing."""
    from record.fold import mends, sight

    withdrawn = mends(entries, sight(entries)).withdrawn_by
    kinds = {
        entry.content.kind
        for entry in entries
        if entry.content
        and entry.content.body.get("public_key") == key.public
        and entry.content.body.get("writer") == key.writer
        and entry.hash not in withdrawn
    }
    if "key-given-up" in kinds:
        raise Refused(
            f"this key of {key.writer} was given up; make another with "
            f"`asburied writer {key.writer} --anew --record`"
        )
    if "writer-key" not in kinds:
        raise Refused(
            f"this record does not know the key; introduce it with "
            f"`asburied writer {key.writer} --record`"
        )


def _before(entries: Sequence[Entry], key: Key, day: str, heads: Sequence[Head]) -> Entry | None:
    """Return a sign-off that stands, of the same day and heads by the same key."""
    from record.trust import Standing, judge

    for one in judge(entries):
        same = one.day == day and sorted(c.head for c in one.covers) == sorted(heads)
        own = one.entry.content and one.entry.content.body.get("public_key") == key.public
        if same and own and one.standing is Standing.GOOD:
            return one.entry
    return None
