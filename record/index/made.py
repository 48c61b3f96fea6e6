"""What made an index: its form and this version's kinds."""

from __future__ import annotations

import hashlib
from functools import cache

from record.facts import KINDS, STORED

FORM = 2  # of the index; raised whenever its meaning changes


@cache
def made_by() -> str:
    """Return what an index rests on beside the lines: its form, and what kinds this version has."""
    kinds = ",".join(f"{k.stored} {k.version} {k.sort}" for k in KINDS.values())
    rows = ",".join(sorted(f"{k.stored} {k.version} {k.sort}" for k in STORED.values()))
    return hashlib.sha256(f"{FORM}\n{kinds}\n{rows}".encode()).hexdigest()
