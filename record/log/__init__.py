"""
The log: where entry lines are kept. The only part of the record that speaks SQL.

A name is fetched from its module when it is asked for: SQLAlchemy takes longer to start than many
a question, and not every question needs it.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from record.log.faults import Locked, LogFault, NotARecord, NoWords, RecordTooNew
    from record.log.folder import Folder
    from record.log.merging import (
        Handed,
        Merged,
        NotMerged,
        handed_lines,
        handed_over,
        merge,
    )
    from record.log.places import Office, Place, place_of
    from record.log.sound import Checked, checked
    from record.log.store import Log
    from record.log.verifying import Verdict, verified, verify

__all__ = [
    "Checked",
    "Folder",
    "Handed",
    "Locked",
    "Log",
    "LogFault",
    "Merged",
    "NoWords",
    "NotARecord",
    "NotMerged",
    "Office",
    "Place",
    "RecordTooNew",
    "Verdict",
    "checked",
    "handed_lines",
    "handed_over",
    "merge",
    "place_of",
    "verified",
    "verify",
]
_IN = {
    "faults": ("Locked", "LogFault", "NotARecord", "NoWords", "RecordTooNew"),
    "folder": ("Folder",),
    "merging": ("Handed", "Merged", "NotMerged", "handed_lines", "handed_over", "merge"),
    "sound": ("Checked", "checked"),
    "places": ("Office", "Place", "place_of"),
    "store": ("Log",),
    "verifying": ("Verdict", "verified", "verify"),
}
_WHERE = {name: module for module, names in _IN.items() for name in names}


def __getattr__(name: str) -> Any:
    if name not in _WHERE:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    found = getattr(import_module(f"{__name__}.{_WHERE[name]}"), name)
    globals()[name] = found
    return found
