"""Every kind of fact that a crew can write, each with what it is."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from record.blank.of_kind import NO_FORM
from record.facts import KINDS, Kind, Sort

WIDTH = 78
HEADS = {Sort.THING: "THINGS, each with a tag of its own", Sort.HAPPENING: "WHAT HAPPENED"}


def kinds_words() -> Iterator[str]:
    """Yield the lines of the list: things first, then what happened, by the alphabet."""
    yield 'A heading is "## ", the kind and a tag. `asburied blank KIND` prints its lines.'
    for sort, head in HEADS.items():
        yield ""
        yield head
        for kind in sorted(KINDS.values(), key=lambda kind: kind.word):
            if kind.sort is sort and not kind.key and kind.word not in NO_FORM:
                yield from _told(kind)


def _told(kind: Kind) -> list[str]:
    first = kind.says.partition(". ")[0].rstrip(".")
    line = f"  {kind.word}: {first[0].lower()}{first[1:]}."
    return textwrap.wrap(line, WIDTH, subsequent_indent="      ", break_on_hyphens=False)
