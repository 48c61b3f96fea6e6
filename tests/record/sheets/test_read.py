"""Day sheets: what the crew wrote is read as they meant it, and nothing of it is lost."""

from __future__ import annotations

import random
import time
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from record.facts.values import Absent, Level, Part, Why
from record.sheets import Sheet, SheetRejected, in_words, read_sheet
from record.units import Quantity
from tests.record.records import sheet
from tests.record.sheets.catalogue import ERRORS, SHEETS

VALID = (ERRORS / "_record.md").read_text(encoding="utf-8")


def read(blocks: str) -> Sheet:
    return read_sheet("sheet.md", sheet(blocks).encode())


def field(value: str, key: str = "material") -> object:
    (draft,) = read(f"## run AIR-IN\n\n- {key}: {value}").drafts
    return draft.body[key.replace(" ", "_")]


def test_a_sheet_says_its_day_its_writer_and_its_work():
    found = read_sheet("plan.md", VALID.encode())
    assert (found.title, found.site, found.zone) == (
        "2031-05-01 ld plan",
        "fern-bank",
        "America/Denver",
    )
    assert [(d.kind.word, d.about) for d in found.drafts] == [
        ("site", "fern-bank"),
        ("landmark", "H1"),
        ("hull", "A"),
        ("run", "AIR-IN"),
        ("station", "AIR-IN/1"),
        ("station", "AIR-IN/2"),
        ("reading taken", "AIR-IN"),
    ]


def test_feet_and_inches_are_kept_as_written_beside_the_metres():
    """12 ft 4 1/2 in = 148.5 in; 148.5 x 0.0254 = 3.7719 m, 1/2 in = 0.0127 m (the inch is
    0.0254 m exactly since 1959)."""
    value = field("12′ 4½″ ± ½″", "pipe length")
    assert isinstance(value, Quantity)
    assert (value.si, value.tol) == (Decimal("3.7719"), Decimal("0.0127"))
    assert value.text == "12′ 4½″ ± ½″"


@pytest.mark.parametrize(
    ("written", "metres"),
    [
        ("\N{MINUS SIGN}3.60 m", "-3.60"),
        ("3.60\N{NO-BREAK SPACE}m", "3.60"),
        ("3\N{NARROW NO-BREAK SPACE}600 mm", None),
        ("11’ 9\N{RIGHT DOUBLE QUOTATION MARK}", "3.5814"),
    ],
)
def test_what_a_phone_makes_of_signs_is_folded_for_reading_only(written: str, metres: str | None):
    """11 ft 9 in = 141 in = 3.5814 m. A space within a number is not one number."""
    if metres is None:
        with pytest.raises(SheetRejected):
            field(written, "pipe length")
        return
    value = field(written, "pipe length")
    assert isinstance(value, Quantity) and value.si == Decimal(metres)
    assert value.text == written


@pytest.mark.parametrize("space", [" ", "\N{NO-BREAK SPACE}", "  ", "\t"])
def test_the_three_absences_are_read_whatever_the_space_between(space: str):
    assert field(f"not{space}recorded") == Absent(Why.NOT_RECORDED)
    assert field("None") == Absent(Why.NONE)
    assert field(f"none{space}fitted") == Absent(Why.NONE)
    assert field(f"n/a,{space}below frost") == Absent(Why.NOT_APPLICABLE, "below frost")
    assert field(f"supply{space}air", "carries") == "supply air"


@pytest.mark.parametrize("space", [" ", "\N{NO-BREAK SPACE}", "  "])
def test_a_level_says_which_part_of_the_pipe_whatever_the_space_between(space: str):
    (draft,) = read(f"## valve V-1\n\n- level: crown{space}47.906 m").drafts
    level = draft.body["level"]
    assert isinstance(level, Level)
    assert (level.part, level.height.si) == (Part.CROWN, Decimal("47.906"))


def test_a_fault_behind_a_wide_space_still_points_at_its_own_word():
    with pytest.raises(SheetRejected) as caught:
        read("## valve V-1\n\n- level: crown \N{NO-BREAK SPACE} 47.9O6 m")
    (fault,) = caught.value.faults
    assert fault.text[fault.column - 1 : fault.column - 1 + fault.length] == "47.9O6"


