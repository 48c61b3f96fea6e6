"""No two statements about what will be hidden differ."""

from __future__ import annotations

from collections.abc import Iterator

from record.checks.finding import CANNOT_BE_TOLD, Finding, Rule
from record.checks.hidden import Hidden
from record.facts import KINDS, STORED
from record.facts.values import in_words
from record.fold import Held, Stated, Thing


def find(hidden: Hidden) -> Iterator[Finding]:
    """Find fields of things, of their parts and of what happened to them that are unsettled."""
    met: set[tuple[str, ...]] = set()
    for thing in (hidden.covering, *hidden.everything()):
        said: list[tuple[str, Stated]] = [(thing.tag, thing)]
        said += [(f"{part.kind.key} {_row(part)}", part) for part in thing.parts]
        said += [
            (f"{thing.tag}, {one.kind.word} {one.moment}", one)
            for one in hidden.built.about(thing.tag)
        ]
        for where, stated in said:
            for name in stated.unsettled():
                numbers = tuple(held.entry.number for held in stated.held(name))
                if (name, *numbers) not in met:
                    met.add((name, *numbers))
                    yield _finding(thing.tag, where, stated, name, numbers)


def _finding(tag: str, where: str, stated: Stated, name: str, numbers: tuple[str, ...]) -> Finding:
    held = stated.held(name)
    told = "; ".join(f"{one.entry.number} says {in_words(one.value)}" for one in held)
    key = name.replace("_", " ")
    place = "" if where == tag else f"{where}: "
    return RULE.finding(
        tag,
        f"{place}{key} is told in two ways: {told}",
        clears=(
            f"look again while it is open, then mend both at once under ## {_heading(held[0])}:",
            f"- mends: {', '.join(numbers)}",
            "- because: who looked, and how",
            *_statement(stated, key),
        ),
        entries=(one.entry for one in held),
        sure=CANNOT_BE_TOLD,
    )


def _row(part: Thing) -> str:
    return part.text(part.kind.key) or part.key


def _heading(held: Held) -> str:
    """Return the heading under which a field is written: of the whole, for a row of it."""
    content = held.entry.content
    if content is None:
        return "its heading"
    kind = next((k for k in KINDS.values() if k.rows and k.rows.stored == content.kind), None)
    word = (kind or STORED[content.kind]).word
    return f"{word} {content.about.partition('/')[0]}"


def _statement(stated: Stated, key: str) -> tuple[str, ...]:
    if isinstance(stated, Thing) and stated.kind.key:
        head = f"| {stated.kind.key} | {key} |"
        return (head, "|---|---|", f"| {_row(stated)} | what it is |")
    return (f"- {key}: what it is",)


RULE = Rule(
    word="no two statements differ",
    why=(
        "Two people wrote two things, and the record takes neither side. While it is open one "
        "look settles it; once covered, both stand for good and nobody knows which to trust."
    ),
    find=find,
)
