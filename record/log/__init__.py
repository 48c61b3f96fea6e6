"""The log: where entry lines are kept. The only part of the record that speaks SQL."""

from __future__ import annotations

from record.log.faults import Locked, LogFault, NotARecord, NoWords, RecordTooNew
from record.log.folder import Folder
from record.log.merge import Handed, Merged, NotMerged, handed_lines, handed_over, merge
from record.log.office import Office, Place, place_of
from record.log.sound import Checked, checked
from record.log.store import Log
from record.log.verify import Verdict, verified, verify

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
