"""Sums about measuring: a level run, ties, changing units, and water to drink."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from record.reckon.sum import Figure, Given, Input, Sum
from record.units import Dimension
from record.words import tell, term

LENGTH = Dimension.LENGTH


def _booked(row: dict[str, Any]) -> dict[str, Any]:
    sight = {
        "backsight": "backsight_m",
        "intermediate": "intermediate_m",
        "foresight": "foresight_m",
    }
    return {sight[row["sight"]]: row["reading"]}


def _run(given: Given) -> tuple[Figure, ...]:
    from record.calc.level_book import Row
    from record.calc.levelling import adjusted_m, check_page, closure, rise_and_fall

    rows: list[Row] = []
    for each in given["reading"]:
        booked = _booked(each)
        if rows and "backsight_m" in booked and rows[-1].foresight_m is not None:
            # A backsight after a foresight is of the same change point.
            last = rows[-1]
            rows[-1] = Row(point=last.point, foresight_m=last.foresight_m, **booked)
        else:
            rows.append(Row(point=str(len(rows) + 1), **booked))
    page = rise_and_fall(rows, given["opening"])
    found: list[Figure] = []
    for one in page:
        step = term("opening")
        if one.rise_m is not None:
            step = tell("reckon.rise", rise_m=f"{one.rise_m:.3f}")
        elif one.fall_m is not None:
            step = tell("reckon.fall", fall_m=f"{one.fall_m:.3f}")
        found.append(Figure(tell("reckon.point", point=one.point), f"{one.rl_m:.3f} m, {step}"))
    for check in check_page(rows, page):
        found.append(Figure(check.what, "agrees" if check.holds else "DOES NOT AGREE"))
    if "closing" in given:
        found += _closed([one.rl_m for one in page], given, closure, adjusted_m)
    return tuple(found)


def _closed(levels: list[float], given: Given, closure: Any, adjusted_m: Any) -> Iterator[Figure]:
    closed = closure(levels[-1], given["closing"], given["k"], given["length"] / 1000)
    verdict = "closes" if abs(closed.misclosure_m) <= closed.allowable_m else "DOES NOT CLOSE"
    yield Figure(
        "misclosure",
        tell(
            "reckon.mm_allowed_mm",
            misclosure_m=f"{closed.misclosure_m * 1000:+.1f}",
            allowable_m=f"{closed.allowable_m * 1000:.1f}",
            verdict=term(verdict),
        ),
    )
    if verdict == "closes":
        along = [place / (len(levels) - 1) for place in range(len(levels))]
        for place, level in enumerate(adjusted_m(levels, along, closed.misclosure_m), 1):
            yield Figure(tell("reckon.point_adjusted", place=place), f"{level:.4f} m")


LEVEL_RUN = Sum(
    name="level-run",
    title="A level run by rise and fall, its checks and its closure",
    formula="rise or fall = previous reading − this one, within one set-up; ΣBS − ΣFS = Σrises − "
    "Σfalls = last − first; allowed k√K mm",
    source="Ghilani and Wolf, Elementary Surveying (chapter from memory); k: SA Surveyor-General",
    caution="A reading booked wrongly at an intermediate point is seen by no check.",
    inputs=(
        Input(key="opening", says="known level of the first point", of=LENGTH),
        Input(
            key="reading",
            says="in the order booked; a staff upside down is negative",
            columns=(
                Input(
                    key="sight",
                    says="which",
                    words=("backsight", "intermediate", "foresight"),
                ),
                Input(key="reading", says="on the staff", of=LENGTH),
            ),
        ),
        Input(key="closing", says="known level of the last point", of=LENGTH, optional=True),
        Input(
            key="length",
            says="of the route, one way",
            of=LENGTH,
            usual="60 m",
            usual_from="a small site",
        ),
        Input(key="k", says="mm at one kilometre", usual="12", usual_from="third order"),
    ),
    work=_run,
    example='opening="50.000 m" reading="backsight; 1.432 m" reading="intermediate; 3.426 m" '
    'reading="foresight; 1.018 m" closing="50.412 m"',
)


def _ties(given: Given) -> tuple[Figure, ...]:
    from record.calc.tie_fit import Tie
    from record.calc.ties import fixes

    ties = [Tie(row["x"], row["y"], row["tape"], row.get("tolerance")) for row in given["tie"]]
    found = []
    for number, fix in enumerate(fixes(ties, given.get("side")), 1):
        found.append(
            Figure(tell("reckon.place", number=number), f"x {fix.x_m:.3f} m, y {fix.y_m:.3f} m")
        )
        found.append(Figure("  tapes meet at", fix.angle_deg, Dimension.ANGLE))
        off = ", ".join(f"{one * 1000:+.0f}" for one in fix.residuals_m)
        found.append(Figure("  each is off by", tell("reckon.mm_2", off=off)))
        found.append(Figure("  so", _agreement(fix.agreement, fix.suspects)))
    return tuple(found)


def _agreement(word: str, suspects: tuple[int, ...]) -> str:
    if word == "disagree" and suspects:
        named = " or ".join(tell("reckon.tie", place=place + 1) for place in suspects)
        return tell("reckon.they_disagree_wrong_may", named=named)
    return {"agree": "they agree", "disagree": "they disagree"}.get(word, "cannot be told")


TIES = Sum(
    name="ties",
    title="A place from tapes held at landmarks",
    formula="two: circles meet; three or more: least squares of the residuals",
    source="J. Mahun, Coordinate geometry, ch. E; Ghilani, Adjustment Computations, ch. 14",
    caution="Three ties that disagree show that one is wrong, and cannot say which.",
    inputs=(
        Input(
            key="tie",
            says="one tape",
            columns=(
                Input(key="x", says="of the landmark", of=LENGTH),
                Input(key="y", says="of the landmark", of=LENGTH),
                Input(key="tape", says="level distance", of=LENGTH),
                Input(key="tolerance", says="± of it", of=LENGTH, optional=True),
            ),
        ),
        Input(
            key="side",
            says="of the line from the first landmark to the second, looking along it",
            words=("left", "right"),
            optional=True,
        ),
    ),
    work=_ties,
    example='tie="22.00 m; 20.00 m; 14.142 m; 20 mm" tie="30.50 m; 14.00 m; 10.308 m; 20 mm" '
    'tie="10.00 m; 20.00 m; 19.799 m; 20 mm"',
)


def _drink(given: Given) -> tuple[Figure, ...]:
    people, days = given["people"], given["days"]
    if people < 0 or days < 0 or people != int(people):
        raise ValueError(f"{people:g} people for {days:g} days cannot be")
    litres = people * days * given["each"]
    found = [Figure("to keep", litres, Dimension.VOLUME)]
    if "kept" in given:
        short = litres - given["kept"]
        found.append(
            Figure("short by", short, Dimension.VOLUME) if short > 0 else Figure("so", "enough")
        )
    return tuple(found)


WATER = Sum(
    name="drinking-water",
    title="Drinking water to keep",
    formula="people × days × a day's water",
    source="one US gallon a person a day, common practice of civil defence (from memory)",
    caution="For drinking and the least washing. Heat, illness and children need more.",
    inputs=(
        Input(key="people", says="how many"),
        Input(key="days", says="how many"),
        Input(
            key="each",
            says="a person a day",
            of=Dimension.VOLUME,
            usual="1 gal",
            usual_from="common practice",
        ),
        Input(key="kept", says="what is kept", of=Dimension.VOLUME, optional=True),
    ),
    work=_drink,
    example='people=8 days=14 kept="160 L"',
)

SUMS = (LEVEL_RUN, TIES, WATER)
