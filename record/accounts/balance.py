"""What came against what was built in, sent back and kept: every delivery that does not add up.

An account is kept by the item of the job plan where one is named, else by lot, else by the words.
What is built in is counted from the record itself: each valve, fitting, machine or batch that names
the lot or the item is one; a run is its length of pipe. Where nothing built can say it, "used"
says it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from decimal import Decimal

from record.accounts.amounts import Amount, read_amount
from record.entry import Entry
from record.facts.faults import plain
from record.facts.happenings import DELIVERED
from record.facts.named import TAG
from record.fold import AsBuilt, Happening, Thing
from record.readers import View
from record.units import Dimension

#: Things of which each is one piece of what was delivered.
PIECES = ("valve", "fitting", "equipment", "door", "penetration", "batch", "fit-out", "marker")
LOTS = ("lot", "lots", "seal_lot", "joint_lot", "consumables_lot")


@dataclass(frozen=True, slots=True)
class Line:
    """One line of an account."""

    words: str
    amount: Amount | None  # None: not written down, or in no measure that adds up
    entries: tuple[Entry, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Account:
    """One item: what was planned, came, was built in, and went or was kept."""

    name: str
    what: str
    lot: str
    planned: tuple[Line, ...] = ()
    came: tuple[Line, ...] = ()
    built_in: tuple[Line, ...] = ()
    went: tuple[Line, ...] = ()
    missing: tuple[str, ...] = ()  # tags it was planned for that are not recorded
    rests_on: tuple[Entry, ...] = field(default=(), repr=False)

    @property
    def measure(self) -> Dimension | None:
        sums = [line.amount for line in (*self.came, *self.planned) if line.amount]
        return sums[0].of if sums else None

    @property
    def unknown(self) -> tuple[str, ...]:
        """What keeps it from being added up, in words."""
        every = (*self.came, *self.built_in, *self.went)
        said = [line.words for line in every if line.amount is None]
        mixed = [line.words for line in every if line.amount and line.amount.of is not self.measure]
        if self.came and not self.built_in and not self._all_went:
            said.append("none is recorded as built in, and nobody wrote that none was")
        return tuple(dict.fromkeys((*said, *(f"{one}, in another measure" for one in mixed))))

    @property
    def _all_went(self) -> bool:
        """Whether all that came went again or was kept, so that none of it can be built in."""
        lines = (*self.came, *self.went)
        if any(line.amount is None or line.amount.of is not self.measure for line in lines):
            return False
        return _sum(self.came) <= _sum(self.went)

    @property
    def left(self) -> Amount | None:
        """What came less what was built in, went or was kept; None if it cannot be told."""
        if self.unknown or not self.came:
            return None
        total = _sum(self.came) - _sum(self.built_in) - _sum(self.went)
        return Amount(total, self.measure)

    @property
    def short(self) -> Amount | None:
        """How much less came than was planned; None where no plan or no amount says."""
        lines = (*self.planned, *self.came)
        if not self.planned or any(line.amount is None for line in lines):
            return None
        if any(line.amount and line.amount.of is not self.measure for line in lines):
            return None
        less = _sum(self.planned) - _sum(self.came)
        return Amount(less, self.measure) if less > 0 else None

    @property
    def says(self) -> str:
        """The balance in words."""
        if self.taken_away:
            return "went, and is not of what came: an old piece"
        if not self.came:
            how = "built in" if self.built_in else "planned"
            return f"{how}, and nothing of it came"
        left = self.left
        if left is None:
            return "cannot be told: " + "; ".join(self.unknown)
        if left.number > 0:
            return f"{left.words} came and is neither built in, sent back nor kept"
        if left.number < 0:
            return f"{Amount(-left.number, left.of).words} more is accounted for than came"
        return "adds up"

    @property
    def taken_away(self) -> bool:
        """Whether it only left the site: an old piece that was changed."""
        return bool(self.went) and not (self.came or self.planned or self.built_in)

    @property
    def even(self) -> bool:
        if self.taken_away:
            return True
        left = self.left
        return left is not None and left.number == 0 and self.short is None and not self.missing


def _sum(lines: Iterable[Line]) -> Decimal:
    return sum((line.amount.number for line in lines if line.amount), Decimal(0))


def accounts(view: View) -> tuple[Account, ...]:
    """
    Return every account, in the order its item was first planned or came.

    A reader who may see no delivery is told of none, or the plan alone would read as if nothing
    had come.
    """
    if view.reader not in DELIVERED.readers:
        return ()
    built = view.built
    names: dict[str, list[Happening]] = {item.tag: [] for item in built.of_kind("expected")}
    for happening in built.happened("delivered", "returned", "used"):
        names.setdefault(_name(happening), []).append(happening)
    return tuple(_account(built, name, said) for name, said in names.items())


def _name(happening: Happening) -> str:
    return happening.text("item") or happening.text("lot") or plain(happening.words("what"))


def _account(built: AsBuilt, name: str, said: list[Happening]) -> Account:
    item = built.thing(name)
    item = item if item and item.kind.word == "expected" else None
    came = [one for one in said if one.kind.word == "delivered"]
    lots = {lot for one in said if (lot := one.text("lot"))}
    planned_for = planned_tags(item) if item else ()
    used_for = {tag for one in came for tag in one.tags("used_for")} | set(planned_for)
    told = [_line(one) for one in said if one.kind.word == "used"]
    told_of = (*came, item) if item else came
    measure = next((a.of for one in told_of if (a := read_amount(one.words("amount")))), None)
    fitted = list(_built_in(built, name, lots, used_for, measure))
    lines = (*fitted, *told)
    return Account(
        name=name,
        what=item.words("what") if item else (said[0].words("what") if said else name),
        lot=", ".join(sorted(lots)),
        planned=(_planned(item),) if item else (),
        came=tuple(_line(one) for one in came),
        built_in=lines,
        went=tuple(_line(one) for one in said if one.kind.word == "returned"),
        missing=tuple(tag for tag in planned_for if built.thing(tag) is None),
        rests_on=tuple(entry for one in said for entry in one.entries()),
    )


def planned_tags(item: Thing) -> tuple[str, ...]:
    """Return the tags an item of the plan is for, recorded or not."""
    return tuple(_tags_in(item.text("for") or ""))


def _tags_in(words: str) -> Iterator[str]:
    for piece in re.split(r"[,;]\s*|\s+and\s+", words):
        if TAG.fullmatch(piece.strip()):
            yield piece.strip()


def _planned(item: Thing) -> Line:
    return Line(item.words("amount"), read_amount(item.words("amount")), item.entries())


def _line(one: Happening) -> Line:
    said = one.words("amount")
    why = f", {one.words('why')}" if one.text("why") else ""
    tags = f" on {', '.join(one.tags('tags'))}" if one.tags("tags") else ""
    return Line(f"{said}{tags}{why}", read_amount(said), one.entries())


def _built_in(
    built: AsBuilt, name: str, lots: set[str], used_for: set[str], measure: Dimension | None
) -> Iterator[Line]:
    """Yield what things of the record say was built in, each once."""
    for thing in built.things.values():
        named = _names_lot(thing, lots) or thing.text("item") == name
        other = any(thing.text(field) for field in LOTS) and not named
        if not named and (other or thing.tag not in used_for):
            continue
        if measure is Dimension.LENGTH and thing.kind.word == "run":
            length = thing.si("pipe_length")
            amount = None if length is None else Amount(length, Dimension.LENGTH)
            words = "pipe length not recorded" if length is None else thing.words("pipe_length")
            yield Line(f"{thing.tag}, {words}", amount, thing.entries())
        elif measure is None and thing.kind.word in PIECES:
            yield Line(thing.tag, Amount(Decimal(1)), thing.entries())


def _names_lot(thing: Thing, lots: set[str]) -> bool:
    return any(
        re.search(rf"(?<![\w-]){re.escape(lot)}(?![\w-])", said)
        for field in LOTS
        if (said := thing.text(field))
        for lot in lots
    )
