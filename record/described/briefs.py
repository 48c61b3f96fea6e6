"""The JSON of `brief`, described."""

from __future__ import annotations

from record.described.writing import (
    COUNT,
    ENTRIES,
    MAYBE,
    TEXT,
    TEXTS,
    described,
    keyed,
    listed,
)

BRIEF = keyed(
    "A brief to take along: what its pages say, and where they and the sheet were put.",
    {
        "tag": TEXT,
        "title": TEXT,
        "place": TEXT,
        "reader": TEXT,
        "further_entries": TEXT,
        "hazards": listed(
            keyed(
                "one warning", {"signal": TEXT, "words": TEXT, "about": TEXTS, "entries": ENTRIES}
            )
        ),
        "recorded": TEXTS,
        "not_recorded": TEXTS,
        "isolations": described(TEXTS, "what to shut or switch off first"),
        "drawn": described(MAYBE, "the drawing in words; null where nothing can be drawn"),
        "measured": described(TEXT, "from which edges"),
        "pieces": listed(
            keyed(
                "one piece that may lie there; spans in metres, tolerance in millimetres",
                {
                    "tag": TEXT,
                    "what": TEXT,
                    "across": TEXT,
                    "upward": TEXT,
                    "deep": TEXT,
                    "tolerance": TEXT,
                    "sure": TEXT,
                },
            )
        ),
        "layers": TEXTS,
        "comes_off": TEXTS,
        "call": TEXTS,
        "past": described(TEXTS, "all of it, by day"),
        "past_left_out": described(COUNT, "that the pages have no room for"),
        "asks": listed(
            keyed("a block of the sheet to fill in", {"kind": MAYBE, "tag": MAYBE, "keys": TEXTS})
        ),
        "pages": COUNT,
        "pdf": TEXT,
        "sheet": TEXT,
    },
)
