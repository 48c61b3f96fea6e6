"""The catalogue of faults: every sheet in errors/ is refused with just the words beside it."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from record.log import Log
from record.sheets import SheetRejected
from tests.record.sheets.catalogue import ERRORS, SHEETS, begun, post_sheet, refusal


@pytest.fixture(scope="module")
def record(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Log]:
    with begun(tmp_path_factory.mktemp("catalogue") / "record") as log:
        yield log


def test_the_catalogue_is_there_and_no_words_are_left_over():
    assert len(SHEETS) > 50
    assert {p.stem for p in SHEETS} == {p.stem for p in ERRORS.glob("*.txt")}


@pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
def test_a_sheet_is_refused_in_these_words_and_nothing_of_it_is_kept(record: Log, path: Path):
    before = list(record.lines())
    said = refusal(record, path)
    assert said == path.with_suffix(".txt").read_text(encoding="utf-8")
    assert said, "this sheet was not refused"
    assert list(record.lines()) == before


@pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
def test_every_fault_has_its_place_its_line_and_what_to_write_instead(record: Log, path: Path):
    own = path.read_bytes().decode("utf-8", errors="replace").split("\n")
    with pytest.raises(SheetRejected) as caught:
        post_sheet(record, path)
    for fault in caught.value.faults:
        assert fault.problem and fault.remedy.endswith((".", "?")), fault
        if fault.line:
            assert fault.text.replace("�", "") in own[fault.line - 1].replace("\x07", "").replace(
                "�", ""
            )
            assert 1 <= fault.column <= len(own[fault.line - 1]) + 1
    places = [(f.line, f.column, f.problem) for f in caught.value.faults]
    assert len(set(places)) == len(places) and places == sorted(places)


def test_all_faults_of_a_sheet_are_told_at_once():
    """errors/all-at-once.md has seven, one a line; counted by eye."""
    words = (ERRORS / "all-at-once.txt").read_text(encoding="utf-8")
    assert words.count("all-at-once.md:") == 7
