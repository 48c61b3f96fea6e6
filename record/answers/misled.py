"""Editions of the manual that were issued while two tags stood the wrong way round."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from record.entry import Entry
from record.fold import AsBuilt, sight


@dataclass(frozen=True, slots=True)
class Misled:
    """One edition that tells what a later swap puts right: which entries, of which tags."""

    number: int
    reader: str
    edition: Entry
    swap: Entry
    wrong: tuple[Entry, ...]  # as they are meant

    @property
    def tags(self) -> frozenset[str]:
        """Return the tags, old and new, that the edition tells wrongly."""
        said = [entry.content for entry in self.wrong if entry.content]
        said += [entry.swapped.written for entry in self.wrong if entry.swapped]
        swap = self.swap.content
        return frozenset(content.about.partition("/")[0] for content in said) | frozenset(
            {swap.about, str(swap.body.get("with", ""))} if swap else ()
        )

    @property
    def words(self) -> str:
        content = self.edition.content
        tags = " and ".join(sorted(self.swap_tags))
        numbers = ", ".join(entry.number for entry in self.wrong)
        return (
            f"Edition {self.number} ({self.edition.number}, {content.on if content else ''}) has "
            f"{tags} the wrong way round in what rests on {numbers}; put right by "
            f"{self.swap.number}."
        )

    @property
    def swap_tags(self) -> frozenset[str]:
        swap = self.swap.content
        return frozenset({swap.about, str(swap.body.get("with", ""))} if swap else ())


def misled_editions(built: AsBuilt) -> tuple[Misled, ...]:
    """
    Return the editions that knew wrongly named entries and not the swap, oldest first.

    What an edition knew is what its entry had seen: that is what its checkpoint holds.
    """
    wrong = [e for e in built.entries if e.swapped and e.swapped.written != e.content]
    if not wrong:
        return ()
    return tuple(_found(built, wrong))


def _found(built: AsBuilt, wrong: list[Entry]) -> Iterator[Misled]:
    seen = sight(built.entries)
    swaps = {by.hash: by for entry in wrong if entry.swapped for by in entry.swapped.by}
    for issued in built.happened("edition issued"):
        number, reader = issued.count("edition") or 0, issued.words("reader")
        for swap in swaps.values():
            if seen.saw(issued.entry, swap):
                continue
            told = tuple(
                entry
                for entry in wrong
                if entry.swapped
                and any(by.hash == swap.hash for by in entry.swapped.by)
                and entry.content
                and reader in entry.content.readers
                and seen.saw(issued.entry, entry)
            )
            if told:
                yield Misled(number, reader, issued.entry, swap, told)
