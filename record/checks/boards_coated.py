"""Cement board got two coats, any other lining board one."""

from __future__ import annotations

import re
from collections.abc import Iterator

from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, HandoverRule
from record.facts.values import Absent, Why
from record.fold import Thing
from record.readers import View

CEMENT = re.compile(r"\bcement\b")
ON_CEMENT, ELSEWHERE = 2, 1  # common practice, no source


SHOWN = 6


def find(view: View) -> Iterator[Finding]:
    """
    Find boards with fewer coats than they need, or of which it is not told; none of it stops.

    Boards of one room and one sort that lack the same are one finding.
    """
    alike: dict[tuple[str, str, int, str], list[Thing]] = {}
    for panel in view.built.of_kind("panel"):
        coats, needed = _coats(view, panel), _needed(panel)
        if needed is None or (coats is not None and coats >= needed):
            continue
        where = panel.text("room") or panel.text("hull") or panel.tag
        got = "not told" if coats is None else str(coats)
        alike.setdefault((where, panel.words("board"), needed, got), []).append(panel)
    for (where, board, needed, got), panels in alike.items():
        yield _finding(where, board, needed, got, panels)


def _needed(panel: Thing) -> int | None:
    """Return how many coats a board needs; None where it is said, with a reason, that none."""
    coats, board = panel.value("coats"), panel.value("board")
    if isinstance(coats, Absent) and coats.why is Why.NOT_APPLICABLE:
        return None
    if isinstance(board, Absent):
        return ON_CEMENT if board.why in (Why.NOT_RECORDED, Why.NOT_SETTLED) else None
    return ON_CEMENT if CEMENT.search(str(board).casefold()) else ELSEWHERE


def _finding(where: str, board: str, needed: int, got: str, panels: list[Thing]) -> Finding:
    tags = [panel.tag for panel in panels]
    more = f" and {len(tags) - SHOWN} more" if len(tags) > SHOWN else ""
    unknown = got == "not told" or any(panel.text("board") is None for panel in panels)
    return RULE.finding(
        where,
        f"{', '.join(tags[:SHOWN])}{more}: {board} needs {needed}, and its coats are {got}",
        clears=(f"## panel {tags[0]}", f"- coats: {needed}, once they are on; and so for each"),
        entries=(entry for panel in panels for entry in panel.entries()),
        sure=CANNOT_BE_TOLD if unknown else CERTAIN,
        stops=False,
    )


def _coats(view: View, panel: Thing) -> int | None:
    """Return how many coats a board has, as stated of it or as recorded one by one."""
    stated = panel.count("coats")
    each = {coat.count("coat") for coat in view.built.about(panel.tag, "coat applied")} - {None}
    told = [number for number in (stated, len(each) or None) if number is not None]
    if not told and isinstance(value := panel.value("coats"), Absent) and value.why is Why.NONE:
        return 0
    return max(told, default=None)


RULE = HandoverRule(
    word="two coats on cement board, one elsewhere",
    why=(
        "Cement board drinks the first coat; only the second stands on it as a film that can be "
        "wiped. Other boards hold the first. (Common practice, no source.)"
    ),
    find=find,
)
