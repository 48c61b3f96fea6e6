"""Every kind of fact and version in words, for whoever reads the lines without this program."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Mapping

from record.facts import KINDS
from record.facts.fields import Field
from record.facts.kind import Kind, Sort


def _every() -> Iterator[Kind]:
    for kind in KINDS.values():
        yield kind
        if kind.rows is not None:
            yield kind.rows


#: (stored word, version) → kind, rows of tables too.
EVERY: Mapping[tuple[str, int], Kind] = {
    (kind.stored, kind.version): kind for kind in sorted(_every(), key=lambda each: each.stored)
}


def schemas() -> Iterator[tuple[str, bytes]]:
    """Yield (stored word and version, a page of words) for every kind."""
    for (word, version), kind in EVERY.items():
        yield f"{word}-{version}", ("\n".join(_page(kind)) + "\n").encode("utf-8")


def _page(kind: Kind) -> Iterator[str]:
    yield f'{kind.word} (in a line: "kind":"{kind.stored}","v":{kind.version})'
    yield ""
    yield from textwrap.wrap(kind.says, 88)
    yield ""
    if kind.sort is Sort.THING:
        yield "It is a thing: it has a tag, and each field holds what was last said of it."
    else:
        of = " or ".join(kind.about) or "any thing"
        yield f"It is a happening: it adds to the history of {of}."
    if kind.tagless:
        yield "It may be about the site as a whole."
    if kind.key:
        yield f'Rows of a table: the first column is headed "{kind.key}".'
    if kind.rows is not None:
        yield f"Its table's rows are entries of the kind {kind.rows.stored}."
    yield f"Who may see it, where nobody narrowed it: {', '.join(sorted(kind.readers))}."
    yield ""
    yield 'Fields, as they stand in "body":'
    yield from (_field(field) for field in kind.fields)
    if not kind.fields:
        yield "  none"


def _field(field: Field) -> str:
    needed = "; always there" if field.needed else ""
    return f'  "{field.name}": {field.holds.says}{needed}'
