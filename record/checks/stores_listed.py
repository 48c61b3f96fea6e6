"""What every store holds is listed, with how many."""

from __future__ import annotations

from collections.abc import Iterator

from record.checks.finding import CANNOT_BE_TOLD, Finding, HandoverRule
from record.facts.values import Absent, Why
from record.fold import Thing
from record.readers import View


def find(view: View) -> Iterator[Finding]:
    """Find stores without a list, which holds the signature, and lines without a count."""
    for store in view.built.of_kind("store"):
        if not store.parts:
            yield _empty(store)
        lacks = [part for part in store.parts if _not_said(part)]
        if lacks:
            yield _uncounted(store, lacks)


def _not_said(part: Thing) -> bool:
    value = part.value("count")
    return isinstance(value, Absent) and value.why in (Why.NOT_RECORDED, Why.NOT_SETTLED)


def _empty(store: Thing) -> Finding:
    return RULE.finding(
        store.tag,
        "nothing is recorded of what it holds",
        clears=(
            f"## store {store.tag}",
            "| item | what | count | each | expires |",
            "|---|---|---|---|---|",
            "and a row for each thing in it; one that is left empty has a row that says so",
        ),
        entries=store.entries(),
        sure=CANNOT_BE_TOLD,
    )


def _uncounted(store: Thing, lacks: list[Thing]) -> Finding:
    said = ", ".join(part.words("what") for part in lacks)
    return RULE.finding(
        store.tag,
        f"how many it holds is not told: {said}",
        clears=(
            f"## store {store.tag}",
            "| item | count |",
            "|---|---|",
            *(f"| {part.text('item') or part.key} | how many |" for part in lacks),
        ),
        entries=(entry for part in lacks for entry in part.entries()),
        sure=CANNOT_BE_TOLD,
        stops=False,
    )


RULE = HandoverRule(
    word="stores listed",
    why=(
        "A store under a floor is opened once a year or in trouble. Without its list nobody knows "
        "what to look for, what is short and what is past its day. (Common practice, no source.)"
    ),
    find=find,
)
