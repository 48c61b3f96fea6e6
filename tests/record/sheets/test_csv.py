"""A comma-separated file: the same words, places and refusals as a table of a day sheet."""

from __future__ import annotations

import csv
import time
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from record.sheets import Sheet, SheetRejected, Told, read_csv, read_sheet
from record.sheets.csv_cells import OpenQuote, cells_of
from record.sheets.csv_numbers import with_points

HEAD = """# 2031-05-14 ld levels

- site: fern-bank
- zone: America/Denver
- did: ph

## run AIR-IN

- pipe length: 12.60 m

"""
ROWS = [
    ["station", "x [m]", "y [ft]", "crown [m]", "how"],
    ["1 foot", "27.00", "7' 4-1/2\"", "48.006 ± 3 mm", "staff, BM1"],
    ["2 bend", "24.00", "not recorded", "~47.906", 'staff "B"; ck'],
    ["3 hull A", "16.40", "20.0", "n/a, inside", "by eye | twice"],
]
BARE = Told(
    day="2031-05-14", writer="ld", about="run AIR-IN", site="fern-bank", zone="America/Denver"
)


def written(rows: list[list[str]], separator: str = ",", end: str = "\n") -> str:
    """Return rows as the standard library's writer quotes them."""
    import io

    out = io.StringIO()
    csv.writer(out, delimiter=separator, lineterminator=end).writerows(rows)
    return out.getvalue()


def in_markdown(rows: list[list[str]]) -> str:
    lines = ["| " + " | ".join(c.replace("|", "\\|") for c in row) + " |" for row in rows]
    return "\n".join([lines[0], "|" + "---|" * len(rows[0]), *lines[1:]]) + "\n"


def said(sheet: Sheet) -> list[tuple[Any, ...]]:
    return [(d.kind.word, d.about, dict(d.body), d.did, d.key) for d in sheet.drafts]


def read(text: str, told: Told | None = None) -> Sheet:
    return read_csv("a.csv", text.encode(), told or Told())


def faults(text: str, told: Told | None = None) -> list[tuple[int, int, str]]:
    with pytest.raises(SheetRejected) as caught:
        read(text, told)
    return [(fault.line, fault.column, fault.problem) for fault in caught.value.faults]


