"""Every entry about what will be hidden could be read."""

from __future__ import annotations

from collections.abc import Iterator

from record.checks.finding import CANNOT_BE_TOLD, Finding, Rule
from record.checks.hidden import Hidden
from record.entry import Entry
from record.facts.values import Unread
from record.fold import Stated


def find(hidden: Hidden) -> Iterator[Finding]:
    """Find entries, and single values, of a form this version does not know."""
    for thing in (hidden.covering, *hidden.everything()):
        for unread in hidden.built.unread:
            if thing.tag in _names(unread.entry):
                yield _finding(thing.tag, f"{unread.entry.number}: {unread.why}", unread.entry)
        stated: list[Stated] = [thing, *thing.parts, *hidden.built.about(thing.tag)]
        for one in stated:
            for name, held in one.fields.items():
                for value in held:
                    if isinstance(value.value, Unread):
                        said = f"{value.entry.number}: {name.replace('_', ' ')} is unread"
                        yield _finding(thing.tag, said, value.entry)


def _names(entry: Entry) -> set[str]:
    """Return the tags an unread entry is about or holds anywhere in a list or a word."""
    content = entry.content
    if content is None:
        return set()
    found = {content.about.partition("/")[0]}
    for value in content.body.values():
        found.update(v for v in (value if isinstance(value, list) else [value]) if _word(v))
    return found


def _word(value: object) -> bool:
    return isinstance(value, str)


def _finding(tag: str, said: str, entry: Entry) -> Finding:
    return RULE.finding(
        tag,
        f"an entry about it cannot be read here: {said}",
        clears=(
            f"asburied show {entry.number}",
            "ask its writer what it says, or ask with the version it was written with",
        ),
        entries=(entry,),
        sure=CANNOT_BE_TOLD,
    )


RULE = Rule(
    word="every entry read",
    why=(
        "What cannot be read may be the one thing that says stop. It is kept, and nothing about "
        "its tag is taken as settled."
    ),
    find=find,
)
