"""A brief to take along: what is on its pages, who may read it, and that its sheet posts back.

The shelter is that of ``tests/record/answers/shelter.py``; places are read off its sheets.
"""

import io
import json

import pytest
from jsonschema import Draft202012Validator
from pypdf import PdfReader

from manual.brief.press import page_of, press_brief
from manual.brief.told import brief, with_past
from record.described import schema_of
from record.log import Log
from record.readers import look
from record.sheets import SheetRejected
from tests.record.answers.shelter import SITE, block, fit_out, hull, panel, run, sheet, shelter
from tests.record.blank.filling import fill
from tests.record.records import post_text
from tests.typed import asburied

W_1 = run(
    "W-1",
    [(1, 101.0, 200.05, 51.0, "20 mm"), (2, 105.0, 200.05, 51.0, "20 mm")],
    inside_diameter="152 mm",
)
BV_1 = block(
    "valve BV-1",
    type="ball",
    on_run="W-1",
    at_station="1",
    turns_to_close="quarter turn",
    normal_position="open",
)
CV_1 = block(
    "valve CV-1", type="check", on_run="W-1", at_station="2", turns_to_close="n/a, works by itself"
)
STORE = block(
    "store S-9",
    name="the tin box",
    hull="A",
    from_near="2.30 m",
    from_left="0.00 m",
    bottom="50.80 m",
    along="0.20 m",
    across="0.05 m",
    height="0.10 m",
)
WORK = [block("inspected P-1", what=f"screws, round {n}", result="passed") for n in range(1, 31)]


def words(pdf):
    """Return the words of a PDF, each run of spaces one."""
    pages = PdfReader(io.BytesIO(pdf)).pages
    return len(pages), " ".join(" ".join(page.extract_text() for page in pages).split())


def pressed(view, tag="P-1"):
    return words(press_brief(view, brief(view, tag), sheet="sheet.md").pdf)


def test_a_brief_of_a_panel_tells_what_lies_behind_it_what_to_shut_and_what_was_done():
    pages, said = pressed(
        shelter(panel(), fit_out(), W_1, BV_1, later=[sheet(*WORK[:1], date="2033-03-03")])
    )
    assert pages in (1, 2)
    for each in (
        "Behind P-1",
        "FO-1 fit-out",
        "0.300 to 0.500 m",
        '11 13/16" to 1\' 7 11/16"',
        "quarter turn",
        "screws, round 1",
        "emergency number: 911",
        "Look, measure and test before you cut",
        "left as",
        "checkpoint",
    ):
        assert each in said, each


def test_the_elevation_is_on_the_page_with_its_distances():
    """The box begins 0.300 m from the left edge and 0.300 m up: 2.30 − 2.00, 50.80 − 50.50."""
    made = brief(shelter(panel(), fit_out()), "P-1")
    assert made.drawing is not None and "FO-1" in made.drawing.svg
    _, said = pressed(shelter(panel(), fit_out()))
    assert "0.300 m" in said and "0.500 m" in said and "P-1, as you stand before it" in said


def test_what_a_reader_may_not_see_is_neither_on_the_page_nor_in_the_sheet():
    owner, technician = (shelter(panel(), STORE, reader=who) for who in ("owner", "technician"))
    assert "S-9" in pressed(owner)[1]
    made = brief(technician, "P-1")
    said = page_of(technician, made, sheet="s.md", asked="") + str(made.blocks)
    assert "S-9" not in said and "tin box" not in said
    assert "Do not open or drill this panel without asking the owner first" in said


def test_past_work_gives_way_and_nothing_of_the_answer_does():
    """30 inspections: the newest 12 are printed at most, and how many came before is said."""
    view = shelter(panel(), fit_out(), later=[sheet(*WORK, date="2033-03-03")])
    whole = brief(view, "P-1")
    assert len(whole.past) == 30
    assert with_past(whole, 12).past == whole.past[-12:] and with_past(whole, 12).earlier == 18
    made = press_brief(view, whole, sheet="s.md")
    pages, said = words(made.pdf)
    assert (pages, made.pages) == (2, 2) and made.earlier >= 18
    assert f"{made.earlier} earlier" in said and "round 30" in said and "FO-1" in said


def test_another_thing_is_told_by_its_fields_and_the_panel_it_lies_behind():
    _, said = pressed(shelter(panel(), fit_out()), "FO-1")
    assert "what: timber stop" in said and "P-1: Fixings: screws" in said
    assert "Panel P-1" in said  # the drawing's own head
    _, said = pressed(shelter(W_1, BV_1), "BV-1")
    assert "BV-1: valve" in said and "W-1: long section" in said


def test_only_what_a_hand_works_is_asked_how_it_was_left():
    made = brief(shelter(panel(), W_1, BV_1, CV_1), "P-1")
    left = [one.tag for one in made.blocks if one.kind and one.kind.word == "left as"]
    assert left == ["BV-1"]


def test_what_a_crew_typed_is_no_mark_up():
    view = shelter(panel(comes_off="<b>tip & pull</b>"))
    page = page_of(view, brief(view, "P-1"), sheet="s.md", asked="")
    assert "&lt;b&gt;tip &amp; pull&lt;/b&gt;" in page and "<b>tip" not in page


