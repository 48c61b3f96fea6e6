"""A swap of two tags, asked before it is recorded: two things of one kind, and who will see it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from record.entry import Entry
from record.facts.swaps import SWAPPED
from record.fold import AsBuilt
from record.sheets import Draft, Sheet, SheetFault


def swap_faults(sheet: Sheet, after: AsBuilt, sealed: Sequence[Entry]) -> Iterator[SheetFault]:
    """Yield what is wrong with the swaps of a sheet, with its own entries folded in (``after``)."""
    for draft, entry in zip(sheet.drafts, sealed, strict=False):
        if draft.kind is SWAPPED:
            yield from _own_faults(sheet, draft, after)
            yield from _narrower_faults(sheet, draft, entry, after)


def _own_faults(sheet: Sheet, draft: Draft, after: AsBuilt) -> Iterator[SheetFault]:
    other, day = draft.body.get("with"), draft.body.get("from")
    if other == draft.about:
        yield sheet.text.fault(
            draft.spot("with"), f"{other} cannot be swapped with itself", "Write the other tag."
        )
    one, two = after.thing(draft.about), after.thing(other if isinstance(other, str) else None)
    if one and two and one.kind is not two.kind:
        yield sheet.text.fault(
            draft.spot("with"),
            f"{one.tag} is a {one.kind.word} and {two.tag} a {two.kind.word}",
            f"Only things of one kind can be taken for each other; write the tag of a "
            f"{one.kind.word}.",
        )
    for name in ("with", "from"):
        if name in draft.body and not isinstance(draft.body[name], str):
            yield sheet.text.fault(
                draft.spot(name),
                f'without "{name}" nothing can be put right',
                "Until it is known, write a remark; say the swap when you can.",
            )
    if isinstance(day, str) and day > sheet.day and not draft.mends:
        yield sheet.text.fault(
            draft.spot("from"),
            f"{day} is after the day of this sheet, {sheet.day}",
            "Write the day since which the names were wrong.",
        )


def _narrower_faults(
    sheet: Sheet, draft: Draft, swap: Entry, after: AsBuilt
) -> Iterator[SheetFault]:
    """A copy with what the swap puts right, and without the swap, would go on saying it."""
    may = set(swap.content.readers) if swap.content else set()
    for entry in after.entries:
        if entry.content is None or entry.swapped is None:
            continue
        lost = [reader for reader in entry.content.readers if reader not in may]
        if lost and any(by.hash == swap.hash for by in entry.swapped.by):
            yield sheet.text.fault(
                draft.heading,
                f"{', '.join(lost)} may see {entry.number} and could not see what puts it right",
                "Say it without naming what they may not see, and without narrower readers; "
                "their copies would keep the old names.",
            )
            return
