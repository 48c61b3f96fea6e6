"""What every row of a COBie workbook says of who made it, and when."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from record.exports.cobie_sheets import SYSTEM

Row = dict[str, Any]


def made(entries: Iterable[Any]) -> Row:
    first = next(iter(entries), None)
    if first is None:
        return {}
    return {
        "CreatedBy": first.link.writer,
        "CreatedOn": first.link.recorded.removesuffix("Z"),
        "ExtSystem": SYSTEM,
        "ExtIdentifier": first.number,
    }
