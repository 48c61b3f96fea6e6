"""The log: where entry lines are kept. The only part of the record that speaks SQL."""

from __future__ import annotations

from record.log.folder import Folder, NotARecord, RecordTooNew
from record.log.store import Log, LogFault
from record.log.verify import Verdict, verify

__all__ = ["Folder", "Log", "LogFault", "NotARecord", "RecordTooNew", "Verdict", "verify"]
