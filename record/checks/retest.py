"""Failures and the retests that settle them: a retest names what failed."""

from __future__ import annotations

import re

from record.checks.moments import when
from record.fold import Happening


def names(retest: Happening, failed: Happening) -> bool:
    """
    Return whether a retest says that it is one of ``failed``, and came after it.

    It names the entry's number; on the sheet of the same day, where the number is not known
    yet, the time of the failure will do: "the pinhole of 11:45".
    """
    said = retest.text("retest_of") or ""
    if when(failed).by(when(retest)) is False:
        return False
    if failed.entry.number in re.findall(r"[a-z][a-z0-9]*-\d+", said):
        return True
    return retest.on == failed.on and failed.at is not None and failed.at in said
