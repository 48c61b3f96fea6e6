"""What the record does not say: of a panel, of usual services, of things without a place."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from record.answers.behind_values import Anywhere, Disagreement, LookedAt, Unread
from record.answers.saying import key
from record.facts.values import Absent, in_words
from record.fold import AsBuilt, Stated, Thing, natural
from record.place import Shape, is_round
from record.place.hull_frames import ON_GRID
from record.readers import View
from record.words import tell, term

SERVICES = ("supply air", "exhaust air", "condensate", "drinking water", "power", "signal")
PANEL_NEEDS = {
    "left": ("from_near", "bottom"),
    "right": ("from_near", "bottom"),
    "near": ("from_left", "bottom"),
    "far": ("from_left", "bottom"),
    "floor": ("from_near", "from_left"),
    "ceiling": ("from_near", "from_left"),
}
HULL_NEEDS = ("inside_length", "steel_thickness", "floor_level")


def not_measured(built: AsBuilt, panel: Thing) -> tuple[str, ...]:
    """Return which measures are missing without which nothing can be placed behind a panel."""
    names = ("hull", "face", "width", "height", *PANEL_NEEDS.get(panel.text("face") or "", ()))
    missing = [f"{panel.tag} {term(key(name))}" for name in names if _lacks(panel, name)]
    hull = built.thing(panel.text("hull"))
    if hull is None or hull.kind.word != "hull":
        return (
            *missing,
            *(() if _lacks(panel, "hull") else (f"{term('hull')} {panel.words('hull')}",)),
        )
    section = ("inside_diameter",) if is_round(hull) else ("inside_width", "inside_height")
    shape = ("shape",) if "shape" in hull.unsettled() else ()
    needs = (*shape, *HULL_NEEDS, *section)
    return (*missing, *(f"{hull.tag} {term(key(name))}" for name in needs if _lacks(hull, name)))


def off_grid(hull: Thing) -> tuple[str, ...]:
    """Return which measures of a hull's place on the site grid are not recorded."""
    return tuple(f"{hull.tag} {term(key(name))}" for name in ON_GRID if _lacks(hull, name))


def _lacks(thing: Thing, name: str) -> bool:
    return isinstance(thing.value(name), Absent)


NOT_LOOKED, PARTLY, LOOKED = "not looked at", "partly", "looked at"
NOTHING_ELSE = "looked at, nothing else seen"
LOOKED_WORDS = (NOT_LOOKED, PARTLY, LOOKED, NOTHING_ELSE)


def looked_at(panel: Thing) -> LookedAt:
    """Return whether anybody looked behind a panel; not recorded counts as not looked at."""
    said = panel.text("looked_at")
    text = (said or "").casefold()
    if said is None or re.search(r"\bnot (looked|seen|opened)|\bno(body| one)\b", text):
        state = NOT_LOOKED
    elif re.search(r"\bpart(ly|ial|ially|s)?\b|\bonly\b|\bexcept\b|\bnot\b", text):
        state = PARTLY
    elif "nothing else seen" in text:
        state = NOTHING_ELSE
    else:
        state = LOOKED
    entries = tuple(held.entry.number for held in panel.held("looked_at"))
    return LookedAt(state=state, words=panel.words("looked_at"), entries=entries)


def services(view: View) -> tuple[tuple[str, ...], tuple[str, ...], tuple[str, ...]]:
    """Return usual services with no run on record, those with none placed, and silent runs."""
    runs = list(view.built.of_kind("run"))
    placed = {shape.thing.tag for shape in view.shapes if shape.thing.kind.word == "run"}
    carried = {service: [r for r in runs if r.text("carries") == service] for service in SERVICES}
    return (
        tuple(service for service, found in carried.items() if not found),
        tuple(
            service
            for service, found in carried.items()
            if found and not any(run.tag in placed for run in found)
        ),
        tuple(run.tag for run in runs if run.text("carries") is None),
    )


def anywhere(view: View, panel: Thing, met: Iterable[str]) -> tuple[Anywhere, ...]:
    """Return what has no place on record; what is said to be behind this panel comes first."""
    met = set(met)
    found = {
        (each.thing.tag, each.words): Anywhere(
            tag=each.thing.tag,
            words=each.words,
            said_behind=panel.tag in each.thing.tags("behind"),
        )
        for each in view.nearby.unplaced
    }
    for store in view.built.of_kind("store"):
        if panel.tag in store.tags("behind") and store.tag not in met:
            found.setdefault(
                (store.tag, "store"),
                Anywhere(tag=store.tag, words="store", said_behind=True),
            )
    return tuple(sorted(found.values(), key=lambda a: (not a.said_behind, natural(a.tag), a.words)))


def taint(view: View, tags: Iterable[str]) -> tuple[Unread, ...]:
    """Return how many entries about these tags could not be read."""
    counted = ((tag, view.unread.get(tag, 0)) for tag in dict.fromkeys(tags))
    return tuple(Unread(tag=tag, count=count) for tag, count in counted if count)


def disagreements(
    panel: Thing, hull: Thing | None, shapes: Iterable[Shape]
) -> Iterator[Disagreement]:
    """Yield every field with two statements that differ, of the panel, its hull and things met."""
    things = [panel, *([hull] if hull else []), *(shape.thing for shape in shapes)]
    for thing in {thing.tag: thing for thing in things}.values():
        for stated in (thing, *thing.parts):
            yield from disagreements_of(stated.tag, stated)


def disagreements_of(tag: str, stated: Stated) -> Iterator[Disagreement]:
    for name in stated.unsettled():
        said = "; ".join(
            tell("values.says", number=h.entry.number, value=in_words(h.value))
            for h in stated.held(name)
        )
        yield Disagreement(tag=tag, field=key(name), words=said)
