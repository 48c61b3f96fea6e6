"""The top of a way out lies about a foot below grade, measured."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, HandoverRule
from record.readers import View
from record.units import Dimension, in_both

USUAL_M = Decimal("0.3048")  # 1 ft, common practice, no source
HALF_M = Decimal("0.1524")  # what "about" is taken to mean: 6 in either way


def find(view: View) -> Iterator[Finding]:
    """Find ways out whose top is not measured, or not about a foot down, which is looked at."""
    for way in view.built.of_kind("way out"):
        depth = way.si("top_below_grade")
        if depth is not None and abs(depth - USUAL_M) <= HALF_M:
            continue
        said = f"how far its top lies below grade is {way.words('top_below_grade')}"
        if depth is not None:
            side = "deeper" if depth > USUAL_M else "shallower"
            said = f"its top lies {in_both(depth, Dimension.LENGTH)} below grade, {side} than usual"
        yield RULE.finding(
            way.tag,
            said,
            clears=(
                f"## way out {way.tag}",
                "- top below grade: measured from the finished ground; what its designer asks for",
            ),
            entries=way.entries(),
            sure=CANNOT_BE_TOLD if depth is None else CERTAIN,
            stops=depth is None,
        )


RULE = HandoverRule(
    word="way out about a foot below grade",
    why=(
        "Deep enough that grass grows over it and a wheel does not break it, shallow enough that "
        "one person breaks through from below: about 1 ft, as a rule, unless its designer says "
        "otherwise. (Common practice, no source.)"
    ),
    find=find,
)
