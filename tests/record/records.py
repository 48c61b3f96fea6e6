"""Entries and records for tests: a fixed clock, seeded salts, tables made by the migrations."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from record.entry import Content, Entry, Replaces, seal
from record.log import Log
from record.posting import Posted, post, seeded_salt, stopped_clock
from record.sheets import Told

NOW = datetime(2031, 6, 1, 12, 0, tzinfo=UTC)
SITE = """# 2031-05-01 ld plan

- site: fern-bank
- zone: America/Denver

## site fern-bank

- name: Fern Bank
- datum: bolt in the plinth, 50.000 m
- grid: x east, y north, from the peg
"""


def post_text(
    log: Log,
    text: str | bytes,
    *,
    name: str = "sheet.md",
    folder: Path | None = None,
    now: datetime = NOW,
    seed: str = "fern-bank",
    table: Told | None = None,
) -> Posted:
    """Post a sheet's text at a fixed moment, with salts anyone can make again."""
    data = text.encode() if isinstance(text, str) else text
    clock, salt = stopped_clock(now), seeded_salt(seed)
    return post(log, name, data, folder=folder, clock=clock, salt=salt, table=table)


def sheet(blocks: str, *, day: str = "2031-05-14", writer: str = "ld", part: str = "") -> str:
    """Return a sheet of fern-bank with these blocks under its head."""
    head = f"# {day} {writer} {part}".rstrip()
    return f"{head}\n\n- site: fern-bank\n- zone: America/Denver\n\n{blocks}\n"


def text(words: str) -> str:
    """The stored form of words: they stand for themselves."""
    return words


def measured(si: str, said: str | None = None, unit: str = "m") -> dict[str, str]:
    return {"text": said or f"{si} m", "si": si, "unit": unit}


@dataclass
class Tablet:
    """One writer's device: it seals entries onto its own chain, and knows what it was handed."""

    writer: str
    chain: list[Entry] = field(default_factory=list)
    heads: dict[str, str] = field(default_factory=dict)
    minutes_off: int = 0  # how wrong its clock runs

    def meets(self, other: Tablet) -> None:
        """Take in everything the other has written so far."""
        if other.chain:
            self.heads[other.writer] = other.chain[-1].hash

    def says(
        self,
        kind: str,
        about: str,
        body: Mapping[str, Any],
        *,
        on: str = "2031-05-14",
        at: str | None = None,
        mends: Sequence[Entry] = (),
        fields: Iterable[str] | None = None,
        version: int = 1,
        readers: tuple[str, ...] = ("owner", "technician", "trade", "responder"),
        minute: int | None = None,
    ) -> Entry:
        seq = len(self.chain) + 1
        # The count of minutes is the true order of a test's world; the device may be off.
        when = (minute if minute is not None else 10 * seq) + self.minutes_off
        stamp = datetime.fromtimestamp(1_936_000_000 + 60 * when, UTC)
        named = tuple(body) if fields is None else tuple(fields)
        entry = seal(
            Content(
                kind=kind,
                version=version,
                about=about,
                on=on,
                at=at,
                body=body,
                seen=dict(self.heads),
                readers=readers,
                replaces=tuple(Replaces(m.hash, m.number, named) for m in mends),
                because="it was misread" if mends else None,
            ),
            site="fern-bank",
            writer=self.writer,
            seq=seq,
            recorded=stamp.strftime("%Y-%m-%dT%H:%M:%SZ"),
            prev=self.chain[-1].hash if self.chain else None,
            salt=seq.to_bytes(16, "big"),
        )
        self.chain.append(entry)
        return entry

    def withdraws(self, *targets: Entry, minute: int | None = None) -> Entry:
        return self.says("withdrawn", "fern-bank", {}, mends=targets, fields=(), minute=minute)