def test_the_unit_of_a_column_goes_with_every_number_under_it():
    found = read("## run X-1\n\n| station | x [ft] | how |\n|---|---|---|\n| 1 | 10 | tape |\n"
                 "| 2 | 3 m | tape |")  # fmt: skip
    one, two = (draft.body["x"] for draft in found.drafts)
    assert isinstance(one, Quantity) and isinstance(two, Quantity)
    assert (one.si, one.text) == (Decimal("3.048"), "10 ft")  # 10 x 0.3048 m, exactly
    assert (two.si, two.text) == (Decimal("3"), "3 m")


def test_a_station_put_in_later_may_be_named_between_two():
    found = read("## run X-1\n\n| station | x [m] | how |\n|---|---|---|\n| 2b | 1 | tape |")
    assert [draft.about for draft in found.drafts] == ["X-1/2b"]


def test_the_site_needs_no_tag_where_the_sheet_says_which_it_is():
    """Above the blocks stands "- site:"; there is no other."""
    (draft,) = read("## site\n\n- place: lane end").drafts
    assert (draft.kind.word, draft.about) == ("site", "fern-bank")


def test_a_kind_is_named_with_the_article_it_takes():
    with pytest.raises(SheetRejected) as caught:
        read("## equipment F-1\n\n- wibble: x\n\n## opening O-1\n\n- wibble: x")
    assert [fault.problem.split(" has")[0] for fault in caught.value.faults] == [
        "an equipment",
        "an opening",
    ]


def test_a_field_is_offered_for_the_last_of_its_words():
    with pytest.raises(SheetRejected) as caught:
        read("## hull A\n\n- width: 2.40 m")
    assert caught.value.faults[0].remedy == 'Did you mean "inside width"?'


@pytest.mark.parametrize(
    ("written", "file"),
    [
        ("IMG_2041.jpg", "IMG_2041.jpg"),
        ("IMG 2041.jpg", "IMG 2041.jpg"),
        ("photos/PXL (1).jpg", "photos/PXL (1).jpg"),
        ("<photos/PXL (1).jpg>", "photos/PXL (1).jpg"),
        (" IMG 2041.jpg ", "IMG 2041.jpg"),
    ],
)
def test_a_picture_is_found_by_the_name_its_phone_gave_it(written: str, file: str):
    one, two = read(f"## run AIR-IN\n\n![wide]({written}) ![close](b.jpg)").drafts[1:]
    assert (one.body["file"], one.spots["file"].text, two.body["file"]) == (file, file, "b.jpg")


