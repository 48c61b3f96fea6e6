"""asburied writer"""

from __future__ import annotations

import hashlib
import os
import secrets
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from record.cli.app import EMPTY, Refused, app
from record.cli.asking import clock, day_option, now, read_entries, salt

if TYPE_CHECKING:
    from record.entry import Entry
    from record.facts.values import Value
    from record.log import Place


@app.command()
def writer(
    ctx: typer.Context,
    name: Annotated[str, typer.Argument(help="The writer, as in day sheets: ld, ck.")],
    record: Annotated[
        bool, typer.Option("--record", help="Introduce the key to the record, by an entry.")
    ] = False,
    role: Annotated[str | None, typer.Option("--role", help="What they are: crew lead.")] = None,
    device: Annotated[str | None, typer.Option("--device", help="Where the key lies.")] = None,
    anew: Annotated[
        bool, typer.Option("--anew", help="Make another key in place of the one that is here.")
    ] = False,
    give_up: Annotated[
        bool, typer.Option("--give-up", help="Record that the key is trusted no more.")
    ] = False,
    since: Annotated[
        str | None, typer.Option("--since", help="Given up since this day; else today.")
    ] = None,
    because: Annotated[str, typer.Option("--because", help="Why it is given up.")] = "",
    key: Annotated[
        str | None, typer.Option("--key", help="Which key is given up, where there are several.")
    ] = None,
    by: Annotated[
        str | None, typer.Option("--by", help="Who writes the entry, if not the writer.")
    ] = None,
) -> None:
    """
    Make a writer's key on this device, to sign days with, and show its public half.

    The key lies in your own configuration folder and never in the record. With --record an entry
    introduces it; with --give-up one says that from a day on its signatures do not count.

    Example: asburied --record larch-end writer ld --record --role "crew lead"

    Exit status is 0 if it was done or was so already, 1 if it could not be, 2 if the command
    itself was wrong.
    """
    from record.trust import keys_folder

    if give_up:
        _give_up(ctx.obj, name, key, since, because, by)
        return
    folder = keys_folder(os.environ)
    public = _own_key(folder, name, anew)
    if record:
        made = _site_day(read_entries(ctx.obj))
        _introduce(ctx.obj, name, public, made, role, device, by)


def _own_key(folder: Path, name: str, anew: bool) -> str:
    """Return the public key of this device, made now where there is none."""
    from record.trust import make_key, read_key, readable_keys

    if name in readable_keys(folder) and not anew:
        key = read_key(folder, name)
        print(f"{name} has a key on this device: {key.path}")
    else:
        fixed = os.environ.get("ASBURIED_KEY_SEED")
        key = make_key(folder, name, _seed(fixed, name), anew=anew)
        print(f"A key for {name} was made: {key.path}")
        if fixed:
            print("  made from ASBURIED_KEY_SEED: anyone can make it, so it proves nothing")
    print(f"  public key {key.public}")
    return key.public


def _seed(fixed: str | None, name: str) -> bytes:
    """Return 32 random bytes, or those of $ASBURIED_KEY_SEED for tests and the demo."""
    if fixed:
        return hashlib.sha256(f"{fixed}\n{name}".encode()).digest()
    return secrets.token_bytes(32)


def _introduce(
    record: Place,
    name: str,
    public: str,
    made: str,
    role: str | None,
    device: str | None,
    by: str | None,
) -> None:
    for entry in _stand(record, "writer-key", name):
        if entry.content and entry.content.body.get("public_key") == public:
            print(f"  introduced already: {entry.number}")
            return
    body: dict[str, Value] = {"writer": name, "public_key": public, "made": made}
    body |= {word: said for word, said in (("role", role), ("device", device)) if said}
    entry = _state(record, "writer key", body, by or name)
    print(f"  introduced: {entry.number}")


def _give_up(
    record: Place, name: str, key: str | None, since: str | None, because: str, by: str | None
) -> None:
    if not because:
        raise Refused('say why: --because "the tablet was stolen"', 2)
    known = [
        str(e.content.body["public_key"])
        for e in _stand(record, "writer-key", name)
        if e.content and str(e.content.body.get("public_key", "")).startswith(key or "")
    ]
    if len(set(known)) != 1:
        which = ", ".join(dict.fromkeys(known)) or "none"
        raise Refused(f"say which key of {name} is given up, with --key; this record knows {which}")
    day = day_option(since) if since else date.fromisoformat(_site_day(read_entries(record)))
    body: dict[str, Value] = {
        "writer": name,
        "public_key": known[0],
        "since": day.isoformat(),
        "why": because,
    }
    entry = _state(record, "key given up", body, by or name)
    print(f"{entry.number}: the key {known[0][:16]}… of {name} is given up since {day.isoformat()}")


def _stand(record: Place, kind: str, name: str) -> list[Entry]:
    """Return the entries of a kind about a writer that nobody withdrew."""
    from record.fold import mends, sight

    entries = read_entries(record)
    withdrawn = mends(entries, sight(entries)).withdrawn_by
    return [
        entry
        for entry in entries
        if entry.content
        and entry.content.kind == kind
        and entry.content.body.get("writer") == name
        and entry.hash not in withdrawn
    ]


def _site_day(entries: tuple[Entry, ...]) -> str:
    """Return today where the site is."""
    from zoneinfo import ZoneInfo

    from record.fold import zone_of

    if not entries:
        raise Refused(EMPTY)
    return now().astimezone(ZoneInfo(zone_of(entries))).date().isoformat()


def _state(record: Place, kind: str, body: dict[str, Value], writer: str) -> Entry:
    from record.entry import WRITER
    from record.fold import zone_of
    from record.log import Log
    from record.posting import append_facts, own_fact

    if not WRITER.fullmatch(writer):
        raise Refused(f'"{writer}" is not a writer; write a few small letters, such as ld', 2)
    with Log.open(record) as log:
        entries = log.entries()
        fact = own_fact(
            kind,
            body,
            site=entries[0].link.site,
            zone=zone_of(entries),
            day=_site_day(entries),
            writer=writer,
            command="writer",
        )
        return append_facts(log, fact, clock=clock(), salt=salt())[0]
