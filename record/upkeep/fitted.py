"""Which tasks are for what is fitted, and of what this cannot be told.

"none" and "n/a" are answers: nothing to look after. "Not recorded", or two statements that
differ, are no answer, and never take a task off the list in silence.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import Enum

from record.facts import KINDS
from record.facts.fields import OneOf
from record.facts.kind import Kind
from record.facts.values import Absent, Value, Why
from record.fold import AsBuilt, Thing
from record.upkeep.catalogue import Fit, Task
from record.words import tell, term

NOT_UNDERSTOOD = "not understood"


class Fits(Enum):
    """Whether a task is for a thing."""

    YES = "yes"
    NO = "no"
    CANNOT_TELL = "cannot tell"


@dataclass(frozen=True, slots=True)
class Fitted:
    """A task and a thing it is for; ``parts`` are those of its parts that bring it."""

    task: Task
    thing: Thing
    parts: tuple[Thing, ...] = ()
    doubt: tuple[str, ...] = ()  # fields that would tell, and say nothing: then it may be for it


def fitted(built: AsBuilt, tasks: Sequence[Task], reader: str) -> Iterator[Fitted]:
    """Yield every task of every thing that stands, certain or in doubt, as ``reader`` has it."""
    for task in tasks:
        if reader not in task.readers:
            continue
        for thing in _things(built, task):
            if found := _of(built, task, thing):
                yield found


def _things(built: AsBuilt, task: Task) -> Iterator[Thing]:
    kinds = {whole_of(fit.kind).word for fit in task.fits}
    yield from (thing for kind in sorted(kinds) for thing in built.of_kind(kind))


def whole_of(word: str) -> Kind:
    """Return the kind of thing a word names, or that the rows of which it names are part of."""
    kind = KINDS[word]
    return next((whole for whole in KINDS.values() if whole.rows is kind), kind)


def _of(built: AsBuilt, task: Task, thing: Thing) -> Fitted | None:
    doubt: dict[str, None] = {}
    parts: list[Thing] = []
    sure = False
    for fit in task.fits:
        for each in _tried(fit, thing):
            answer, open_fields = fits(built, fit, each)
            if answer is Fits.YES:
                sure = True
                if each is not thing:
                    parts.append(each)
            elif answer is Fits.CANNOT_TELL:
                at = "" if each is thing else tell("upkeep.row", key=each.key)
                doubt.update(dict.fromkeys(f"{at}{said}" for said in open_fields))
    if sure:
        return Fitted(task, thing, tuple(parts))
    return Fitted(task, thing, (), tuple(doubt)) if doubt else None


def _tried(fit: Fit, thing: Thing) -> Iterator[Thing]:
    if thing.kind.word == fit.kind:
        yield thing
    else:
        yield from (part for part in thing.parts if part.kind.word == fit.kind)


def fits(built: AsBuilt, fit: Fit, thing: Thing) -> tuple[Fits, tuple[str, ...]]:
    """Return whether ``fit`` takes ``thing``, and, where it cannot be told, what is open."""
    if not thing.fields or _served_by_another(built, fit, thing):
        return Fits.NO, ()
    still_open: list[str] = []
    asked = [(name, words) for name, words in fit.fields] + [(name, ()) for name in fit.needs]
    for name, words in asked:
        answer = _holds(thing, name, words)
        if answer is Fits.NO:
            return Fits.NO, ()
        if answer is Fits.CANNOT_TELL:
            still_open.append(f"{term(name.replace('_', ' '))} {_why(thing.value(name))}")
    return (Fits.CANNOT_TELL if still_open else Fits.YES), tuple(still_open)


def _holds(thing: Thing, name: str, words: tuple[str, ...]) -> Fits:
    """Return whether a field holds one of ``words``, or anything at all if there are none."""
    held = [one.value for one in thing.held(name)]
    if not held:
        return Fits.CANNOT_TELL
    answers = {_says(thing.kind, name, value, words) for value in held}
    return answers.pop() if len(answers) == 1 else Fits.CANNOT_TELL


def _says(kind: Kind, name: str, value: Value, words: tuple[str, ...]) -> Fits:
    if isinstance(value, Absent):
        nothing = value.why in (Why.NONE, Why.NOT_APPLICABLE)
        return Fits.NO if nothing else Fits.CANNOT_TELL
    if not words:
        return Fits.YES
    field = kind.field(name)
    if not isinstance(value, str) or field is None:
        return Fits.CANNOT_TELL
    if isinstance(field.holds, OneOf):
        return Fits.YES if value in words else Fits.NO
    found = any(re.search(rf"\b{re.escape(word)}", value, re.IGNORECASE) for word in words)
    return Fits.YES if found else Fits.NO


def _why(value: Value) -> str:
    return term(value.why.value if isinstance(value, Absent) else NOT_UNDERSTOOD)


def _served_by_another(built: AsBuilt, fit: Fit, thing: Thing) -> bool:
    """Return whether the task falls to another thing in the same hull, so that it is said once."""
    other, hull = fit.unless, thing.text("hull")
    if other is None or hull is None:
        return False
    return any(
        one.text("hull") == hull and fits(built, other, one)[0] is Fits.YES
        for one in built.of_kind(other.kind)
        if one.tag != thing.tag
    )