def test_no_line_of_a_page_breaks_within_a_measure():
    """The plate behind 102 mm of lining: by a space that holds, in millimetres and in inches."""
    view = shelter(panel(), fit_out())
    page = page_of(view, brief(view, "P-1"), sheet="s.md", asked="")
    assert "102\u00a0mm (4\u00a0in)" in page
    assert "1.200\u00a0m (3&#39;\u00a011\u00a01/4&#34;)" in page


def test_the_same_record_gives_the_same_bytes():
    view = shelter(panel(), fit_out())
    one, other = (press_brief(view, brief(view, "P-1"), sheet="s.md").pdf for _ in range(2))
    assert one == other


@pytest.fixture
def folder(tmp_path):
    with Log.make(tmp_path / "fern-bank") as log:
        post_text(log, sheet(SITE, hull(), panel(), fit_out(), W_1, BV_1))
    return tmp_path / "fern-bank"


def test_the_sheet_beside_it_posts_back_once_its_gaps_are_filled(folder, tmp_path):
    done = asburied(
        "--record",
        str(folder),
        "brief",
        "P-1",
        "--writer",
        "te",
        "--json",
        "--out",
        str(tmp_path),
        ASBURIED_NOW="2031-06-01T12:00:00Z",
    )
    assert done.returncode == 0, done.stderr
    said = json.loads(done.stdout)
    Draft202012Validator(schema_of("brief")).validate(said)
    assert {one["tag"] for one in said["pieces"]} == {"FO-1", "W-1"} and said["pages"] in (1, 2)
    sheet_ = tmp_path / "fern-bank-brief-P-1.md"
    assert (tmp_path / "fern-bank-brief-P-1.pdf").read_bytes().startswith(b"%PDF")
    with Log.open(folder) as log:
        with pytest.raises(SheetRejected):
            post_text(log, sheet_.read_text())
        built = look(log.entries()).built
        filled = fill(sheet_.read_text(), built, tmp_path)
        recorded = post_text(log, filled.text, folder=tmp_path).recorded
    kinds = [entry.content.kind for entry in recorded]
    assert kinds == ["opened-up", "photographed", "inspected", "left-as", "remark", "sheet-posted"]


def test_a_sheet_half_filled_in_is_never_written_over(folder, tmp_path):
    there = tmp_path / "fern-bank-brief-P-1.md"
    there.write_text("half filled in")
    done = asburied("--record", str(folder), "brief", "P-1", "--out", str(tmp_path))
    assert done.returncode == 1 and "may be half filled in" in done.stderr
    assert there.read_text() == "half filled in"


def test_a_tag_nobody_used_is_told_with_those_like_it(folder, tmp_path):
    done = asburied("--record", str(folder), "brief", "P-11", "--out", str(tmp_path))
    assert done.returncode == 1 and "Did you mean P-1" in done.stderr


def test_a_crowded_panel_comes_to_two_pages_with_all_it_must_say():
    """Ten boxes behind one panel, ten things to shut, forty doings: what is told stays told."""
    boxes = [fit_out(tag=f"FO-{n}") for n in range(1, 11)]
    valves = [block(f"valve BV-{n}", type="ball", on_run="W-1", at_station="1",
                    turns_to_close="quarter turn") for n in range(1, 11)]  # fmt: skip
    rounds = [block("inspected P-1", what=f"screws, round {n}", result="passed", reading="x" * 300)
              for n in range(1, 41)]  # fmt: skip
    view = shelter(panel(), *boxes, W_1, *valves, later=[sheet(*rounds, date="2033-03-03")])
    pages, said = pressed(view)
    assert pages == 2
    for tag in (*(f"FO-{n}" for n in range(1, 11)), *(f"BV-{n}" for n in range(1, 11))):
        assert tag in said, tag
    assert "asburied history P-1" in said and "remark P-1" in said


def test_what_stands_before_the_board_is_not_given_a_depth_behind_it():
    """A box 0.20 m into the room from the left wall, so 92 mm before the face of the lining."""
    made = brief(shelter(panel(), fit_out(from_left="0.20 m ± 150 mm")), "P-1")
    (row,) = made.rows
    assert row.deep == "in front of it" and row.sure.startswith("by its tolerance alone")


def test_each_measure_stands_in_both_units():
    """0.300, 0.400 and 0.500 m by 25.4 mm: 11.81, 15.75 and 19.69 in. Board and furring are 102 mm,
    the box is 50 mm deep before the steel: 52 mm is 2.05 in, 102 mm 4.02 in."""
    (row,) = brief(shelter(panel(), fit_out()), "P-1").rows
    assert row.across == '0.300 to 0.500 m\n11 13/16" to 1\' 7 11/16"'
    assert row.upward == '0.300 to 0.400 m\n11 13/16" to 1\' 3 3/4"'
    assert row.deep == '52 to 102 mm\n2 1/16" to 4"'
    assert row.tolerance == '± 5 / 8 mm\n± 3/16" / 5/16"'
