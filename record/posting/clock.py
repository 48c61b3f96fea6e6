"""Clock and salt, handed in by whoever posts, so that a test or the demo can fix them."""

from __future__ import annotations

import hashlib
import secrets
from collections.abc import Callable
from datetime import UTC, datetime

Clock = Callable[[], datetime]
SaltSource = Callable[[str, int], bytes]


def wall_clock() -> datetime:
    return datetime.now(UTC)


def stopped_clock(instant: datetime) -> Clock:
    return lambda: instant


def random_salt(writer: str, seq: int) -> bytes:
    return secrets.token_bytes(16)


def seeded_salt(seed: str) -> SaltSource:
    """Return salts that anyone who knows ``seed`` can make again: for tests and the demo only."""

    def salt(writer: str, seq: int) -> bytes:
        return hashlib.sha256(f"{seed}\n{writer}\n{seq}\n".encode()).digest()[:16]

    return salt


def instant(moment: datetime) -> str:
    """Return an instant as it stands in a link: UTC, to the second, ending in Z."""
    return moment.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
