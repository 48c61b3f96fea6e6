"""A valve that works by itself is turned the way its run must flow."""

from __future__ import annotations

import re
from collections.abc import Iterator

from record.checks.check_valve_at_low_end import ONE_WAY, inside, low_end
from record.checks.finding import CANNOT_BE_TOLD, Finding, Rule
from record.checks.hidden import Hidden
from record.facts.pipes import DRAINAGE
from record.fold import Thing

IN, OUT = "inward", "outward"
SAID_IN = re.compile(r"\b(inwards?|into)\b")
SAID_OUT = re.compile(r"\b(outwards?|out of)\b")
WITHIN = re.compile(r"\b(in|inside|indoors|room|hull|shelter|fan|sump)\b")
WITHOUT = re.compile(r"\b(out|outside|outdoors|bank|terminal|outfall|daylight|ditch|open air)\b")


def find(hidden: Hidden) -> Iterator[Finding]:
    """Find check, flap and overpressure valves turned the wrong way, or nobody knows which."""
    for valve in hidden.valves:
        if valve.text("type") not in ONE_WAY:
            continue
        right, turned = right_way(hidden, valve), way(valve.text("flow") or "")
        if turned is None:
            yield _not_told(valve, right)
        elif right is None and _unknown(hidden, valve):
            yield _right_not_told(valve)
        elif right is not None and turned != right:
            yield RULE.finding(
                valve.tag,
                f"it lets through {turned} ({valve.words('flow')}), and must let through {right}",
                clears=(f"turn it, look at its arrow, and write ## valve {valve.tag}, - flow:",),
                entries=valve.entries(),
            )


def way(flow: str) -> str | None:
    """
    Return which way a valve lets through, by the words for it; None where they do not tell.

    >>> way("from the pump to the bank"), way("inward, arrow to the fan"), way("left to right")
    ('outward', 'inward', None)
    """
    said = flow.casefold()
    end = re.split(r"\btowards?\b|\bto\b", said)[-1]
    for words, inward, outward in ((said, SAID_IN, SAID_OUT), (end, WITHIN, WITHOUT)):
        told = bool(inward.search(words)), bool(outward.search(words))
        if told in ((True, False), (False, True)):
            return IN if told[0] else OUT
    return None


def right_way(hidden: Hidden, valve: Thing) -> str | None:
    """
    Return which way it must let through; None where what is recorded does not tell.

    What is pressed into the room must get out of it by the overpressure valve. Supply air comes
    in, exhaust air goes out, and what runs off goes to the run's low end.
    """
    if valve.text("type") == "overpressure":
        return OUT
    run = next((one for tag in valve.tags("on_run") if (one := hidden.built.thing(tag))), None)
    carries = run.text("carries") if run else None
    if run is None or carries not in DRAINAGE:
        return {"supply air": IN, "exhaust air": OUT}.get(carries or "")
    placed = hidden.placed(run)
    low = low_end(run, placed)
    within = None if low is None else inside(hidden, run, placed, low)
    return None if within is None else IN if within else OUT


def _unknown(hidden: Hidden, valve: Thing) -> bool:
    """Return whether it has a right way that what is recorded does not tell."""
    run = hidden.built.thing(next(iter(valve.tags("on_run")), None))
    return run is None or run.text("carries") in (None, *DRAINAGE)


def _right_not_told(valve: Thing) -> Finding:
    run = valve.words("on_run")
    return RULE.finding(
        valve.tag,
        f"it lets through {valve.words('flow')}; whether that is right cannot be told, as what "
        f"{run} carries, or where its low end is, is not recorded",
        clears=(f"## run {run}", "- carries: what it carries", "- falls to: its low end"),
        entries=valve.entries(),
        sure=CANNOT_BE_TOLD,
    )


def _not_told(valve: Thing, right: str | None) -> Finding:
    hint = f"{right}, once its arrow was looked at" if right else f"{IN} or {OUT}"
    return RULE.finding(
        valve.tag,
        f"which way it lets through cannot be told: flow {valve.words('flow')}",
        clears=(f"## valve {valve.tag}", f"- flow: {hint}"),
        entries=valve.entries(),
        sure=CANNOT_BE_TOLD,
    )


RULE = Rule(
    word="valve turned the right way",
    why=(
        "A check valve put in backwards looks like any other and shuts off what it should let "
        "through; an overpressure valve put in backwards lets the outside in. The arrow on its "
        "body is read in a second while it can be seen. (Common practice, no source.)"
    ),
    find=find,
)
