"""Upkeep as jobs of a COBie workbook: a row for each task of each thing, as it stood recorded.

No clock goes into an export: what is due is told as of the newest day that is on record.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date

from record.exports.cobie_made import Row, made
from record.exports.cobie_sheets import NONE
from record.readers import View
from record.upkeep import CannotTell, Due, due

#: Words of COBie's pick lists for kinds of job and for how one stands (from memory).
PREVENTIVE, NOT_BEGUN = "PM", "Not Yet Started"


def upkeep_told(view: View) -> tuple[str, str]:
    """Return what the head of the workbook says of its jobs."""
    day = _day(view)
    if day is None:
        return "jobs", "none: nothing is recorded yet"
    try:
        due(view, today=day)
    except CannotTell as fault:
        return "jobs", f"none: {fault}"
    return "jobs", (
        f"due as of {day.isoformat()}, the newest day on record; what was missed has its own day. "
        "The maker's sheet and the local code come first."
    )


def jobs(view: View, types: Mapping[str, str]) -> Iterator[Row]:
    """Yield a row for each task that this reader may know of; ``types`` by the thing's tag."""
    day = _day(view)
    try:
        found = due(view, today=day) if day else ()
    except CannotTell:
        return
    for one in found:
        yield {
            **made([one.counted_from.entry]),
            "Name": f"{one.task.word} {one.about}",
            "Category": PREVENTIVE,
            "Status": NOT_BEGUN,
            "TypeName": types.get(one.about.partition("/")[0], NONE),
            "Description": _described(one),
            "Start": one.due.isoformat(),
            **_frequency(one),
            "ExtObject": "task of upkeep",
            "TaskNumber": one.task.word,
        }


def _described(one: Due) -> str:
    of = f"{one.about} ({one.name})" if one.name else one.about
    said = [f"{one.title}: {of}", f"for {' or '.join(one.who)}", one.doubt]
    said.append(f"the maker says: {one.maker_says}" if one.maker_says else "")
    return "; ".join(filter(None, said))


def _frequency(one: Due) -> Row:
    every = one.repeats
    if every is None or one.seasonal:
        return {"Frequency": NONE, "FrequencyUnit": NONE}
    count, unit = (every.months, "month") if every.months else (every.days, "day")
    return {"Frequency": count, "FrequencyUnit": unit}


def _day(view: View) -> date | None:
    days = [entry.content.on for entry in view.built.entries if entry.content]
    return date.fromisoformat(max(days)) if days else None
