"""Booked rows → level runs: which rows are one run, what was read, and what each was held on."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from record.calc.levelling import Row
from record.facts.values import Part
from record.fold import AsBuilt, Happening
from record.words import tell

GROUND = "ground"
HELD_ON = (*(part.value for part in Part), GROUND)


@dataclass(frozen=True, slots=True)
class Staff:
    """Where a staff was held: the tag of a thing or a part of one, and on what of it."""

    tag: str  # "AIR-IN/2"; "" where the words name nothing on record
    on: str  # crown, centre, invert, ground; "" where it is not said


def books(built: AsBuilt) -> tuple[tuple[Happening, ...], ...]:
    """
    Return the rows of every level run, in the order they were booked.

    Rows of one name, writer and day are one run; else rows that one writer wrote on one day, up to
    a foresight alone. A backsight alone after that, or after other entries, opens the next run.
    """
    rows = sorted(built.happened("levelled"), key=_place)
    found: list[list[Happening]] = []
    for row in rows:
        # Only a name joins rows across other ones.
        near = found if row.text("run_name") else found[-1:]
        run = next((run for run in near if _goes_on(run, row)), None)
        if run is None:
            found.append([row])
        else:
            run.append(row)
    return tuple(map(tuple, found))


def _place(row: Happening) -> tuple[str, str, str, int, str]:
    link = row.entry.link
    return (row.on, link.site, link.writer, link.seq, row.entry.hash)


def _goes_on(run: Sequence[Happening], row: Happening) -> bool:
    last, name = run[-1], row.text("run_name")
    one, other = last.entry.link, row.entry.link
    if (last.on, last.about, one.writer, last.text("run_name")) != (
        row.on,
        row.about,
        other.writer,
        name,
    ):
        return False
    if name is not None:
        return True
    ended = last.si("foresight") is not None and last.si("backsight") is None
    opens = row.si("backsight") is not None and row.si("foresight") is None
    if other.seq == one.seq + 1:
        return not (ended and opens)
    # Something else stands between, or a row that was withdrawn: an open book goes on.
    return not (ended or opens)


def booked(row: Happening) -> Row:
    """Return one row as calc takes it; a staff held upside down is read negative."""

    def read(name: str) -> float | None:
        found = row.si(name)
        if found is None:
            return None
        return -abs(float(found)) if row.text("staff") == "inverted" else float(found)

    return Row(
        point=row.text("point") or "",
        backsight_m=read("backsight"),
        intermediate_m=read("intermediate"),
        foresight_m=read("foresight"),
    )


def length_km(rows: Sequence[Happening]) -> float | None:
    """
    Return the length of a run along its backsights and foresights, as far as it is recorded.

    ``distance`` of a change point is that of its foresight. What is not recorded is left out:
    a shorter run is allowed less. None where nothing is.
    """
    known = [metres for row in rows for metres in _legs(row)]
    return sum(known) / 1000 if sum(known) > 0 else None


def _legs(row: Happening) -> Iterator[float]:
    back, ahead = row.si("backsight") is not None, row.si("foresight") is not None
    if (back or ahead) and (metres := row.si("distance")) is not None:
        yield float(metres)
    if back and (metres := row.si("backsight_distance")) is not None:
        yield float(metres) if ahead else 0.0


def staff(built: AsBuilt, row: Happening) -> Staff:
    """Return where a staff was held, from the row's own fields, else from its point's words."""
    words = row.text("of") or row.text("point") or ""
    tag, rest = named(built, words)
    part = row.text("held_on") or next(
        (word for word in re.findall(r"\w+", rest.casefold()) if word in HELD_ON), ""
    )
    return Staff(tag, part)


def named(built: AsBuilt, words: str) -> tuple[str, str]:
    """
    Return the thing or part that words name ("AIR-IN 2 crown", "AIR-IN/2", "BM1"), and the rest.

    The tag is "" where they begin with no tag on record.
    """
    first, _, rest = " ".join(words.split()).partition(" ")
    whole, slash, key = first.partition("/")
    tag = whole if whole in built.things else _in_any_case(built, whole)
    if tag is None:
        return "", words
    thing = built.things[tag]
    if not slash:
        key, _, after = rest.partition(" ")
        if thing.part(key) is None:
            return tag, rest
        rest = after
    part = thing.part(key)
    return (part.tag, rest) if part is not None else ("", words)


def _in_any_case(built: AsBuilt, word: str) -> str | None:
    plain = word.casefold()
    return next((tag for tag in built.things if tag.casefold() == plain), None)


def steps_apart(rows: Sequence[Happening], levels_m: Sequence[float]) -> Iterator[tuple[int, str]]:
    """
    Yield the rows whose booked level does not follow from the row before it, counted from 1.

    Held against the readings step by step, so that the row is named where the slip was made and
    not every row after it.
    """
    said = [(place, row.si("reduced_level")) for place, row in enumerate(rows)]
    given = [(place, float(level)) for place, level in said if level is not None]
    for (one, level), (other, next_level) in pairwise(given):
        read = levels_m[other] - levels_m[one]
        if abs(next_level - level - read) > BOOKED_M:
            yield (
                other + 1,
                tell(
                    "place.book_steps_m_from",
                    point=rows[other].words("point"),
                    next_level=f"{next_level - level:+.3f}",
                    point_2=rows[one].words("point"),
                    read=f"{read:+.3f}",
                ),
            )


BOOKED_M = 0.00051  # a book is kept to the millimetre, so a level may be half of one off
