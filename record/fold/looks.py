"""Looks and tests of a thing, whatever form they were written on, and what became of a failure."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from record.facts.looks import LOOKS, found_in, titled
from record.facts.named import ENTRY
from record.fold.state import AsBuilt, Happening
from record.words import tell, term

REPAIRED = "repaired"


def title(look: Happening) -> str:
    """Return what was looked at or tested, in the crew's words."""
    return look.words(titled(look.kind.word))


def found(look: Happening) -> str:
    """Return what was read or found."""
    return look.words(found_in(look.kind.word))


def of_weld(look: Happening) -> bool:
    """Return whether somebody looked at a weld: on its own form, or in words."""
    if look.kind.word == "weld inspected":
        return True
    said = look.text("what") if look.kind.word == "inspected" else None
    return re.search(r"\bweld", (said or "").casefold()) is not None


def names(later: Happening, earlier: Happening, field: str = "retest_of") -> bool:
    """
    Return whether a retest or a repair says that it is one of ``earlier``, and came after it.

    It names the entry's number; on the sheet of the same day, where the number is not known
    yet, the time at which the same thing failed will do: "the pinhole of 11:45".
    """
    said = later.text(field)
    if not said or later is earlier or surely_before(later, earlier):
        return False
    if earlier.entry.number in ENTRY.findall(said):
        return True
    same = later.on == earlier.on and _whole(later.about) == _whole(earlier.about)
    return same and earlier.at is not None and earlier.at in said


def _whole(tag: str) -> str:
    return tag.partition("/")[0]


def surely_before(one: Happening, other: Happening) -> bool:
    """Return whether one came before another beyond doubt; a day alone has no order within it."""
    if one.on != other.on:
        return one.on < other.on
    return one.at is not None and other.at is not None and one.at < other.at


@dataclass(frozen=True, slots=True)
class Chain:
    """A failure, and every repair and retest that names it or one of these, in their order."""

    failed: Happening
    steps: tuple[Happening, ...]

    @property
    def settled(self) -> bool:
        """Return whether it passed again, and nothing that failed may have come after that."""
        looks = [step for step in (self.failed, *self.steps) if step.kind.word in LOOKS]
        passed = [look for look in looks if look.text("result") == "passed"]
        failed = [look for look in looks if look.text("result") == "failed"]
        return any(all(surely_before(bad, good) or names(good, bad) for bad in failed)
                   for good in passed)  # fmt: skip

    @property
    def words(self) -> str:
        """The chain in a line: failed (ld-88) → repaired (ld-90) → passed again (ld-95)."""
        said = [tell("looks.failed", number=self.failed.entry.number)]
        said += [
            tell("looks.step", step=_step(step), number=step.entry.number) for step in self.steps
        ]
        key = "settled" if self.settled else "not_settled"
        steps, order = " → ".join(said), _order(self)
        return tell(f"looks.chain.{key}", title=title(self.failed), steps=steps, order=order)


def _step(step: Happening) -> str:
    if step.kind.word == REPAIRED:
        return term(REPAIRED)
    result = step.text("result")
    key = result if result in ("passed", "failed") else "looked"
    return tell(f"looks.again.{key}")


def _order(chain: Chain) -> str:
    """Say where a day holds two steps of which one has no hour."""
    steps = (chain.failed, *chain.steps)
    days = {
        one.on
        for one in steps
        if one.at is None and any(two is not one and two.on == one.on for two in steps)
    }
    return "".join(tell("looks.order_not_known", day=day) for day in sorted(days))


def chains(built: AsBuilt, tag: str) -> Iterator[Chain]:
    """Yield every failure of a thing that follows no other failure, with what followed it."""
    failures = [look for look in built.about(tag, *LOOKS) if look.text("result") == "failed"]
    if not failures:
        return  # most things never fail, and then nothing else need be read
    later = tuple(built.happened(REPAIRED, *LOOKS))
    found = [Chain(failed, _steps(failed, later)) for failed in failures]
    following = [step for chain in found for step in chain.steps]
    told = [chain for chain in found if chain.failed not in following]
    yield from told
    # Two that name each other begin no chain of their own, and are told all the same.
    seen = [one for chain in told for one in (chain.failed, *chain.steps)]
    yield from (chain for chain in found if chain.failed not in seen)


def every_chain(built: AsBuilt) -> Iterator[Chain]:
    """Yield the chains of every thing, once each, in the order in which they failed."""
    failed = [look for look in built.happened(*LOOKS) if look.text("result") == "failed"]
    for tag in dict.fromkeys(look.about for look in failed):
        yield from (chain for chain in chains(built, tag) if chain.failed.about == tag)


def _follows(later: Happening, earlier: Happening) -> bool:
    return names(later, earlier, "repair_of" if later.kind.word == REPAIRED else "retest_of")


def _steps(failed: Happening, later: Sequence[Happening]) -> tuple[Happening, ...]:
    found: list[Happening] = [failed]
    for known in found:  # grows while it is walked
        found += [one for one in later if one not in found and _follows(one, known)]
    return tuple(sorted(found[1:], key=lambda one: (one.on, one.at or "~", one.entry.order)))
