"""Answers → plain JSON with stable keys: the names of the answer's own fields.

Lengths are in metres to 0.1 mm, in keys that end in ``_m``; entries are named by number.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from decimal import Decimal
from enum import Enum
from typing import Any


def json_form(answer: Any) -> dict[str, Any]:
    """Return the JSON form of an answer, keys in the order its class declares them."""
    return {each.name: _form(getattr(answer, each.name)) for each in fields(answer)}


def _form(value: Any) -> Any:
    if is_dataclass(value) and not isinstance(value, type):
        return json_form(value)
    match value:
        case Enum():
            return value.value
        case float():
            return round(value, 4) + 0.0  # no -0.0
        case Decimal():
            return str(value)
        case Mapping():
            return {str(key): _form(each) for key, each in value.items()}
        case tuple() | list() | frozenset():
            return [_form(each) for each in value]
        case _:
            return value
