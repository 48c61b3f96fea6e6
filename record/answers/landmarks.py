"""Which landmarks still stand, and what becomes harder to find without one, and by how much."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from record.answers.behind_panel import further
from record.answers.find_tapes import lost, tapes
from record.answers.find_values import Tapes
from record.answers.refused import not_found
from record.answers.saying import length, section, wrapped
from record.calc.combine import root_sum_square
from record.place import stations
from record.place.accuracy import accuracy
from record.place.run_shapes import doubt
from record.place.solids import called
from record.readers import View

#: Kinds that stand in the open or in no one spot: nobody digs for them by tape.
NOT_DUG_FOR = ("landmark", "benchmark", "site", "hull", "run")
WIDER_M = 0.005  # a circle that grows by less than this is as good as before


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """One place that is found by tapes: its tag, where it is and how well that is known."""

    tag: str
    words: str
    at: tuple[float, float]
    tolerance_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Harder:
    """
    One spot with and without a landmark. ``circle`` is the radius to dig in, metres; None where
    fewer than two landmarks are left to tape it from.
    """

    tag: str
    words: str
    circle_with_m: float | None
    circle_without_m: float | None
    tapes_with: tuple[str, ...]
    tapes_without: tuple[str, ...]
    checked_with: bool
    checked_without: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """One landmark, whether it stands as far as was written, and what is taped from it best."""

    tag: str
    what: str
    stands: bool
    state: str
    best_for: tuple[str, ...]
    entries: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Without:
    """What becomes harder to find without one landmark; ``spots`` is of how many."""

    landmark: str
    lost: bool
    spots: int
    harder: tuple[Harder, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Landmarks:
    landmarks: tuple[Standing, ...]
    without: tuple[Without, ...]  # each that is lost, or the one asked about
    reader: str
    as_of: str | None
    further_entries: str


def landmarks(view: View, tag: str | None = None) -> Landmarks:
    """
    Return the landmarks, and what is harder to find without those lost, or without ``tag``.

    Raises NotFound where no landmark has that tag.
    """
    gone = lost(view.built)
    marks = [mark.tag for mark in view.built.of_kind("landmark")]
    if tag is not None and tag not in marks:
        raise not_found(tag, f"no landmark {tag}", marks)
    spots = tuple(_spots(view))
    best = {spot.tag: tapes(view.built, spot.at, spot.tag) for spot in spots}
    return Landmarks(
        landmarks=tuple(_standing(view, mark, gone, best) for mark in marks),
        without=tuple(_without(view, mark, gone, spots) for mark in ([tag] if tag else gone)),
        reader=view.reader,
        as_of=view.built.as_of,
        further_entries=further(view),
    )


def _spots(view: View) -> Iterator[Spot]:
    for run in view.built.of_kind("run"):
        for one in stations(run, view.hulls):
            if one.x is not None and one.y is not None and not one.hull:
                across = doubt(one, "", view.hulls)[0]
                words = f"{called(run)}, station {one.key} {one.name}"
                yield Spot(tag=one.thing.tag, words=words, at=(one.x, one.y), tolerance_m=across)
    for thing in view.built.things.values():
        x, y = thing.si("x"), thing.si("y")
        if thing.kind.word not in NOT_DUG_FOR and x is not None and y is not None:
            across = accuracy(thing).horizontal_m
            yield Spot(
                tag=thing.tag, words=called(thing), at=(float(x), float(y)), tolerance_m=across
            )


def _standing(
    view: View, tag: str, gone: dict[str, str], best: dict[str, Tapes | None]
) -> Standing:
    mark = view.built.things[tag]
    return Standing(
        tag=tag,
        what=mark.words("what"),
        stands=tag not in gone,
        state=gone.get(tag) or mark.words("state"),
        best_for=tuple(spot for spot, pulled in best.items() if tag in _hooked(pulled)),
        entries=tuple(entry.number for entry in mark.entries()),
    )


def _hooked(pulled: Tapes | None) -> tuple[str, ...]:
    return () if pulled is None else (pulled.first.landmark, pulled.second.landmark)


def _without(view: View, tag: str, gone: dict[str, str], spots: tuple[Spot, ...]) -> Without:
    standing, missing = set(gone) - {tag}, set(gone) | {tag}
    harder = []
    for spot in spots:
        first = tapes(view.built, spot.at, spot.tag, standing)
        then = tapes(view.built, spot.at, spot.tag, missing)
        found = Harder(
            tag=spot.tag,
            words=spot.words,
            circle_with_m=_circle(spot, first),
            circle_without_m=_circle(spot, then),
            tapes_with=_hooked(first),
            tapes_without=_hooked(then),
            checked_with=first is not None and first.check is not None,
            checked_without=then is not None and then.check is not None,
        )
        if _is_harder(found):
            harder.append(found)
    return Without(
        landmark=tag,
        lost=tag in gone,
        spots=len(spots),
        harder=tuple(sorted(harder, key=lambda one: -_growth(one))),
    )


def _circle(spot: Spot, pulled: Tapes | None) -> float | None:
    return None if pulled is None else root_sum_square(spot.tolerance_m, pulled.meets_within_m)


def _is_harder(one: Harder) -> bool:
    if one.circle_with_m is None:
        return False  # it could not be taped before either
    return _growth(one) > WIDER_M or (one.checked_with and not one.checked_without)


def _growth(one: Harder) -> float:
    if one.circle_without_m is None:
        return float("inf")
    return one.circle_without_m - (one.circle_with_m or 0.0)


def landmarks_words(answer: Landmarks) -> list[str]:
    """Return the answer in lines of at most 100 columns."""
    stand = sum(one.stands for one in answer.landmarks)
    lines = [f"LANDMARKS: {len(answer.landmarks)} on record, {stand} not told as lost."]
    lines += wrapped(f"Reader: {answer.reader}. {answer.further_entries}", 0, 2)
    for one in answer.landmarks:
        lines += wrapped(_mark(one))
    for without in answer.without:
        lines += section(_heading(without), map(_line, without.harder))
        if not without.harder:
            lines += ["", *wrapped(_heading(without), 0, 2)]
    return lines


def _mark(one: Standing) -> str:
    known = one.state if one.state != "not recorded" else "whether it still stands is not recorded"
    said = known if one.stands else f"LOST, {known}"
    best = f"; best tape for {len(one.best_for)}: {', '.join(one.best_for)}" if one.best_for else ""
    return f"{one.tag}, {one.what}: {said}{best} [{', '.join(one.entries)}]"


def _heading(without: Without) -> str:
    verb = "became" if without.lost else "would become"
    if not without.harder:
        return (
            f"WITHOUT {without.landmark} nothing {verb} harder to find, of {without.spots} spots."
        )
    return (
        f"WITHOUT {without.landmark}: {len(without.harder)} of {without.spots} spots {verb} "
        "harder to find"
    )


def _line(one: Harder) -> str:
    before = "not by tapes" if one.circle_with_m is None else length(one.circle_with_m)
    by = f"by {' and '.join(one.tapes_with)}"
    if one.circle_without_m is None:
        after = "CANNOT BE TAPED any more: fewer than two landmarks are left"
        return f"{one.tag}, {one.words}: a circle of {before} {by}; {after}"
    after = f"{length(one.circle_without_m)} by {' and '.join(one.tapes_without)}"
    check = "" if one.checked_without or not one.checked_with else "; no third is left to check by"
    return f"{one.tag}, {one.words}: a circle of {before} {by}, then of {after}{check}"
