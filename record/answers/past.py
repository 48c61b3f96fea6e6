"""What was done to a panel, to what may lie behind it, and at this very place."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from record.accounts.proof_words import doubts
from record.answers.behind_values import Past, Photo
from record.answers.saying import key, people, value
from record.facts.looks import LOOKS, PROOFS
from record.fold import AsBuilt, Happening, Thing
from record.place import FaceFrame, Shape
from record.readers import View

DONE = (
    *LOOKS,
    "repaired",
    "coat applied",
    "photographed",
    "serviced",
    "hold waived",
    "covered",
    "uncovered",
    "left as",
    "proof lapsed",
    "worked by others",
    "opened up",
    "remark",
)
PROVING = (*PROOFS, "proof lapsed")
WORKED = ("worked by others", "opened up")  # told by a place, and not always by a tag
UNSAID = ("sha256", "file", "camera_time", "camera_direction", "camera_place", "shows", "tags")
NEAR_M = 0.30  # work of others whose place was not measured to better than a hand's reach


def past_work(
    view: View, panel: Thing, frame: FaceFrame | None, shapes: Iterable[Shape]
) -> tuple[Past, ...]:
    """
    Return what happened here, by day and hour: to the panel and the things met, to the place,
    the tests of the hull or room that a hole here may void, and the coats of the room.
    """
    built = view.built
    about = {panel.tag, *(shape.thing.tag for shape in shapes)}
    room = {tag for tag in (panel.text("room"),) if tag}
    whole = room | {tag for tag in (panel.text("hull"), built.site) if tag}
    void = doubts(view, about | whole)
    asked = ((about, DONE), (whole, PROVING), (room, ("coat applied",)), (None, WORKED))
    return tuple(
        _past(happening, void)
        for happening in built.happened_to(*asked)
        if happening.kind.word not in WORKED
        or happening.concerns() & about
        or worked_here(built, happening, panel, frame)
    )


REOPENING = ("worked by others", "opened up", "uncovered", "repaired")


def worked_since(view: View, panel: Thing, frame: FaceFrame | None) -> tuple[str, ...]:
    """
    Return the work at a panel since somebody said to have looked behind it, each in words.

    Of one day without hours the work may be the later. What the reader may not see is told by its
    day alone: it may have put something behind the panel too.
    """
    looked = max(panel.held("looked_at"), key=lambda held: (held.on, held.at or ""), default=None)
    if looked is None:
        return ()
    seen = [
        (one.on, one.at, f"{one.kind.word} {one.moment} ({one.entry.number})")
        for one in view.built.happened(*REOPENING)
        if panel.tag in one.concerns() or worked_here(view.built, one, panel, frame)
    ]
    unseen = [
        (one.on, one.at, f"work on {one.on} that this reader does not see")
        for one in view.doings()
        if one.happening is None and panel.tag in one.touched
    ]
    since = [
        words
        for on, at, words in (*seen, *unseen)
        if on > looked.on or (on == looked.on and not (at and looked.at and at < looked.at))
    ]
    return tuple(dict.fromkeys(since))


def photos_of(view: View, panel: Thing, shapes: Iterable[Shape]) -> tuple[Photo, ...]:
    """Return the pictures of a panel and of what may lie behind it, oldest first."""
    about = {panel.tag, *(shape.thing.tag for shape in shapes)}
    return tuple(map(_photo, view.built.happened_to((about, ("photographed",)))))


def _photo(one: Happening) -> Photo:
    content, link = one.entry.content, one.entry.link
    who = (content.did, content.saw, content.by) if content else (None, None, None)
    kept = one.text("sha256")
    return Photo(
        on=one.on,
        at=one.at,
        caption=one.words("caption"),
        looking=one.words("looking"),
        scale=one.words("scale"),
        shows=one.tags("shows"),
        who=people(*who, link.writer),
        file=f"photos/{kept}" if kept else "not recorded",
        entry=one.entry.number,
    )


def worked_here(
    built: AsBuilt, happening: Happening, panel: Thing, frame: FaceFrame | None
) -> bool:
    """
    Return whether it was worked on within the panel, as far as they said where.

    Who named a board of another face and left a measure out did not work on this one.
    """
    if happening.kind.word not in WORKED:
        return False
    if happening.text("hull") != panel.text("hull") or frame is None:
        return False
    a, across, level = (happening.si(name) for name in ("from_near", "from_left", "level"))
    origin = frame.origin
    at = (
        origin[0] if a is None else float(a),
        origin[1] if across is None else float(across),
        origin[2] if level is None else float(level) - frame.hull.origin[2],
    )
    u, v, d = frame.to_face(at)
    said = (a is not None, across is not None, level is not None)
    if sum(said) < 2 or (sum(said) < 3 and _named_elsewhere(built, happening, panel)):
        return False
    if frame.hull.round and frame.face in ("left", "right", "floor", "ceiling"):
        # Height on a curve and depth behind a flat panel hang together: only along is asked.
        return -NEAR_M <= u <= frame.width_m + NEAR_M
    lining = frame.lining_m if frame.lining_m is not None else frame.front_m
    on_face = d >= -NEAR_M - lining
    return (
        on_face
        and -NEAR_M <= u <= frame.width_m + NEAR_M
        and -NEAR_M <= v <= frame.height_m + NEAR_M
    )


def _named_elsewhere(built: AsBuilt, happening: Happening, panel: Thing) -> bool:
    """Return whether the work names boards of this hull, and each on another face."""
    things = (built.thing(tag) for tag in happening.concerns())
    faces = {one.text("face") for one in things if one and one.kind.word == "panel"}
    return bool(faces) and faces.isdisjoint({panel.text("face"), None})


def _past(happening: Happening, void: Mapping[str, str]) -> Past:
    content, link = happening.entry.content, happening.entry.link
    who = (content.did, content.saw, content.by) if content else (None, None, None)
    return Past(
        on=happening.on,
        at=happening.at,
        kind=happening.kind.word,
        about=happening.about,
        words="; ".join(stated_words(happening)),
        who=people(*who, link.writer),
        entry=happening.entry.number,
        void=void.get(happening.entry.hash, ""),
    )


def stated_words(happening: Happening) -> Iterator[str]:
    """Yield what a happening says, field by field, in the order its kind has them."""
    said = [
        f.name for f in happening.kind.fields if f.name not in UNSAID and happening.held(f.name)
    ]
    for number, name in enumerate(said):
        words = value(happening.kind, name, happening.value(name))
        yield words if number == 0 else f"{key(name)}: {words}"
