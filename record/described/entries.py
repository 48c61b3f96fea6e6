"""The JSON of show, history and entries, described: what these hold is as open as the record is."""

from __future__ import annotations

from record.described.writing import MAYBE, TEXT, TEXTS, YES_NO, Schema, described, keyed, listed

WITHHELD = ("entry", "hash", "writer", "recorded", "kind")
TOLD: dict[str, Schema] = {
    "entry": described(TEXT, "its number"),
    "hash": described(TEXT, "of its link line"),
    "writer": TEXT,
    "recorded": described(TEXT, "when it was written, by the writer's clock"),
    "kind": described(TEXT, '"withheld" where the reader may not see it: no key below is there'),
    "about": described(TEXT, "as read, swapped tags exchanged"),
    "written_of": described(TEXT, "the tag that stands in the line"),
    "swapped_by": TEXTS,
    "on": described(TEXT, "the day it was so"),
    "at": described(MAYBE, "the hour it was so"),
    "did": MAYBE,
    "saw": MAYBE,
    "by": MAYBE,
    "body": {"type": "object", "description": "what it says, as it stands in the line"},
    "mends": listed(keyed("an entry it mends", {"entry": TEXT, "fields": TEXTS})),
    "because": MAYBE,
    "mended_by": TEXTS,
    "withdrawn": YES_NO,
    "struck": listed(
        keyed(
            "a field that does not stand; now is null where it was taken back",
            {"field": TEXT, "by": TEXT, "now": MAYBE},
        )
    ),
}
LATER = tuple(name for name in TOLD if name not in WITHHELD)
VOID = described(MAYBE, "of a test: since when it proves nothing; null where it stands")
CHAIN = keyed(
    "a failure and what followed it",
    {"failed": TEXT, "then": TEXTS, "settled": YES_NO, "words": TEXT},
)


def _told(**more: Schema) -> Schema:
    return keyed("one entry", {**TOLD, **more}, LATER)


HISTORY = keyed(
    "Everything that was said of a thing, in the order of the field.",
    {
        "tag": TEXT,
        "kind": TEXT,
        "reader": TEXT,
        "further_entries": described(TEXT, "what is said of entries that are not told"),
        "entries": listed(_told(void=VOID)),
        "reach_m": {"type": "number"},
        "within_reach": listed(_told(void=VOID, why=described(TEXT, "where it was done"))),
        "behind": described(TEXTS, "of a panel the tags behind it, of a room its panels"),
        "not_settled": listed(
            keyed("two statements that differ", {"tag": TEXT, "field": TEXT, "said": TEXT})
        ),
        "chains": listed(CHAIN),
        "editions_with_swapped_tags": listed(
            keyed(
                "an edition that told of it under swapped tags",
                {"edition": {}, "entry": TEXT, "swapped_by": TEXT},
            )
        ),
    },
)
ENTRIES = described(listed(_told()), "The log as a list.")
HELD = keyed(
    "one statement",
    {
        "value": described({}, "as in an entry line, SI"),
        "on": TEXT,
        "at": MAYBE,
        "entry": TEXT,
        "writer": TEXT,
        "did": MAYBE,
        "saw": MAYBE,
        "by": MAYBE,
        "swapped": TEXTS,
    },
)
FIELD = keyed(
    "one field; more than one statement that differ are not settled",
    {"words": TEXT, "settled": YES_NO, "worked": TEXT, "held": listed(HELD)},
)
SHOWN: dict[str, Schema] = {
    "tag": TEXT,
    "kind": TEXT,
    "fields": {"type": "object", "additionalProperties": FIELD},
    "not_recorded": TEXTS,
    "unread": described(TEXTS, "entries about it that cannot be read by this version"),
    "parts": listed({"$ref": "#/$defs/part"}),
    "chains": listed(CHAIN),
    "lapsed": described(listed({"type": "object"}), "tests that passed and prove nothing now"),
}
SHOW = {
    **keyed("One thing as it stands.", SHOWN),
    "$defs": {"part": keyed("a station, a layer, a step or a content of it", SHOWN)},
}
