"""What a schema is written with."""

from __future__ import annotations

from typing import Any

Schema = dict[str, Any]
TEXT: Schema = {"type": "string"}
MAYBE: Schema = {"type": ["string", "null"]}
YES_NO: Schema = {"type": "boolean"}
COUNT: Schema = {"type": "integer", "minimum": 0}
NUMBER: Schema = {"type": "number"}
MAYBE_NUMBER: Schema = {"type": ["number", "null"]}
ANYTHING: Schema = {}


def listed(of: Schema) -> Schema:
    """Return the schema of a list whose items are all alike."""
    return {"type": "array", "items": of}


def described(schema: Schema, words: str) -> Schema:
    """Return a schema with what it means beside it."""
    return {**schema, "description": words}


def keyed(words: str, properties: dict[str, Schema], optional: tuple[str, ...] = ()) -> Schema:
    """Return the schema of an object with just these keys, all needed but the optional ones."""
    return {
        "type": "object",
        "description": words,
        "properties": properties,
        "required": [name for name in properties if name not in optional],
        "additionalProperties": False,
    }


def all_of(name: str, words: str, of: Schema) -> Schema:
    """Return the schema of an answer that is a list, under its name: all of them."""
    return keyed(words, {name: listed(of)})


def maybe(schema: Schema) -> Schema:
    """Return the schema of the same, or null."""
    return {"anyOf": [schema, {"type": "null"}]}


TEXTS = listed(TEXT)
ENTRY = described(TEXT, "the entry's number")
ENTRIES = described(TEXTS, "the entries it rests on, by number")
MOMENT = described(TEXT, "the day, and the hour where it was written")
