"""The schema of an answer, made from its own class.

A key is described by the words that stand beside its field in the class, and an object by the
first line of its class. Nothing here is written twice, so the schema cannot lag behind.
"""

from __future__ import annotations

import inspect
import re
import types
from collections.abc import Mapping, Sequence
from dataclasses import fields, is_dataclass
from enum import Enum
from typing import Any, Union, get_args, get_origin, get_type_hints

from record.described.writing import Schema, described


def schema_of_class(cls: type, found: dict[str, Schema]) -> Schema:
    """Return the schema of an answer's class; the classes it holds are put into ``found``."""
    return _object(cls, found)


def _object(cls: type, found: dict[str, Schema]) -> Schema:
    hints, said = get_type_hints(cls), _beside(cls)
    return {
        "type": "object",
        "description": _first_line(cls),
        "properties": {
            field.name: _described(_form(hints[field.name], found), said.get(field.name, ""))
            for field in fields(cls)
        },
        "required": [field.name for field in fields(cls)],
        "additionalProperties": False,
    }


def _described(schema: Schema, words: str) -> Schema:
    return described(schema, words) if words else schema


def _first_line(cls: type) -> str:
    words = inspect.getdoc(cls) or cls.__name__
    return " ".join(words.split("\n\n")[0].split())


def _beside(cls: type) -> Mapping[str, str]:
    """Return what stands beside each field of a class, as a comment on its line."""
    said = {}
    for line in inspect.getsource(cls).splitlines():
        found = re.match(r"    (\w+): [^#]*#\s*(.+)$", line)
        if found:
            said[found[1]] = found[2]
    return said


PLAIN = {str: "string", int: "integer", float: "number", bool: "boolean", type(None): "null"}


def _form(hint: Any, found: dict[str, Schema]) -> Schema:
    if hint in PLAIN:
        return {"type": PLAIN[hint]}
    if isinstance(hint, type) and is_dataclass(hint):
        if hint.__name__ not in found:
            found[hint.__name__] = {}  # held while it is made: a class may hold itself
            found[hint.__name__] = _object(hint, found)
        return {"$ref": f"#/$defs/{hint.__name__}"}
    if isinstance(hint, type) and issubclass(hint, Enum):
        return {"enum": [each.value for each in hint]}
    origin, args = get_origin(hint), get_args(hint)
    if origin in (Union, types.UnionType):
        return _either(args, found)
    if origin is tuple and args[-1] is not Ellipsis:
        parts = [_form(arg, found) for arg in args]
        return {"type": "array", "prefixItems": parts, "minItems": len(parts), "items": False}
    if origin is Mapping:
        return {"type": "object", "additionalProperties": _form(args[1], found)}
    if origin is tuple:
        return {"type": "array", "items": _form(args[0], found)}
    raise TypeError(f"{hint} has no JSON form")


def _either(hints: Sequence[Any], found: dict[str, Schema]) -> Schema:
    parts = [_form(hint, found) for hint in hints]
    if all(part.keys() == {"type"} for part in parts):
        return {"type": [part["type"] for part in parts]}
    return {"anyOf": parts}
