"""Which fields hold a lot or a maker's part, what they say, and every name a lot goes by."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from record.entry import Entry
from record.facts import Kind
from record.facts.values import Absent, Why, in_words
from record.fold import Stated
from record.readers import View
from record.recall.values import LotOf, names_in

SLOTS = (
    "lot",
    "lots",
    "seal_lot",
    "joint_lot",
    "filler_lot",
    "filler_lots",
    "consumables_lot",
    "packing_lot",
)
PART = "maker's_part"
#: Kinds that name a lot without being a place that it went in.
NO_PLACE = ("lot", "batch", "expected", "delivered", "returned", "recall noticed")


@dataclass(frozen=True, slots=True)
class Lots:
    """The lots that have entries of their own, by every name; batches are mixed of lots."""

    of: Mapping[str, LotOf] = field(default_factory=dict)

    def names(self, text: str) -> tuple[str, ...]:
        """Return every name that words may mean, with the other names of the lots among them."""
        said = names_in(text)
        more = (name for each in said if each in self.of for name in self.of[each].names)
        return tuple(dict.fromkeys((*said, *more)))

    def parts(self, names: Iterable[str]) -> tuple[str, ...]:
        """Return the makers' parts that lots of these names are of."""
        found = (part for name in names if name in self.of for part in self.of[name].parts)
        return tuple(dict.fromkeys(found))


def lots_of(view: View) -> Iterator[LotOf]:
    """Yield each lot that has an entry of its own, and each batch, which goes by its lots too."""
    own: dict[str, LotOf] = {}
    for lot in view.built.of_kind("lot"):
        said = (lot.tag, lot.text("number") or "")
        names = tuple(dict.fromkeys(name for text in said for name in names_in(text)))
        parts = names_in(lot.text(PART) or "")
        one = LotOf(names=names, parts=parts, entry=numbers(lot.entries())[0])
        own.update(dict.fromkeys(names, one))
        yield one
    for batch in view.built.of_kind("batch"):
        names = Lots(own).names(batch.text("lots") or "")
        parts = Lots(own).parts(names)
        entry = numbers(batch.entries())[0]
        yield LotOf(names=(*names_in(batch.tag), *names), parts=parts, entry=entry)


def slots_of(kind: Kind) -> Iterator[str]:
    """Yield the fields of a kind that each hold a lot of their own."""
    if kind.word not in NO_PLACE:
        found = [name for name in SLOTS if kind.field(name)]
        yield from found or ([PART] if kind.field(PART) else [])


def words_of(stated: Stated, name: str) -> str:
    """Return what a field holds, in words: all of it, where two statements differ."""
    held = [each.value for each in stated.held(name) if not isinstance(each.value, Absent)]
    return ", ".join(dict.fromkeys(in_words(value) for value in held))


def absent(stated: Stated, name: str) -> str:
    """Return which absence a field states; "" where it holds something."""
    value = stated.value(name)
    if not isinstance(value, Absent):
        return ""
    return "not settled" if value.why is Why.NOT_SETTLED else in_words(value)


def numbers(entries: Iterable[Entry]) -> tuple[str, ...]:
    """Return the numbers of entries, each once, such as ld-12."""
    return tuple(dict.fromkeys(entry.number for entry in entries))
