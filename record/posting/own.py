"""One fact the program itself states, in the form that posting takes: no sheet is kept of it."""

from __future__ import annotations

from collections.abc import Mapping

from record.facts import KINDS
from record.facts.values import Value
from record.sheets import Draft, Sheet, SheetText
from record.sheets.lines import Piece


def own_fact(
    kind: str,
    body: Mapping[str, Value],
    *,
    site: str,
    zone: str,
    day: str,
    writer: str,
    command: str,
) -> Sheet:
    """Return the fact of ``kind`` about the site, as one writer states it on ``day`` (ISO)."""
    nowhere = Piece("", 0, 0)
    draft = Draft(kind=KINDS[kind], about=site, body=dict(body), heading=nowhere, lines=())
    return Sheet(
        text=SheetText(command, b"", ()),
        day=day,
        writer=writer,
        part=command.replace(" ", "-"),
        site=site,
        zone=zone,
        heading=nowhere,
        drafts=(draft,),
    )
