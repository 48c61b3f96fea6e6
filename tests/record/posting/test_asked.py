"""What a sheet names must be there: one tag, or each of several."""

from __future__ import annotations

import pytest

from record.log import Log
from record.sheets import SheetRejected
from tests.record.records import post_text, sheet

VALVE = """## valve CV-1

- type: check
- on run: {run}
"""
BATCH = """## batch M-1

- product: wall epoxy
- lots: E-501
- mixed: 12:30
- air: 29 °C
- workable time: 32 min
- used on: fern-bank, {tag}
"""


@pytest.mark.parametrize(
    ("blocks", "place"),
    [(VALVE.format(run="R-9"), (9, 11)), (BATCH.format(tag="R-9"), (13, 23))],
    ids=["one tag", "one of several tags"],
)
def test_a_tag_that_nothing_has_is_refused_where_it_is_written(
    log: Log, blocks: str, place: tuple[int, int]
):
    with pytest.raises(SheetRejected) as refused:
        post_text(log, sheet(blocks))
    (fault,) = refused.value.faults
    assert fault.problem == "nothing here has the tag R-9"
    assert (fault.line, fault.column) == place
