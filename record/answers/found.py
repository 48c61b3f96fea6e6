"""The thing or part a tag names."""

from __future__ import annotations

from record.answers.refused import not_found
from record.fold import Thing
from record.readers import View


def find_thing(view: View, tag: str) -> Thing:
    """Return the thing, or the part of one (``AIR-IN/2``), with this tag. Raises NotFound."""
    whole, slash, key = tag.partition("/")
    thing = view.built.thing(whole)
    if thing is None:
        raise not_found(tag, f"nothing in this record is called {tag}", view.built.things)
    if not slash:
        return thing
    part = thing.part(key)
    if part is None:
        parts = [each.tag for each in thing.parts]
        raise not_found(tag, f"{whole} has no part {key}; its parts: {', '.join(parts)}", parts)
    return part
