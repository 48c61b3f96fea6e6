"""Questions on a terminal: one field at a time, with the words and tags that would do."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from record.cli.app import Refused

if TYPE_CHECKING:
    from record.facts import Kind
    from record.facts.fields import Field
    from record.fold import AsBuilt

OFFERED = 9  # what one key chooses


def answer(prompt: str) -> str:
    """Return what is typed. Ctrl-C and the end of input stop it: Refused, and nothing is kept."""
    try:
        return " ".join(input(prompt).split())
    except (EOFError, KeyboardInterrupt):
        print()
        raise Refused("stopped; nothing was recorded", 130) from None


def ask_field(built: AsBuilt, kind: Kind, field: Field) -> str:
    """Ask for one field until what is typed can be read; Enter twice is "not recorded"."""
    from record.facts.faults import ValueFault

    offered = _offered(built, field, "")
    _show(offered)
    asked_again = False
    while True:
        said = _chosen(answer(f"{kind.word}, {field.key} ({field.holds.says}): "), offered)
        if not said:
            if asked_again:
                return "not recorded"
            print('Enter once more for "not recorded"; none, and n/a with a reason, are others.')
            asked_again = True
            continue
        try:
            field.read(said)
        except ValueFault as fault:
            print(f"{fault.problem}. {fault.remedy}")
        else:
            unknown = _unknown(built, field, said)
            if not unknown:
                return said
            print(f"nothing suitable has the tag {unknown}")
            offered = _offered(built, field, unknown)
            _show(offered)
        asked_again = False


def ask_tag(built: AsBuilt, kind: Kind, said: str) -> str:
    """
    Ask which thing it is about, the nearest to ``said`` first.

    A new thing takes any tag; Enter is the site, where the kind may be of the site.
    """
    from record.facts import Sort
    from record.facts.named import TAG

    new = kind.sort is Sort.THING
    while True:
        offered = near(things(built, (kind.word,) if new else kind.about), said)
        if said:
            print(f"nothing here has the tag {said}")
        _show(offered)
        which = "its tag, new or known" if new else "the tag of what it is about"
        more = "; Enter for the site" if kind.tagless else ""
        typed = _chosen(answer(f"{kind.word}, {which}{more}: "), offered)
        if not typed and kind.tagless:
            return ""
        if typed and TAG.fullmatch(typed) and (new or built.thing(typed)):
            return typed
        said = typed


def things(built: AsBuilt, kinds: Sequence[str]) -> list[str]:
    """Return the tags of the things of these kinds, of all if none is named, in order."""
    from record.fold import natural

    found = (t.tag for t in built.things.values() if not kinds or t.kind.word in kinds)
    return sorted(found, key=natural)


def near(tags: Sequence[str], said: str) -> list[str]:
    """Return the few tags that are most like what was said; the first few where nothing was."""
    from difflib import get_close_matches

    by_case = {tag.casefold(): tag for tag in tags}
    found = get_close_matches(said.casefold(), by_case, OFFERED, 0.4) if said else []
    return [by_case[one] for one in found] or list(tags[:OFFERED])


def _offered(built: AsBuilt, field: Field, said: str) -> list[str]:
    """Return what may be chosen by its number."""
    from record.facts.fields import OneOf, YesNo
    from record.facts.named import TagOf, TagsOf

    match field.holds:
        case OneOf(words):
            return list(words)
        case YesNo():
            return ["yes", "no"]
        case TagOf(kinds) | TagsOf(kinds):
            return near(things(built, kinds), said)
        case _:
            return []


def _unknown(built: AsBuilt, field: Field, said: str) -> str:
    """Return the first tag in what was said that no thing of the right kind has."""
    from record.facts.named import TagOf, TagsOf

    holds = field.holds
    if not isinstance(holds, TagOf | TagsOf):
        return ""
    value = field.read(said)
    tags = (value,) if isinstance(value, str) else value if isinstance(value, tuple) else ()
    known = set(things(built, holds.kinds))
    return next((tag for tag in tags if tag.partition("/")[0] not in known), "")


def _show(offered: Sequence[str]) -> None:
    for number, word in enumerate(offered, start=1):
        print(f"  {number}  {word}")


def _chosen(typed: str, offered: Sequence[str]) -> str:
    """Return the word a number chooses, or what was typed."""
    if typed.isdecimal() and 1 <= int(typed) <= len(offered):
        return offered[int(typed) - 1]
    return typed