@pytest.mark.parametrize("separator", [",", ";", "\t"])
@pytest.mark.parametrize("end", ["\n", "\r\n"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_a_file_says_what_its_table_would_say_in_a_day_sheet(separator: str, end: str, mark: str):
    text = mark + HEAD.replace("\n", end) + written(ROWS, separator, end)
    table = read_sheet("a.md", (HEAD + in_markdown(ROWS)).encode())
    assert said(read(text)) == said(table)
    assert read(text).title == "2031-05-14 ld levels"


def test_a_bare_export_says_the_same_when_it_is_told_what_it_is():
    sheet = read(written(ROWS), BARE)
    table = read_sheet("a.md", (HEAD + in_markdown(ROWS)).encode())
    rows = [one[:3] for one in said(table) if one[0] == "station"]
    assert [one[:3] for one in said(sheet) if one[0] == "station"] == rows
    assert (sheet.site, sheet.zone, sheet.title) == (
        "fern-bank", "America/Denver", "2031-05-14 ld table-air-in",
    )  # fmt: skip


PLAIN = st.text(st.characters(codec="utf-8", exclude_characters="\r\n\0"), max_size=12)


@given(st.lists(PLAIN, min_size=1, max_size=6), st.sampled_from(",;\t"))
def test_cells_are_those_of_the_standard_librarys_reader(cells: list[str], separator: str):
    """The outside check: what csv.writer writes on a line, csv.reader and we read alike."""
    line = written([cells], separator, "")
    expected = next(csv.reader([line], delimiter=separator))
    found = cells_of(line, 1, separator)
    assert [cell.text for cell in found] == [cell.strip() for cell in expected]


@given(st.lists(PLAIN, min_size=1, max_size=6), st.sampled_from(",;\t"))
def test_a_cell_stands_where_it_is_said_to_stand(cells: list[str], separator: str):
    line = written([cells], separator, "")
    for cell in cells_of(line, 1, separator):
        assert line[cell.column - 1 :].replace('""', '"').startswith(cell.text)


@given(st.text(st.sampled_from('ab", ;')))
def test_any_line_is_cells_or_a_quote_left_open(line: str):
    try:
        assert cells_of(line, 1, ",")
    except OpenQuote as fault:
        assert fault.at.text.startswith('"')


@given(st.integers(1, 3), st.integers(1, 2), st.booleans())
def test_a_bad_cell_is_shown_at_its_own_line_and_column(row: int, column: int, quoted: bool):
    rows = [[*cells] for cells in ROWS]
    rows[row][column] = "6.0O"
    text = HEAD + written(rows)
    if quoted:
        text = text.replace("6.0O", '"6.0O"')
    lines = text.split("\n")
    at = next(n for n, line in enumerate(lines, start=1) if "6.0O" in line)
    [(line, where, problem)] = faults(text)
    assert (line, where) == (at, lines[at - 1].index("6.0O") + 1) and "letter O" in problem


SEMI = [
    ["station", "x [m]", "crown [m]", "how"],
    ["1 foot", "27,00", "48,006 ± 3,5 mm", "1,5 m staff"],
]


def test_decimal_commas_are_read_where_the_whole_file_proves_them():
    [_, row] = said(read(HEAD + written(SEMI, ";")))
    assert str(row[2]["x"].si) == "27" and str(row[2]["level"].height.si) == "48.006"
    assert str(row[2]["level"].height.tol) == "0.0035"
    assert row[2]["how"] == "1,5 m staff"


@pytest.mark.parametrize(
    ("x", "crown"), [("27,000", "48,006"), ("27,00", "48.006"), ("1,234,567", "48,0")]
)
def test_commas_that_might_part_thousands_are_never_guessed(x: str, crown: str):
    rows = [SEMI[0], ["1 foot", x, crown, "staff"]]
    found = faults(HEAD + written(rows, ";"))
    assert found and all("has a comma" in problem for _, _, problem in found)


def test_who_says_that_every_comma_is_a_point_is_believed():
    rows = [SEMI[0], ["1 foot", "27,000", "48,006", "staff"]]
    for separator in (";", ","):
        [_, row] = said(read(HEAD + written(rows, separator), Told(decimal_comma=True)))
        assert str(row[2]["x"].si) == "27" and str(row[2]["level"].height.si) == "48.006"


@given(st.text(st.sampled_from("0123456789,. m±~"), max_size=20))
def test_points_for_commas_leave_every_letter_in_its_column(cell: str):
    assert len(with_points(cell)) == len(cell)
    assert with_points(cell).replace(".", ",") == cell.replace(".", ",")


def test_a_column_left_out_by_name_is_not_read():
    rows = [[*cells, "sd [mm]", "Code"][:5] + extra for cells, extra in zip(
        ROWS, [["SD [mm]", "Code"], ["2", "x"], ["", "y"], ["-", ""]], strict=True
    )]  # fmt: skip
    assert "no field" in faults(HEAD + written(rows))[0][2]
    left = read(HEAD + written(rows), Told(leave_out=("sd", "CODE")))
    assert said(left) == said(read(HEAD + written(ROWS)))


def test_a_column_that_is_not_there_cannot_be_left_out():
    [(line, column, problem)] = faults(HEAD + written(ROWS), Told(leave_out=("SDx",)))
    assert (line, column) == (HEAD.count("\n") + 1, 1) and '"SDx"' in problem


def test_a_table_without_a_column_left_is_no_table():
    [(line, column, problem)] = faults(HEAD + "x\n1\n", Told(leave_out=("x",)))
    assert (line, column) == (HEAD.count("\n") + 1, 1) and "every column" in problem


def test_a_head_is_in_the_file_or_told_and_never_both():
    assert any("itself" in problem for _, _, problem in faults(HEAD + written(ROWS), BARE))


@pytest.mark.parametrize(
    ("change", "name", "says"),
    [
        ({"day": "2031-13-01"}, "--day", "is not a day"),
        ({"writer": "Ld"}, "--day", "is not a writer"),
        ({"about": "rum AIR-IN"}, "--about", "not a kind"),
        ({"about": "run"}, "--about", "needs the tag"),
    ],
)
def test_what_is_told_wrongly_is_shown_as_it_was_told(change: dict[str, str], name: str, says: str):
    from dataclasses import replace

    with pytest.raises(SheetRejected) as caught:
        read(written(ROWS), replace(BARE, **change))
    [fault] = caught.value.faults
    assert fault.sheet.startswith(name) and says in fault.problem


def test_rows_with_nothing_in_them_are_passed_over():
    assert said(read(HEAD + written(ROWS) + "\n,,,,\n\n")) == said(read(HEAD + written(ROWS)))


def test_a_happenings_table_is_read_too():
    head = HEAD.replace("## run AIR-IN\n\n- pipe length: 12.60 m", "## levelled")
    rows = [["point", "backsight [m]", "foresight [m]"], ["BM1", "1.234", "none"]]
    assert said(read(head + written(rows)))[0][:2] == ("levelled", "fern-bank")


def test_thousands_of_faults_are_counted_and_the_first_are_told():
    text = HEAD + written([ROWS[0], *[[f"{n}", "O", "1", "1", "x"] for n in range(500)]])
    found = faults(text)
    assert len(found) == 101 and "there are 500 faults" in found[0][2]
    assert found == sorted(found)


HEADS = st.sampled_from([HEAD, "# 2031-05-14 ld\n\n- site: fern-bank\n## run A-1\n", ""])
BODY = st.one_of(
    st.text(st.sampled_from('station,x[m];"\n\r\t0123.,_-|#<!>'), max_size=80),
    st.text(max_size=60),
    st.lists(st.lists(PLAIN, min_size=1, max_size=5), max_size=6).map(written),
)


@given(HEADS, BODY, st.sampled_from([Told(), BARE, Told(decimal_comma=True, leave_out=("x",))]))
def test_no_file_brings_the_reader_down(head: str, body: str, told: Told):
    text = (head + body).encode()
    try:
        read_csv("a.csv", text, told)
    except SheetRejected as refused:
        lines = [line for fault in refused.faults if (line := fault.line)]
        assert refused.faults and all(line >= 1 for line in lines)


@given(st.binary(max_size=200))
def test_no_bytes_bring_the_reader_down(data: bytes):
    with pytest.raises(SheetRejected):
        read_csv("a.csv", data, Told())


def many(count: int) -> float:
    rows = [
        [f"{n} point", f"{n / 100:.2f}", "2.50", "48.006", '"staff, BM1"'] for n in range(count)
    ]
    text = HEAD + written([ROWS[0], *rows])
    start = time.process_time()
    assert len(read(text).drafts) == count + 1
    return time.process_time() - start


def test_four_times_the_rows_take_about_four_times_as_long():
    """Eight leaves room for a busy machine; what grows with the square would take sixteen."""
    many(200)
    assert many(8000) < 8 * many(2000)
