"""The thing or part a tag names."""

from __future__ import annotations

from record.answers.refused import not_found
from record.fold import Thing
from record.readers import View


def _entry_of(view: View, number: str) -> str | None:
    """Return what the entry of that number is about, where this reader may read it."""
    named = (e.content for e in view.built.entries if e.number == number and e.content)
    return next((content.about.partition("/")[0] for content in named), None)


def find_thing(view: View, tag: str) -> Thing:
    """Return the thing, or the part of one (``AIR-IN/2``), with this tag. Raises NotFound."""
    whole, slash, key = tag.partition("/")
    thing = view.built.thing(whole)
    if thing is None and (about := _entry_of(view, tag)):
        say = f"{tag} is an entry, of {about}: `asburied history {about}` tells it in full"
        raise not_found(tag, say, ())
    if thing is None:
        raise not_found(tag, f"nothing in this record is called {tag}", view.built.things)
    if not slash:
        return thing
    part = thing.part(key)
    if part is None:
        parts = [each.tag for each in thing.parts]
        raise not_found(tag, f"{whole} has no part {key}; its parts: {', '.join(parts)}", parts)
    return part
