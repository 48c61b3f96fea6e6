"""The terms: words that stand in the record's own tables and are printed, by where they stand.

A translation gives them by their English, in ``terms.toml``: one word is one term wherever it is
printed. The names of kinds and fields stay as they are in what is typed into a sheet.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache

from record.facts import KINDS, READERS
from record.facts.fields import OneOf
from record.facts.values import Part, Why
from record.words import names


@cache
def every_term() -> Mapping[str, str]:
    """Return every term by its English, with where it stands first."""
    found: dict[str, str] = {}
    for where, word in _terms():
        if word:
            found.setdefault(word, where)
    return found


def _terms() -> Iterator[tuple[str, str]]:
    yield from (("a value", word) for word in ("yes", "no", *Why, *Part))
    yield from _of_kinds()
    yield from _of_places()
    yield from _of_answers()
    yield from _of_tasks()
    yield from _of_sums()
    yield from _of_rules()
    yield from (("a sum", name) for name in names())


def _of_kinds() -> Iterator[tuple[str, str]]:
    yield from (("a reader", reader) for reader in READERS)
    for kind in KINDS.values():
        yield f"kind {kind.word}", kind.word
        yield f"kind {kind.word}", kind.says
        for field in kind.fields:
            where = f"{field.key} of {kind.word}"
            yield where, field.key
            if isinstance(field.holds, OneOf):
                yield from ((where, word) for word in field.holds.words)


def _of_places() -> Iterator[tuple[str, str]]:
    from record.calc.falls import VERDICTS
    from record.facts.hull import FACES
    from record.place.accuracy import BASES
    from record.place.along_shapes import ALONG_ITS_RUN
    from record.place.frames import DEPTHS_FROM, EDGES, FROM
    from record.place.levels import K_FROM
    from record.place.tied import WEAK

    words = (*BASES, ALONG_ITS_RUN, *VERDICTS, *FACES, *DEPTHS_FROM, K_FROM, WEAK)
    yield from (("a place", word) for word in words)
    for edge in dict.fromkeys(edge for each in EDGES.values() for edge in each):
        yield "an edge", edge
        yield "an edge, in a drawing", edge.removeprefix(FROM)


def _of_answers() -> Iterator[tuple[str, str]]:
    from record.answers.behind_values import CROSSES, IN_REACH, NEAR
    from record.answers.covers import AFTER, BEFORE, OPEN, UNKNOWN
    from record.answers.find import MIDDLE, WALKING_FLOOR
    from record.answers.gaps import LOOKED_WORDS
    from record.answers.hazards import WORDS
    from record.answers.isolations import SAID
    from record.answers.saying import FURTHER, LACKING, WHOLE
    from record.answers.words_behind import EMPTY, HEADINGS, STOP

    cover = (BEFORE, AFTER, UNKNOWN, OPEN)
    words = (*cover, CROSSES, IN_REACH, NEAR, WALKING_FLOOR, MIDDLE, *LOOKED_WORDS, *SAID.values())
    yield from (
        ("a panel's answer", word)
        for word in (*words, *HEADINGS, FURTHER, LACKING, WHOLE, EMPTY, STOP)
    )
    yield from (("a hazard", word) for word in WORDS)


def _of_tasks() -> Iterator[tuple[str, str]]:
    from record.upkeep.catalogue import AFTER, SIGNALS, TOLD, TOLD_LISTS, WHO, catalogue
    from record.upkeep.counting import FIRST_RECORDED, LAST_DONE
    from record.upkeep.fitted import NOT_UNDERSTOOD
    from record.upkeep.rules import BENCHMARK
    from record.upkeep.seasons import SEASONS

    for task in catalogue().values():
        where = f"task {task.word}"
        yield from ((where, getattr(task, name)) for name in TOLD)
        yield from ((where, word) for name in TOLD_LISTS for word in getattr(task, name))
    words = (*SIGNALS, *WHO, *AFTER, *SEASONS, FIRST_RECORDED, LAST_DONE)
    yield from (("upkeep", word) for word in (*words, NOT_UNDERSTOOD, BENCHMARK))


def _of_sums() -> Iterator[tuple[str, str]]:
    from record.reckon import SUMS
    from record.reckon.sum import DANGER

    for name, one in SUMS.items():
        where = f"sum {name}"
        yield where, name
        yield from ((where, word) for word in (one.title, one.formula, one.source))
        yield from ((where, word) for word in (one.caution.removeprefix(DANGER), one.confirm))
        for each in one.inputs:
            for row in (each, *each.columns):
                yield from ((where, word) for word in (row.key, row.usual_from, *row.words))


def _of_rules() -> Iterator[tuple[str, str]]:
    from record.checks import HANDOVER_RULES, RULES

    for rule in (*RULES, *HANDOVER_RULES):
        yield f"check {rule.word}", rule.word
        yield f"check {rule.word}", rule.why
