"""Sheets, tables, stored lines and lines handed over, changed at random: read, or refused in words.

The same changes each time; ``ASBURIED_FUZZ=20000`` tries that many, and others.
"""

from __future__ import annotations

import os
from datetime import timedelta
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from record.entry import LONGEST_LINE, BadLine, Entry, read
from record.log import Log, LogFault, NotARecord, NotMerged, RecordTooNew, handed_over, verify
from record.sheets import SheetRejected, Told, read_csv, read_sheet
from tests.record.records import SITE, post_text, sheet

ROOT = Path(__file__).parents[3]
MORE = os.environ.get("ASBURIED_FUZZ")
ANY = settings(
    max_examples=int(MORE or 100),
    derandomize=not MORE,
    database=None,
    deadline=timedelta(seconds=20),
    suppress_health_check=list(HealthCheck),
)
SHEETS = [path.read_bytes()[:4000] for path in sorted((ROOT / "demo/sheets").rglob("*.md"))]
ERRORS = ROOT / "tests/record/sheets/errors"
SHEETS += [path.read_bytes()[:4000] for path in sorted(ERRORS.glob("*.md"))]
TABLES = [path.read_bytes()[:4000] for path in sorted(ERRORS.glob("*.csv"))]
TABLES += [b"# 2031-05-14 ld\n\n- site: a\n\n## run R\n\nstation,x [m]\n1,2.0\n2,3.0\n"]
PIECES = [
    b"- ", b": ", b"\n", b"\n\n", b"## ", b"|", b"|---|---|\n", b"![", b"](", b"<!--", b"-->",
    b"____", b"\xff", b"\x00", "\u2028".encode(), b"\r", b"`", b"> " * 200, b"[" * 500, b"9" * 400,
    b"1e9999", b"NaN", b"1/0", b"7' 4-1/2\"", "±".encode(), "½".encode(), "٣".encode(), b"\\",
    b"not recorded", b"n/a", b"none", b'"', b";", b",", b"\t", b"mends: ", b"because: ", b"{", b"}",
    b"[", b"]", b"null", b"true", b"-0", b"1.5", b"\\u0000", b"\\ud800", b"[" * 100_000,
    b'{"a":' * 5000, b"0000-01-01", b"9999-12-31", b"23:59:60", b"x" * (LONGEST_LINE + 1),
]  # fmt: skip


@st.composite
def changed(draw: st.DrawFn, of: list[bytes]) -> bytes:
    """Bytes with a few pieces put in, taken out, doubled or swapped for a byte."""
    data = draw(st.sampled_from(of))
    for _ in range(draw(st.integers(1, 6))):
        at, to = sorted(draw(st.tuples(st.integers(0, len(data)), st.integers(0, len(data)))))
        match draw(st.integers(0, 3)):
            case 0:
                data = data[:at] + draw(st.sampled_from(PIECES)) + data[at:]
            case 1:
                data = data[:at] + data[min(to, at + 200) :]
            case 2:
                data = data[:at] + data[at : min(to, at + 300)] * 2 + data[at:]
            case _:
                data = data[:at] + bytes([draw(st.integers(0, 255))]) + data[at + 1 :]
    return data


@ANY
@given(changed(SHEETS))
def test_any_sheet_is_read_or_its_faults_are_told(data: bytes):
    try:
        assert read_sheet("sheet.md", data).drafts is not None
    except SheetRejected as refused:
        assert refused.faults and str(refused)


@ANY
@given(
    changed(TABLES),
    st.sampled_from(
        [
            Told(),
            Told(decimal_comma=True),
            Told(day="2031-05-14", writer="ld", about="run R", site="a", zone="UTC"),
        ]
    ),
)
def test_any_table_is_read_or_its_faults_are_told(data: bytes, told: Told):
    try:
        assert read_csv("table.csv", data, told).drafts is not None
    except SheetRejected as refused:
        assert refused.faults and str(refused)


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A record with a little of everything, and the folder of its lines."""
    from record.archive import packed, write_folder
    from record.readers import look

    place = tmp_path_factory.mktemp("made")
    with Log.make(place / "record") as log:
        post_text(log, SITE)
        post_text(log, sheet("## run AIR-IN\n\n- material: clay\n\n## remark\n\nA stone, ½ m."))
        post_text(log, sheet("## remark\n\n- readers: owner\n\nAnother.", writer="ck"))
        write_folder(packed(look(log.entries()), log.files).files, place / "bag")
    return place


def lines_of(made: Path) -> list[tuple[bytes, bytes | None]]:
    with Log.open(made / "record") as log:
        return [(link, content) for _, _, link, content in log.lines()]


@ANY
@given(data=st.data())
def test_any_stored_line_is_read_or_refused_and_never_taken_for_another(
    made: Path, data: st.DataObject
):
    """What can be read is the very bytes that were given: writing it again is the same line."""
    link, content = data.draw(st.sampled_from(lines_of(made)))
    assert content is not None
    link = data.draw(st.one_of(st.just(link), changed([link])))
    content = data.draw(changed([content]))
    try:
        entry = read(link, content)
    except BadLine as bad:
        assert str(bad)
    else:
        assert isinstance(entry, Entry) and (entry.link_line, entry.content_line) == (link, content)


@ANY
@given(data=st.data())
def test_any_log_is_judged_and_a_line_that_was_changed_is_never_sound(
    made: Path, data: st.DataObject
):
    with Log.open(made / "record") as log:
        rows = list(log.lines())
    place = data.draw(st.integers(0, len(rows) - 1))
    stored, received, link, content = rows[place]
    assert content is not None
    if data.draw(st.booleans()):
        new = (stored, received, data.draw(changed([link])), content)
    else:
        new = (stored, received, link, data.draw(changed([content])))
    verdict = verify([*rows[:place], new, *rows[place + 1 :]])
    assert verdict.sound == (new == rows[place])


@ANY
@given(data=st.data())
def test_any_folder_of_lines_is_refused_in_words_where_a_byte_of_it_was_changed(
    made: Path, data: st.DataObject
):
    name = data.draw(st.sampled_from(["links.jsonl", "contents.jsonl", "checkpoint.txt"]))
    path = made / "bag" / "data" / name
    was = path.read_bytes()
    new = data.draw(changed([was]))
    path.write_bytes(new)
    try:
        handed_over(made / "bag" / "data")
    except (NotMerged, NotARecord) as refused:
        assert str(made) in str(refused)
    else:
        # What is under the heads of checkpoint.txt is for people; the lines must be the very same.
        assert name == "checkpoint.txt" or sorted(new.splitlines()) == sorted(was.splitlines())
    finally:
        path.write_bytes(was)


@ANY
@given(data=st.data())
def test_any_database_file_is_opened_and_judged_or_refused_in_words(
    made: Path, tmp_path_factory: pytest.TempPathFactory, data: st.DataObject
):
    was = (made / "record" / "record.sqlite").read_bytes()
    at = data.draw(st.integers(0, len(was) - 1))
    new = bytearray(was)
    new[at : at + 8] = data.draw(st.binary(min_size=1, max_size=8))
    folder = tmp_path_factory.mktemp("changed")
    (folder / "record.sqlite").write_bytes(new)
    try:
        with Log.open(folder) as log:
            assert isinstance(verify(log.lines()).sound, bool)
            assert len(log.entries()) >= 0
    except (LogFault, NotARecord, RecordTooNew) as refused:
        assert str(refused)
