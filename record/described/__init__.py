"""What every command prints with ``--json``, described as JSON Schema (draft 2020-12).

Where an answer is a class, its schema is made from that class; where it is as open as the record
is, or is put together for the terminal, it is written out, and tests hold real answers to it.
"""

from __future__ import annotations

from copy import deepcopy
from importlib import import_module
from typing import Any

from record.described import accounts, briefs, checks, entries, records, sums
from record.described.by_class import schema_of_class
from record.described.writing import TEXT, YES_NO, Schema, described, keyed, listed

#: Command → where its answer's class is.
ANSWERS = {
    "behind": "answers.behind_values.Behind",
    "beneath": "answers.beneath_values.Beneath",
    "fixings": "answers.fixings_values.Fixings",
    "find": "answers.find_values.Find",
    "profile": "answers.profile_values.Profile",
    "upstream": "answers.stream_values.Stream",
    "downstream": "answers.stream_values.Stream",
    "landmarks": "answers.landmarks.Landmarks",
    "rests-on": "answers.rests_on.RestsOn",
    "passes": "answers.passes.Pass",
    "recall": "recall.ask.Recall",
}
#: Command → its schema, written out.
WRITTEN: dict[str, Schema] = {
    "show": entries.SHOW,
    "history": entries.HISTORY,
    "entries": entries.ENTRIES,
    "proofs": accounts.PROOFS,
    "balance": accounts.BALANCE,
    "left": accounts.LEFT,
    "drift": accounts.DRIFT,
    "fill": accounts.FILL,
    "ready": checks.READY,
    "figures": sums.FIGURES,
    "reckon": sums.RECKON,
    "due": sums.DUE,
    "visits": sums.VISITS,
    "brief": briefs.BRIEF,
    "verify": records.VERIFY,
    "merge": records.MERGE,
    "pack": records.PACK,
    "unpack": records.UNPACK,
    "seal": records.SEAL,
    "unseal": records.SEAL,
    "export": records.EXPORT,
    "manual list": records.MANUAL_LIST,
    "manual check": records.MANUAL_CHECK,
    "manual compare": records.MANUAL_COMPARE,
}
#: Command → its answers' classes, where it has more than one.
EITHER = {"pass": ("answers.work_pass.WorkPass", "answers.ground_pass.GroundPass")}
COMMANDS = (*ANSWERS, *EITHER, *WRITTEN)
DRAFT = "https://json-schema.org/draft/2020-12/schema"
ASKED = {
    "as_known_at": "what --as-known-at asked for; absent or null where it was not asked",
    "as_of": "what --as-of asked for; null where it was not asked",
}
UNITS = (
    "Keys that end in _m are metres to 0.1 mm, _deg degrees; null is not recorded, never zero; "
    "entries are named by number, days are ISO 8601."
)


def schema_of(command: str) -> Schema:
    """
    Return the JSON Schema of what a command prints with ``--json``.

    Raises KeyError for a command that is not one of `COMMANDS`.
    """
    found: dict[str, Schema] = {}
    if command in EITHER:
        each = [_made(where, found) for where in EITHER[command]]
        whole: Schema = {"description": "A pass for boards, or for ground.", "oneOf": each}
    else:
        whole = deepcopy(WRITTEN[command]) if command in WRITTEN else _of_class(command, found)
    for one in (whole, *whole.get("oneOf", ())):
        _with_what_was_asked(one)
    return {
        "$schema": DRAFT,
        "title": f"asburied {command} --json",
        "description": f"{whole.pop('description')} {UNITS}",
        **whole,
        "$defs": {**whole.get("$defs", {}), **dict(sorted(found.items()))},
    }


def _made(where: str, found: dict[str, Schema]) -> Schema:
    module, _, name = where.rpartition(".")
    cls: Any = getattr(import_module(f"record.{module}"), name)
    return schema_of_class(cls, found)


def _of_class(command: str, found: dict[str, Schema]) -> Schema:
    one = _made(ANSWERS[command], found)
    if command != "passes":
        return one
    one["properties"]["closed"] = described(YES_NO, "whether nothing is wanting any more")
    one["required"] = [*one["required"], "closed"]
    return keyed(
        "Every pass that was given to another trade.",
        {"passes": listed(one), "reader": TEXT, "further_entries": TEXT},
    )


def _with_what_was_asked(schema: Schema) -> None:
    for key, words in ASKED.items() if "properties" in schema else ():
        kept = schema["properties"].get(key, {"type": ["string", "null"]})
        schema["properties"][key] = {**kept, "description": words}
