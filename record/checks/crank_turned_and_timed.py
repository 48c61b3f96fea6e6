"""Every hand crank was turned, with air moving by it alone, at a counted rate."""

from __future__ import annotations

import re
from collections.abc import Iterator

from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, HandoverRule
from record.facts.looks import PROOFS
from record.facts.values import Absent, Why
from record.fold import Happening, Thing
from record.fold.looks import found, title
from record.readers import View

BY_HAND = re.compile(r"\b(crank\w*|by hand)\b")
RATE = re.compile(r"\d\s*(rev|rpm|turns?|/\s*min|times a minute|a minute)")


def find(view: View) -> Iterator[Finding]:
    """Find cranks that no passed test turned, and those turned at a rate nobody counted."""
    for crank in view.built.of_kind("equipment"):
        if not _is_crank(crank):
            continue
        tests = [look for tag in _family(view, crank) for look in view.built.about(tag, *PROOFS)]
        turned = [look for look in tests if BY_HAND.search(_words(look))]
        passed = [look for look in turned if look.text("result") == "passed"]
        if not passed:
            yield _never(crank, turned)
        elif not any(RATE.search(_words(look)) for look in passed):
            yield _untimed(crank, passed)


def _is_crank(thing: Thing) -> bool:
    rate = thing.value("crank_rate")
    has_rate = not isinstance(rate, Absent) or (
        bool(thing.held("crank_rate")) and rate.why is Why.NOT_RECORDED
    )
    return thing.text("type") == "hand crank" or has_rate


def _family(view: View, crank: Thing) -> tuple[str, ...]:
    """Return the crank, what it is part of or serves, and its own parts: a test is of any."""
    parts = [o.tag for o in view.built.of_kind("equipment") if crank.tag in o.tags("part_of")]
    return tuple(dict.fromkeys((crank.tag, *crank.tags("part_of"), *parts)))


def _words(look: Happening) -> str:
    setting = look.text("setting") or ""
    return f"{title(look)} {found(look)} {look.text('reading') or ''} {setting}".casefold()


def _never(crank: Thing, turned: list[Happening]) -> Finding:
    failed = f" ({turned[-1].entry.number}: {turned[-1].words('result')})" if turned else ""
    return RULE.finding(
        crank.tag,
        f"no test in which it was turned is recorded as passed{failed}",
        clears=_clears(crank),
        entries=(*crank.entries(), *(entry for look in turned for entry in look.entries())),
        sure=CERTAIN if all(look.text("result") for look in turned) else CANNOT_BE_TOLD,
    )


def _untimed(crank: Thing, passed: list[Happening]) -> Finding:
    return RULE.finding(
        crank.tag,
        f"it was turned ({passed[-1].entry.number}), and at how many turns a minute is not told",
        clears=_clears(crank),
        entries=(*crank.entries(), *(entry for look in passed for entry in look.entries())),
        sure=CANNOT_BE_TOLD,
    )


def _clears(crank: Thing) -> tuple[str, ...]:
    return (
        f"## tested {crank.tag}",
        "- test: flow by crank",
        "- result: passed",
        "- reading: the flow, the turns a minute counted by a watch, how long, how many people",
        "- limit: what the air unit's maker or the designer asks for",
        "- instrument: what it was read with",
    )


RULE = HandoverRule(
    word="crank turned and timed",
    why=(
        "When the power is gone the crank is the air. Whether it fits, which way it goes and how "
        "many turns a minute one person can keep is found out before, with a watch, by those who "
        "will turn it. (Common practice, no source.)"
    ),
    find=find,
)
