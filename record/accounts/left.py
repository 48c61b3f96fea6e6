"""What is only there for a time, and how every valve and switch was left."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from record.entry.counted import withheld_said
from record.facts.faults import plain
from record.facts.values import Absent, Why
from record.fold import Happening, Thing, natural
from record.readers import View
from record.words import tell

WITH_A_POSITION = ("valve", "equipment", "drain", "door")
#: Where how a thing was left is written: kind of happening → its field.
LEFT = {"left as": "state", "serviced": "left_as"}
WORK = ("serviced", "repaired", "opened up")
#: Valves that the flow moves: nobody leaves them anyhow, until work on them might have.
BY_ITSELF = ("check", "flap", "overpressure")


@dataclass(frozen=True, slots=True)
class StillOn:
    """Something temporary that nobody wrote down as taken off."""

    thing: Thing

    @property
    def words(self) -> str:
        where = f", {self.thing.words('where')}" if self.thing.text("where") else ""
        return tell(
            "accounts.on_must_be_off",
            what=self.thing.words("what"),
            on_thing=self.thing.words("on_thing"),
            where=where,
            off_before=self.thing.words("off_before"),
        )


@dataclass(frozen=True, slots=True)
class Position:
    """
    How a thing was left last, against how it normally is.

    ``touched`` is work on it that may be later than that, ``other`` another statement of the same
    day that differs where hours do not tell which is the later, ``unseen`` the day of such work
    where the reader may not see it.
    """

    thing: Thing
    left: Happening | None
    touched: Happening | None = None
    other: Happening | None = None
    unseen: str = ""

    @property
    def left_words(self) -> str | None:
        """How it was left, as written; None where nobody wrote it."""
        return self.left.text(LEFT[self.left.kind.word]) if self.left else None

    @property
    def state(self) -> str:
        """
        normal, not normal, not known, or "left" where no normal position is recorded; "by itself"
        for a valve that the flow moves, of which nobody wrote anything.

        "in other words" is the normal position with more said after it ("free, pin out"): who
        reads it judges whether that is the same.
        """
        said = self.left_words
        if said is None and self.moves_itself and not (self.touched or self.unseen):
            return "by itself"
        if said is None or self.touched or self.other or self.unseen:
            return "not known"
        normal = self.thing.text("normal_position")
        if normal is None:
            return "left"
        if plain(normal) == plain(said):
            return "normal"
        return "in other words" if _first(normal) == _first(said) else "not normal"

    @property
    def moves_itself(self) -> bool:
        return self.thing.text("type") in BY_ITSELF and self.thing.kind.word == "valve"

    @property
    def for_a_time(self) -> bool:
        """Whether it was left so only until something, and not as it normally is."""
        return bool(self.left and self.left.text("until")) and self.state != "normal"

    @property
    def words(self) -> str:
        normal = tell("accounts.normally", normal_position=self.thing.words("normal_position"))
        if self.state == "by itself":
            return tell("accounts.moves_by_itself_nobody", normal=normal)
        if self.left is None:
            worked = tell("accounts.though", touched=_told(self.touched)) if self.touched else ""
            return tell("accounts.position_not_known_nobody", worked=worked, normal=normal)
        last = _left(self.left)
        if self.touched is not None:
            return tell(
                "accounts.position_not_known_then",
                last=last,
                touched=_told(self.touched),
                normal=normal,
            )
        if self.other is not None:
            return tell(
                "accounts.position_not_known_and", other=_left(self.other), last=last, normal=normal
            )
        if self.unseen:
            return tell(
                "accounts.position_not_known_worked", last=last, unseen=self.unseen, normal=normal
            )
        until = (
            tell("accounts.until", until=self.left.words("until"))
            if self.left.text("until")
            else ""
        )
        said = f"{last}{until}; {normal}"
        if self.state in ("not known", "not normal"):
            key = self.state.replace(" ", "_")
            return tell(f"accounts.position.{key}", said=said)
        return said


def _left(one: Happening) -> str:
    return tell(
        "accounts.left",
        words=one.words(LEFT[one.kind.word]),
        moment=one.moment,
        number=one.entry.number,
    )


def _told(one: Happening) -> str:
    return f"{one.kind.word} {one.moment} ({one.entry.number})"


def _first(words: str) -> str:
    return plain(words.partition(",")[0])


def still_on(view: View) -> tuple[StillOn, ...]:
    """Return everything temporary that was not taken off since it was last put on, by tag."""
    off = {one.about: one for one in view.built.happened("taken off")}
    return tuple(
        StillOn(thing)
        for thing in view.built.of_kind("temporary")
        if thing.tag not in off or _on_again(thing, off[thing.tag])
    )


def _on_again(thing: Thing, off: Happening) -> bool:
    """Whether it was stated anew after it came off; a mend only says better what was."""
    return any(
        entry.content is not None
        and not entry.content.replaces
        and (entry.content.on, entry.content.at or "") > (off.on, off.at or "~")
        for entry in thing.entries()
    )


def positions(view: View) -> tuple[Position, ...]:
    """
    Return how everything with a normal position, or of which somebody wrote it, was left.

    A thing served, repaired or opened after it was last left, or by somebody else on the same day
    where hours do not tell, is in no known position until somebody says how it was left.
    """
    built = view.built
    found = {
        thing.tag: thing
        for kind in WITH_A_POSITION
        for thing in built.of_kind(kind)
        if thing.held("normal_position") or any(map(_says, built.about(thing.tag, *LEFT)))
    }
    for one in built.happened("left as"):
        thing = built.thing(one.about)
        if thing is not None:
            found.setdefault(thing.tag, thing)
    return tuple(position(view, thing) for thing in found.values())


def position(view: View, thing: Thing) -> Position:
    """Return how one thing was left."""
    about = [*view.built.about(thing.tag, *LEFT)]
    lefts = [one for one in about if one.about == thing.tag and _says(one)]
    left = lefts[-1] if lefts else None
    # What hangs on a pipe is not moved by work on the pipe.
    moved = view.built.about(thing.tag, *WORK) if thing.kind.word in WITH_A_POSITION else ()
    touched = [
        one for one in moved if not _says(one) and not _unmoved(one) and not _before(one, left)
    ]
    rivals = [one for one in lefts[:-1] if left and _contradicts(one, left)]
    unseen = [
        one.on
        for one in (view.doings() if left and view.partial else ())  # else nothing is unseen
        if one.happening is None and thing.tag in one.touched and left and one.on >= left.on
    ]
    return Position(
        thing,
        left,
        touched=touched[-1] if touched else None,
        other=rivals[-1] if rivals else None,
        unseen=unseen[0] if unseen else "",
    )


def _says(one: Happening) -> bool:
    """Whether it has a word on how the thing was left, if only that this is not recorded."""
    field = LEFT.get(one.kind.word)
    return field is not None and bool(one.held(field)) and not _unmoved(one)


def _unmoved(one: Happening) -> bool:
    """Whether a service sheet says that how it is left does not apply: it was not moved."""
    value = one.value(LEFT.get(one.kind.word, ""))
    return isinstance(value, Absent) and value.why is Why.NOT_APPLICABLE


def _before(one: Happening, left: Happening | None) -> bool:
    """Whether work was surely over when the thing was left."""
    if left is None or one.on != left.on:
        return left is not None and one.on < left.on
    if one.at and left.at:
        return one.at <= left.at
    # Who writes both on one day writes how it was left of the end of the work.
    return one.entry.link.writer == left.entry.link.writer


def _contradicts(one: Happening, left: Happening) -> bool:
    same = one.words(LEFT[one.kind.word]) == left.words(LEFT[left.kind.word])
    return not same and one.on == left.on and not _before(one, left)


def for_a_time(places: Iterable[Position]) -> tuple[Position, ...]:
    """Return what was left in a state that ends: "transit plug in, until hand-over"."""
    return tuple(place for place in places if place.for_a_time)


def open_visits(places: Iterable[Position]) -> Mapping[tuple[str, str], tuple[str, ...]]:
    """
    Return the visits that are not closed: (day, who wrote of it) → what was left in no position.

    A visit is a day's work by one writer; it closes once everything it moved is in a stated
    position.
    """
    found: dict[tuple[str, str], list[str]] = {}
    for place in places:
        if place.touched is not None:
            visit = (place.touched.on, place.touched.entry.link.writer)
            found.setdefault(visit, []).append(place.thing.tag)
    return {visit: tuple(sorted(tags, key=natural)) for visit, tags in sorted(found.items())}


def words(on: Sequence[StillOn], places: Sequence[Position], withheld: int = 0) -> Iterator[str]:
    """Yield what must come off, the visits still open, then positions, unknown ones first."""
    ends = for_a_time(places)
    yield "STILL ON" if on or ends else "Nothing temporary is recorded as still on."
    for one in on:
        yield f"  {one.thing.tag}: {one.words}"
    for end in ends:
        yield f"  {end.thing.tag}: {end.words}"
    if withheld:
        yield f"  {withheld_said(withheld)} from this reader, and may say more."
    visits = open_visits(places)
    if visits:
        yield ""
        yield "VISITS NOT CLOSED"
        for (day, writer), tags in visits.items():
            yield f"  {day}, {writer}: nobody wrote how {', '.join(tags)} was left"
    if not places:
        return
    yield ""
    yield "HOW THINGS WERE LEFT"
    rank = {"not known": 0, "not normal": 1, "in other words": 2}
    for place in sorted(places, key=lambda one: rank.get(one.state, 3)):
        yield f"  {place.thing.tag}: {place.words}"


def form(on: Sequence[StillOn], places: Sequence[Position]) -> dict[str, object]:
    """Return the JSON form of both."""
    return {
        "still_on": [
            {
                "tag": one.thing.tag,
                "what": one.thing.text("what"),
                "on": one.thing.text("on_thing"),
                "off_before": one.thing.text("off_before"),
                "entries": [entry.number for entry in one.thing.entries()],
            }
            for one in on
        ],
        "positions": [
            {
                "tag": one.thing.tag,
                "state": one.state,
                "left": one.left_words,
                "until": one.left.text("until") if one.left else None,
                "moment": one.left.moment if one.left else None,
                "normal": one.thing.text("normal_position"),
                "entry": one.left.entry.number if one.left else None,
                "touched_since": one.touched.entry.number if one.touched else None,
            }
            for one in places
        ],
        "open_visits": [
            {"day": day, "writer": writer, "left_in_no_position": list(tags)}
            for (day, writer), tags in open_visits(places).items()
        ],
    }
