"""Findings as a crew sees them: sheets in ``findings/``, what `asburied ready` prints beside them.

Each NAME.md holds one day sheet or several, as they are posted one after the other; NAME.txt is
word for word what is printed of the covering it is about. ``at-handover-NAME.md`` is asked of the
whole record instead. After a change of words, or with a new sheet, write them anew, then read the
diff:

    python -m tests.record.checks.catalogue
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

from record.checks import HANDOVER_RULES, Finding, finding_words, ready, ready_words
from record.readers import View
from tests.record.building import view_of

FINDINGS = Path(__file__).parent / "findings"
SHEETS = sorted(FINDINGS.glob("*.md"))
AT_HANDOVER = "at-handover-"


def view_from(path: Path) -> View:
    """Return the owner's view of the sheets in a file; each begins with its own "# " line."""
    return view_of(*re.split(r"(?m)^(?=# )", path.read_text(encoding="utf-8"))[1:])


def findings(path: Path) -> tuple[Finding, ...]:
    """Return what is found: against the first covering of a file, or at hand-over."""
    view = view_from(path)
    if path.name.startswith(AT_HANDOVER):
        return tuple(_at_handover(path, view))
    return ready(view, _covering(view)).findings


def _at_handover(path: Path, view: View) -> Iterator[Finding]:
    """Yield what one rule finds, the one a file is named by: other rules find their own."""
    for rule in HANDOVER_RULES:
        if slug(rule.word) == path.stem.removeprefix(AT_HANDOVER):
            yield from rule.find(view)


def words(path: Path) -> str:
    """Return what is printed."""
    if path.name.startswith(AT_HANDOVER):
        lines = [line for one in findings(path) for line in finding_words(one)]
    else:
        view = view_from(path)
        lines = ready_words(ready(view, _covering(view)))
    return "\n".join(lines) + "\n"


def _covering(view: View) -> str:
    return next(view.built.of_kind("covering")).tag


def slug(word: str) -> str:
    """
    Return a name for a file.

    >>> slug("steel 3 °C above dew point")
    'steel-3-c-above-dew-point'
    """
    return re.sub(r"[^a-z0-9]+", "-", word.casefold()).strip("-")


def main() -> None:
    for path in SHEETS:
        path.with_suffix(".txt").write_text(words(path), encoding="utf-8")


if __name__ == "__main__":
    main()
