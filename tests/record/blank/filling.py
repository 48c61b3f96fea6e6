"""Forms filled in as a crew would: a value of the right sort in every gap, by the kind's fields."""

from __future__ import annotations

import io
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

from PIL import Image

from record.facts import KINDS, Kind
from record.facts.fields import Clock, Count, Day, Field, OneOf, YesNo
from record.facts.named import EntryOf, TagOf, TagsOf
from record.facts.sizes import Measure, Number, PipeLevel
from record.fold import AsBuilt
from record.units import Dimension
from record.units.table import UNITS

GAP = re.compile("_{4,}")
LENGTH = "0.1 m"  # small enough to lie on any face
INSIDE = {"bottom": "96.9 m"}  # a level, which is held against the hull's own
COMMON = {"at": "10:20", "did": "ph", "saw": "ck", "by": "ld", "because": "looked again"}

Choose = Callable[[list[str]], str]


def first(values: list[str]) -> str:
    return values[0]


def measured(dimension: Dimension) -> str:
    return LENGTH if dimension is Dimension.LENGTH else f"1 {UNITS[dimension][0].name}"


def values(built: AsBuilt, of: Field, *, absent: bool = True) -> list[str]:
    """Return values that a field takes, one of its own sort first if there can be one."""
    match of.holds:
        case YesNo():
            found = ["yes", "no"]
        case Count():
            found = ["2", "17"]
        case Number():
            found = ["0.45"]
        case EntryOf(kinds):
            found = [h.entry.number for h in built.happened(*kinds)] or ["none"]
        case Measure(dimension):
            found = [INSIDE.get(of.key) or measured(dimension)]
        case PipeLevel():
            found = ["crown 48.1 m", "invert 157' 9-3/4\""]
        case OneOf(words):
            found = list(words)
        case TagOf(kinds) | TagsOf(kinds):
            things = built.things.values()
            found = [t.tag for t in things if not kinds or t.kind.word in kinds]
        case Day():
            found = ["2031-05-01"]
        case Clock():
            found = ["10:20"]
        case _:
            found = ["as seen", "2 of them, red | blue"]
    return found + (["not recorded", "none", "n/a, not in this house"] if absent else [])


@dataclass
class Filled:
    """A form with its gaps filled, and what was put where: (tag, field's name)."""

    text: str = ""
    gaps: set[tuple[str, str]] = field(default_factory=set)
    said: set[tuple[str, str]] = field(default_factory=set)


def fill(form: str, built: AsBuilt, folder: Path, choose: Choose = first) -> Filled:
    """Fill every gap of a form with a value its field takes."""
    return _Filling(built, folder, choose).of(form)


class _Filling:
    def __init__(self, built: AsBuilt, folder: Path, choose: Choose) -> None:
        self.built, self.folder, self.choose = built, folder, choose
        self.done, self.count = Filled(), 0
        self.kind: Kind = KINDS["remark"]
        self.tag = ""
        self.head: list[str] = []

    def of(self, form: str) -> Filled:
        hint = re.compile(r"<!--.*?-->", re.DOTALL)
        kept = hint.sub(lambda found: GAP.sub("~", found[0]), form)
        self.done.text = "\n".join(self._line(line) for line in kept.split("\n"))
        return self.done

    def _new(self) -> str:
        self.count += 1
        return f"n{self.count}"

    def _line(self, line: str) -> str:
        if line.startswith("# "):
            return GAP.sub("ld", line)
        if line.startswith("## "):
            line = GAP.sub(f"NEW-{self._new()}", line)
            words = line[3:].split()
            self.tag = words[-1]
            self.kind = KINDS[" ".join(words[:-1])]
            return line
        if line.startswith("- "):
            return self._field(line)
        if line.startswith("| "):
            return self._row(line)
        if not line.startswith("|"):
            self.head = []
        return self._photo(line) if line.startswith("![") else line

    def _value(self, kind: Kind, key: str) -> str:
        if key == "mends":
            return self._mended()
        if key in COMMON:
            return COMMON[key]
        found = kind.field(key)
        assert found is not None, key
        return self.choose(values(self.built, found))

    def _mended(self) -> str:
        """Return an entry of the thing itself: of another, more readers might see it than this."""
        said = [e for e in self.built.entries if e.content and e.content.about == self.tag]
        return (said or self.built.entries[:-1])[-1].number

    def _field(self, line: str) -> str:
        key, _, rest = line[2:].partition(": ")
        if key in ("site", "zone"):
            return line
        name = (self.tag, key.replace(" ", "_"))
        (self.done.gaps if GAP.search(rest) else self.done.said).add(name)
        return f"- {key}: " + GAP.sub(lambda _: self._value(self.kind, key), rest)

    def _row(self, line: str) -> str:
        cells = [cell.strip() for cell in re.split(r"(?<!\\)\|", line)[1:-1]]
        if not self.head:
            self.head = [re.sub(r"\s*\[.*\]", "", cell) for cell in cells]
            return line
        kind = self.kind.rows or self.kind
        filled = []
        tag = self.tag
        for place, (key, cell) in enumerate(zip(self.head, cells, strict=True)):
            gap = GAP.fullmatch(cell) is not None
            if place == 0 and kind.key:
                cell = f"{self._new()} new" if gap else cell
                tag = f"{tag}/{cell.split()[0]}"
            elif gap:
                cell = self._value(kind, key).replace("|", "\\|")
            (self.done.gaps if gap else self.done.said).add((tag, key.replace(" ", "_")))
            filled.append(cell)
        return f"| {' | '.join(filled)} |"

    def _photo(self, line: str) -> str:
        name = f"{self._new()}.png"
        image = io.BytesIO()
        Image.new("RGB", (4, 4), (self.count % 250, 0, 0)).save(image, "PNG")
        (self.folder / name).write_bytes(image.getvalue())
        caption, _, _ = line.rpartition("](")
        return f"{GAP.sub('east', caption)}]({name})"


def kinds_with_forms() -> Iterator[Kind]:
    from record.blank import NO_FORM

    yield from (kind for kind in KINDS.values() if not kind.key and kind.word not in NO_FORM)
