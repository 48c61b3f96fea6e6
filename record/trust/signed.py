r"""What a sign-off is a signature of: plain bytes that anyone can write again.

    signed off
    site larch-end
    signer ck
    day 2022-05-18
    ck 12 5f0c…
    ld 40 91aa…

One line feed ends each line. The lines from the fifth on are chains: writer, how many entries,
and the hash of the last link; sorted. The entry holds them in its field "chains", with ", "
between.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

_HEAD = re.compile(r"([a-z][a-z0-9]{0,15}) ([1-9][0-9]{0,8}) ([0-9a-f]{64})")


@dataclass(frozen=True, slots=True, order=True)
class Head:
    """How far one chain reached: its writer, its count, and the hash of its last link."""

    writer: str
    count: int
    hash: str

    @property
    def line(self) -> str:
        return f"{self.writer} {self.count} {self.hash}"


def message(site: str, signer: str, day: str, heads: Iterable[Head]) -> bytes:
    """Return the bytes that are signed."""
    lines = ["signed off", f"site {site}", f"signer {signer}", f"day {day}"]
    lines += [head.line for head in sorted(heads)]
    return ("\n".join(lines) + "\n").encode("utf-8")


def said_heads(heads: Iterable[Head]) -> str:
    """Return heads as an entry holds them."""
    return ", ".join(head.line for head in sorted(heads))


def read_heads(said: str) -> Sequence[Head] | None:
    """Return the heads that an entry names, or None where it names them in no such form."""
    found = [_HEAD.fullmatch(piece) for piece in said.split(", ")]
    if not all(found):
        return None
    return [Head(m[1], int(m[2]), m[3]) for m in found if m]
