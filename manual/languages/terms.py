"""The terms: words that stand in the record's own tables and are printed, by where they stand.

A translation gives them by their English, in ``terms.toml``: one word is one term wherever it is
printed. The names of kinds and fields stay as they are in what is typed into a sheet.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache

from record.facts import KINDS
from record.facts.fields import OneOf
from record.facts.values import Part, Why


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
    yield from _of_tasks()
    yield from _of_sums()
    yield from _of_rules()


def _of_kinds() -> Iterator[tuple[str, str]]:
    for kind in KINDS.values():
        yield f"kind {kind.word}", kind.word
        yield f"kind {kind.word}", kind.says
        for field in kind.fields:
            where = f"{field.key} of {kind.word}"
            yield where, field.key
            if isinstance(field.holds, OneOf):
                yield from ((where, word) for word in field.holds.words)


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

    for name, one in SUMS.items():
        where = f"sum {name}"
        yield from ((where, word) for word in (one.title, one.formula, one.source))
        yield from ((where, word) for word in (one.caution, one.confirm))
        for each in one.inputs:
            for row in (each, *each.columns):
                yield from ((where, word) for word in (row.key, row.usual_from, *row.words))


def _of_rules() -> Iterator[tuple[str, str]]:
    from record.checks import HANDOVER_RULES, RULES

    for rule in (*RULES, *HANDOVER_RULES):
        yield f"check {rule.word}", rule.word
        yield f"check {rule.word}", rule.why