@pytest.mark.parametrize("begun", ["![", "![a](", "![a](" + " " * 200])
def test_beginnings_of_pictures_without_an_end_are_told_in_a_moment(begun: str):
    """A line of 100 000 letters once took 18 s."""
    start = time.process_time()
    with pytest.raises(SheetRejected):
        read("## remark\n\nx " + begun * (100_000 // len(begun)) + "\n\n- x")
    assert time.process_time() - start < 6


def test_a_number_with_its_sign_is_a_remark_and_no_heading():
    _, remark = read("## run AIR-IN\n\n#2 pump is noisy").drafts
    assert remark.body["text"] == "#2 pump is noisy"


def test_a_long_value_goes_on_after_spaces():
    assert field("clay,\n  laid on sand,\n  sockets up the fall") == (
        "clay, laid on sand, sockets up the fall"
    )


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_lines_may_end_as_any_machine_ends_them(end: str):
    found = read_sheet("x.md", VALID.replace("\n", end).encode("utf-8-sig"))
    assert len(found.drafts) == 7


@pytest.mark.parametrize(
    "words",
    [
        "[S-1]: drums",
        "[note]: <moved> 'today'",
        "1. first\n2. second",
        "> quoted",
        "```\nfenced\n```",
        "<div>marked up</div>",
        "    set in by four",
        "under a rule\n===",
        "**bold** words",
        "a | b | c",
        "x\u2028y",
        "\\| escaped",
    ],
)
def test_no_words_of_the_crew_are_lost_to_markdown(words: str):
    (remark,) = read(f"## remark\n\n{words}").drafts
    text = str(remark.body["text"])
    kept = set(text.replace("`", " ").replace(">", " ").split())
    assert set(words.replace("`", " ").replace(">", " ").split()) <= kept | {"==="}


def test_every_draft_knows_its_own_lines():
    found = read_sheet("plan.md", VALID.encode())
    lines = VALID.split("\n")
    for draft in found.drafts:
        own = [lines[n - 1] for n in draft.lines]
        assert own[0].startswith(("##", "|"))
        if draft.about == "AIR-IN/2":
            assert own == ["| 2 bend | 24.00 | 6.00 | 47.906 | staff |"]


def test_a_sheet_too_large_to_be_one_is_refused_at_once():
    start = time.monotonic()
    with pytest.raises(SheetRejected, match="1 fault"):
        read_sheet("x.md", b"# 2031-05-14 ld\n" + b"x" * 5_000_000)
    assert time.monotonic() - start < 0.5


@pytest.mark.parametrize(
    "unit",
    [
        "> ",
        "- ",
        "| a ",
        "#",
        "[",
        "![",
        "`",
        "* - + ",
        "&",
        "\\",
        "<",
        "**",
        "_",
        "1. ",
        "\t",
        "(",
    ],
)
def test_no_run_of_signs_takes_long(unit: str):
    """The largest sheet there may be, all of one sign: a second or two on a slow tablet."""
    data = (sheet("## remark\n\n") + unit * (190_000 // len(unit))).encode()
    start = time.monotonic()
    outcome(data)
    assert time.monotonic() - start < 5


def outcome(data: bytes) -> Sheet | SheetRejected:
    """Read a sheet; anything but a sheet or its faults in words is a failure of the test."""
    try:
        return read_sheet("x.md", data)
    except SheetRejected as rejected:
        assert rejected.faults
        for fault in rejected.faults:
            assert in_words(fault)
            assert fault.problem and fault.remedy
        return rejected


@given(st.text(max_size=300) | st.text(alphabet="#|-: \n[]()!>*`ax1.,_\t\"'", max_size=120))
@example("# 2031-05-14 ld\n\n- site: a\n\n## remark\n\n[a]: b")
def test_any_text_is_a_sheet_or_is_refused_in_words(text: str):
    outcome(text.encode("utf-8", "surrogatepass"))
    outcome(sheet(f"## run X-1\n\n{text}").encode("utf-8", "surrogatepass"))


@given(st.binary(max_size=200))
def test_any_bytes_are_a_sheet_or_are_refused_in_words(data: bytes):
    outcome(data)
    outcome(sheet("## remark\n\n").encode() + data)


PIECES = [
    *VALID.split("\n"),
    *(line for path in SHEETS for line in path.read_text("utf-8", "replace").split("\n")),
]


@given(st.randoms(use_true_random=False))
def test_a_valid_sheet_spoiled_anyhow_is_a_sheet_or_is_refused_in_words(chance: random.Random):
    lines = VALID.split("\n")
    for _ in range(chance.randint(1, 6)):
        at = chance.randrange(len(lines))
        what = chance.randrange(5)
        if what == 0:
            del lines[at : at + chance.randint(1, 3)]
            lines = lines or [""]
        elif what == 1:
            lines.insert(at, chance.choice(PIECES))
        elif what == 2:
            place = chance.randint(0, len(lines[at]))
            sign = chance.choice("|-#:\\[]()! \t\u00a0½″ñ\u0300漢²٣\U0001f9f1")
            lines[at] = lines[at][:place] + sign + lines[at][place:]
        elif what == 3:
            place = chance.randint(0, max(0, len(lines[at]) - 1))
            lines[at] = lines[at][:place] + lines[at][place + 1 :]
        else:
            other = chance.randrange(len(lines))
            lines[at], lines[other] = lines[other], lines[at]
    outcome("\n".join(lines).encode())


WORD = st.text(alphabet=st.characters(categories=["L"]), min_size=3, max_size=9)


@given(st.lists(WORD, min_size=1, max_size=12), st.randoms(use_true_random=False))
def test_every_word_of_a_sheet_that_is_taken_is_in_what_it_says(
    words: list[str], chance: random.Random
):
    """Words strewn among all of Markdown's signs: a sheet is refused, or holds every one."""
    signs = ["\n", "\n\n", " ", "- ", "> ", "1. ", "\n    ", "[", "]: ", "`", "\n===\n", "<", "|"]
    text = "".join(f"{chance.choice(signs)}{word}" for word in words)
    found = outcome(sheet(f"## remark\n\n{text}").encode())
    if isinstance(found, Sheet):
        said = " ".join(str(draft.body.get("text")) for draft in found.drafts)
        for word in words:
            assert word in said


def test_the_sheets_of_the_demo_can_be_read():
    demo = Path(__file__).parents[3] / "demo" / "sheets"
    found = sorted(demo.glob("*.md"))
    assert found
    for path in found:
        assert read_sheet(path.name, path.read_bytes()).drafts
