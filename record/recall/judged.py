"""In which of the four lists one piece belongs, and why: what is not known rules nothing out."""

from __future__ import annotations

from collections.abc import Iterable

from record.recall.meaning import Asked
from record.recall.values import Piece, Was

HAS, REPLACED, UNKNOWN, OUT = "has it", "replaced", "not recorded", "ruled out"
Judged = tuple[str, str, tuple[str, ...]]  # which list, why, by which entries


def judge(asked: Asked, piece: Piece) -> Judged:
    """Return in which list a piece belongs, and why."""
    if (other := _another_part(asked, piece)) is not None:
        return OUT, other, piece.entries
    was = _was(asked, piece)
    if asked.lots:
        has, known = _matches(asked, piece.names), bool(piece.names) and not piece.lot_absent
        said, absent = f"{piece.slot} {piece.lot}", f"{piece.slot} {piece.lot_absent}"
    else:
        has, known = not {*asked.parts}.isdisjoint(piece.parts), False
        said, absent = f"maker's part {piece.part}", f"maker's part {piece.part_absent}"
    if has and piece.lot_absent == "not settled":
        return UNKNOWN, f"not settled: {said}", piece.entries
    if has:
        return _has(piece, said)
    if was is not None and not was.mended:
        since = f"had {was.said} ({was.entry}) until {was.since}, then {piece.lot or piece.part}"
        return REPLACED, since, (was.entry, was.by)
    if known or was is not None:
        first = f"; {was.said} was a slip ({was.entry}), put right by {was.by}" if was else ""
        return OUT, said + first, piece.entries
    if piece.doing and piece.lot_absent.startswith("n/a"):
        return OUT, absent, piece.entries  # steel that was ground had nothing put on it
    return UNKNOWN, absent, piece.entries


def _has(piece: Piece, said: str) -> Judged:
    if piece.gone:
        return REPLACED, f"had {said}; {piece.gone}", piece.entries
    if piece.moved:
        return (
            UNKNOWN,
            f"had {said}; {piece.moved}; what is there now is not recorded",
            piece.entries,
        )
    return HAS, said, piece.entries


def _another_part(asked: Asked, piece: Piece) -> str | None:
    """Say that it is of another make: one that is settled, and none of those called back."""
    if piece.type and asked.types and piece.type not in asked.types:
        return f"another type: {piece.type}"
    stated = piece.parts and not piece.part_absent
    if not (asked.made_as and stated) or not {*asked.made_as}.isdisjoint(piece.parts):
        return None
    return None if _matches(asked, piece.names) else f"another part: {piece.part}"


def _was(asked: Asked, piece: Piece) -> Was | None:
    names = {*asked.lots} or {*asked.parts}
    found = [was for was in piece.before if not names.isdisjoint(was.names)]
    real = [was for was in found if not was.mended]
    return (real or found)[-1] if found else None


def _matches(asked: Asked, names: Iterable[str]) -> bool:
    return not {*asked.lots}.isdisjoint(names)
