"""A pipe that no locator finds by itself has tracer wire or marker tape written of it."""

from __future__ import annotations

import re
from collections.abc import Iterator

from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, Rule
from record.checks.hidden import Hidden
from record.facts.values import Absent, Why, in_words
from record.fold import Thing

METAL = re.compile(r"steel|iron|copper|brass|alumin|metal")
NAMES = ("tracer_wire", "marker_tape")


def find(hidden: Hidden) -> Iterator[Finding]:
    """Find pipes not known to be metal whose wire or tape is not written, or that have neither."""
    for run in hidden.runs:
        if METAL.search((run.text("material") or "").casefold()):
            continue
        if _marked(hidden, run):
            continue
        lacks = [name for name in NAMES if _not_said(run, name)]
        said = ", ".join(f"{n.replace('_', ' ')} {in_words(run.value(n))}" for n in lacks)
        if not lacks and not any(run.value(name) is True for name in NAMES):
            said = "it has neither tracer wire nor marker tape"
        if said:
            yield RULE.finding(
                run.tag,
                said,
                clears=(
                    f"## run {run.tag}",
                    "- tracer wire: yes or no",
                    "- marker tape: yes or no",
                ),
                entries=run.entries(),
                sure=CANNOT_BE_TOLD if lacks else CERTAIN,
                stops=False,
            )


def _marked(hidden: Hidden, run: Thing) -> bool:
    """Return whether a wire or tape is recorded that follows the whole run."""
    return any(
        run.tag in marker.tags("follows")
        and (marker.text("type") or "").replace(" ", "_") in NAMES
        and marker.text("from_station") is None
        and marker.text("to_station") is None
        for marker in hidden.built.of_kind("marker")
    )


def _not_said(run: Thing, name: str) -> bool:
    value = run.value(name)
    return isinstance(value, Absent) and value.why in (Why.NOT_RECORDED, Why.NOT_SETTLED)


RULE = Rule(
    word="pipe can be found again",
    why=(
        "A locator hears metal. A plastic pipe with no wire beside it and no tape over it is "
        "found with the bucket of a machine."
    ),
    find=find,
)
