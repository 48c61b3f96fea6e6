"""What is due, in lines for a person and in plain JSON for a program."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence
from datetime import date
from typing import Any

from record.fold import Happening
from record.readers import View
from record.upkeep.due import Due
from record.upkeep.rules import BENCHMARK, MAKER, OURS, SEASON, Rule
from record.words import tell, tell_how_many, term

WIDTH = 100
HANG = " " * 12
TOLD_WHOSE = (OURS, MAKER, SEASON)  # of the others it is told by what they say


def words(
    dues: Sequence[Due], *, view: View, today: date, for_nothing: Sequence[Happening] = ()
) -> tuple[str, ...]:
    """
    Return lines of at most 100 columns: overdue first, then to come, then what is in doubt.

    ``for_nothing`` are services that took nothing off the list, from
    ``services_for_nothing``; they are shown last.
    """
    late = [one for one in dues if one.due < today and not one.doubt]
    coming = [one for one in dues if one.due >= today and not one.doubt]
    doubtful = [one for one in dues if one.doubt]
    found = [f"Upkeep on {today}, as the {view.reader}'s copy of {view.built.site} shows it"]
    for heading, each in (("OVERDUE", late), ("TO COME", coming), ("CANNOT BE TOLD", doubtful)):
        if each:
            found += ["", heading]
        for one in each:
            found += _lines(one)
    if not dues:
        found += ["", "Nothing that is recorded needs upkeep by then."]
    if for_nothing:
        found += ["", "SERVICES THAT TAKE NOTHING OFF THE LIST (no such task, or another's tag)"]
        for happening in for_nothing:
            said = f"{happening.about}: {happening.words('task')} ({happening.entry.number})"
            found += _wrapped(said, f"{happening.on}  ")
    return tuple(found)


def _lines(one: Due) -> Iterator[str]:
    late = (
        tell("upkeep.overdue", overdue_days=days_in_words(one.overdue_days))
        if one.overdue_days
        else ""
    )
    name = f" ({one.name})" if one.name else ""
    head = f"{one.about}{name}: {one.title}{late} [{one.task.word}]"
    yield from _wrapped(head, f"{one.due}  ")
    for said in details(one):
        yield from _wrapped(said, HANG)


def details(one: Due) -> Iterator[str]:
    """Yield, a sentence each, why the day is what it is, and what is to be known of it."""
    if one.doubt:
        yield tell("upkeep.cannot_be_told", doubt=one.doubt)
    yield from one.notes
    yield tell("upkeep.counted_from", on=one.counted_from.on, one=counted_words(one))
    for rule in one.rules:
        yield (
            tell("upkeep.strictest", rule=rule_words(rule))
            if _rules_alone(one, rule)
            else rule_words(rule)
        )
    if one.maker_says and not any(rule.whose == MAKER for rule in one.rules):
        yield tell("upkeep.maker_s_interval", maker_says=one.maker_says)
    if one.task.sooner:
        yield tell("upkeep.sooner", sooner=one.task.sooner)
    yield tell("upkeep.who_manual", who=", ".join(map(term, one.who)), page=one.page)


def counted_words(one: Due) -> str:
    return f"{term(one.counted_from.why)} ({one.counted_from.entry.number})"


def rule_words(rule: Rule) -> str:
    """Return a rule as one sentence, with who says so and the entry it stands in."""
    number = f", {rule.entry.number}" if rule.entry else ""
    said = (
        tell(f"upkeep.by.{rule.whose}", says=rule.says) if rule.whose in TOLD_WHOSE else rule.says
    )
    return tell("upkeep.due", said=said, due=rule.due, source=rule.source, number=number)


def _rules_alone(one: Due, rule: Rule) -> bool:
    return len(one.rules) > 1 and rule is one.ruling


def days_in_words(count: int) -> str:
    return tell_how_many("upkeep.days", count)


def _wrapped(text: str, start: str) -> list[str]:
    return textwrap.wrap(
        text,
        WIDTH,
        initial_indent=start,
        subsequent_indent=HANG,
        break_on_hyphens=False,
    )


def json_form(one: Due) -> dict[str, Any]:
    """Return one due as plain JSON values: days as ISO dates, entries by their numbers."""
    last = one.last_done
    return {
        "task": one.task.word,
        "about": one.about,
        "name": one.name,
        "title": one.title,
        "due": one.due.isoformat(),
        "overdue_days": one.overdue_days,
        "counted_from": {
            "on": one.counted_from.on.isoformat(),
            "why": one.counted_from.why,
            "entry": one.counted_from.entry.number,
        },
        "last_done": last and {"on": last.on, "at": last.at, "entry": last.entry.number},
        "failed": [{"on": each.on, "entry": each.entry.number} for each in one.failed],
        "rules": [_rule_form(rule, rule is one.ruling) for rule in one.rules],
        "makers_interval": one.maker_says or None,
        "benchmark": BENCHMARK if one.task.benchmark else None,
        "who": list(one.who),
        "page": one.page,
        "notes": list(one.notes),
        "cannot_tell": one.doubt or None,
    }


def _rule_form(rule: Rule, rules: bool) -> dict[str, Any]:
    return {
        "whose": rule.whose,
        "says": rule.says,
        "source": rule.source,
        "due": rule.due.isoformat(),
        "entry": rule.entry.number if rule.entry else None,
        "rules": rules,
    }
