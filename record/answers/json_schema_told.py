"""The JSON of show, history and entries, described: what these hold is as open as the record is."""

from __future__ import annotations

from typing import Any

Schema = dict[str, Any]
TEXT: Schema = {"type": "string"}
MAYBE: Schema = {"type": ["string", "null"]}
YES_NO: Schema = {"type": "boolean"}


def _list(of: Schema) -> Schema:
    return {"type": "array", "items": of}


def _object(words: str, properties: dict[str, Schema], optional: tuple[str, ...] = ()) -> Schema:
    return {
        "type": "object",
        "description": words,
        "properties": properties,
        "required": [name for name in properties if name not in optional],
        "additionalProperties": False,
    }


def _said(schema: Schema, words: str) -> Schema:
    return {**schema, "description": words}


TEXTS = _list(TEXT)
WITHHELD = ("entry", "hash", "writer", "recorded", "kind")
TOLD: dict[str, Schema] = {
    "entry": _said(TEXT, "its number"),
    "hash": _said(TEXT, "of its link line"),
    "writer": TEXT,
    "recorded": _said(TEXT, "when it was written, by the writer's clock"),
    "kind": _said(TEXT, '"withheld" where the reader may not see it: then no key below is there'),
    "about": _said(TEXT, "as read, swapped tags exchanged"),
    "written_of": _said(TEXT, "the tag that stands in the line"),
    "swapped_by": TEXTS,
    "on": _said(TEXT, "the day it was so"),
    "at": _said(MAYBE, "the hour it was so"),
    "did": MAYBE,
    "saw": MAYBE,
    "by": MAYBE,
    "body": {"type": "object", "description": "what it says, as it stands in the line"},
    "mends": _list(_object("an entry it mends", {"entry": TEXT, "fields": TEXTS})),
    "because": MAYBE,
    "mended_by": TEXTS,
    "withdrawn": YES_NO,
    "struck": _list(
        _object(
            "a field that does not stand; now is null where it was taken back",
            {"field": TEXT, "by": TEXT, "now": MAYBE},
        )
    ),
}
LATER = tuple(name for name in TOLD if name not in WITHHELD)
VOID = _said(MAYBE, "of a test: since when it proves nothing; null where it stands")
CHAIN = _object(
    "a failure and what followed it",
    {"failed": TEXT, "then": TEXTS, "settled": YES_NO, "words": TEXT},
)


def _told(**more: Schema) -> Schema:
    return _object("one entry", {**TOLD, **more}, LATER)


HISTORY = _object(
    "Everything that was said of a thing, in the order of the field.",
    {
        "tag": TEXT,
        "kind": TEXT,
        "entries": _list(_told(void=VOID)),
        "reach_m": {"type": "number"},
        "within_reach": _list(_told(void=VOID, why=_said(TEXT, "where it was done"))),
        "behind": _said(TEXTS, "of a panel the tags behind it, of a room its panels"),
        "not_settled": _list(
            _object("two statements that differ", {"tag": TEXT, "field": TEXT, "said": TEXT})
        ),
        "chains": _list(CHAIN),
        "editions_with_swapped_tags": _list(
            _object(
                "an edition that told of it under swapped tags",
                {"edition": {}, "entry": TEXT, "swapped_by": TEXT},
            )
        ),
    },
)
ENTRIES = _said(_list(_told()), "The log as a list.")
HELD = _object(
    "one statement",
    {
        "value": _said({}, "as in an entry line, SI"),
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
FIELD = _object(
    "one field; more than one statement that differ are not settled",
    {"words": TEXT, "settled": YES_NO, "worked": TEXT, "held": _list(HELD)},
)
SHOWN: dict[str, Schema] = {
    "tag": TEXT,
    "kind": TEXT,
    "fields": {"type": "object", "additionalProperties": FIELD},
    "not_recorded": TEXTS,
    "unread": _said(TEXTS, "entries about it that cannot be read by this version"),
    "parts": _list({"$ref": "#/$defs/part"}),
    "chains": _list(CHAIN),
    "lapsed": _said(_list({"type": "object"}), "tests that passed and prove nothing now"),
}
SHOW = {
    **_object("One thing as it stands.", SHOWN),
    "$defs": {"part": _object("a station, a layer, a step or a content of it", SHOWN)},
}
WRITTEN = {"show": SHOW, "history": HISTORY, "entries": ENTRIES}
