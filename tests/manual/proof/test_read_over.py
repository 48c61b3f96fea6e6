"""A manual that was spoiled on purpose is found out, each fault with its page and what to do."""

from __future__ import annotations

import pytest

from manual import theme
from manual.printing import press
from manual.proof import read_over
from record.readers import look
from tests.manual.books import body_of, entries

TURN = '<p style="break-before: page">x</p>'
TOLD = '<p>fern-bank A AIR-IN CV-1 AU-1 PR-1 S-1 <span class="tag">CV-1</span></p>'
DRAWING = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 60 20" width="60mm" height="20mm">'
    "{}</svg>"
)


@pytest.fixture(scope="module")
def view():
    return look(entries(), "owner")


@pytest.fixture
def found(view):
    """Return the findings of a body that tells of everything, by rule, with what is added."""

    def of(added, *, told=TOLD, seen=view):
        body = f"<main>{told}{added}</main>"
        pages, _ = press.proof(theme.page(body, title="A manual", lang="en"))
        return list(read_over(pages, seen))

    return of


def only(findings, rule):
    """Return the one finding there is, of the rule."""
    [one] = findings
    assert one.rule == rule
    assert one.wrong and one.instead
    return one


def test_a_page_with_nothing_wrong_has_no_finding(found):
    assert found("<p>plain</p>") == []


def test_a_tag_marked_as_one_that_the_record_lacks_is_found_with_what_is_near(found):
    one = only(found(f'{TURN}<p>shut <span class="tag">CV-2</span></p>'), "tag")
    assert (one.page, one.line, one.stops) == (2, "CV-2", True)
    assert one.instead == "write CV-1, or record CV-2"


def test_a_word_that_looks_like_a_tag_of_the_record_and_is_none_is_found(found):
    assert only(found("<p>shut CV-9 first</p>"), "tag").line == "CV-9"
    assert found("<p>UTF-8 and ISO-3166 are no tags, nor is CV-only</p>") == []


def test_a_number_of_a_lot_that_a_crew_wrote_is_no_missing_tag(found):
    seen = look(entries("## equipment AU-1\n\n- maker's part: CV-77"), "owner")
    assert found("<p>lot CV-77</p>", seen=seen) == []


def test_a_thing_that_no_page_names_is_found(found):
    one = only(found("", told=TOLD.replace("S-1 ", "")), "left out")
    assert (one.page, one.line) == (None, "S-1")
    assert "store" in one.wrong


def test_a_reader_is_not_told_of_a_thing_that_is_withheld_from_them(found):
    theirs = look(entries(), "technician")
    assert found("", told=TOLD.replace("S-1 ", ""), seen=theirs) == []
    marked = '<p><span class="tag">S-1</span></p>'
    assert only(found(marked, told=TOLD.replace("S-1 ", ""), seen=theirs), "tag").line == "S-1"


def test_a_link_that_leads_nowhere_is_found_where_it_stands(view):
    body = f'<main>{TOLD}{TURN}<p>see <a href="#nowhere">there</a></p></main>'
    pages, blots = press.proof(theme.page(body, title="A manual", lang="en"))
    one = only(list(read_over(pages, view)), "link")
    assert (one.page, one.line) == (2, "there (#nowhere)")
    assert blots, "and the press would stop"


def test_a_link_out_of_the_manual_is_found(found):
    one = only(found('<p><a href="https://example.org">more</a></p>'), "link")
    assert one.wrong == "leads out of the manual"
    assert found('<p><a href="tel:911">911</a> <a href="#top" id="top">up</a></p>') == []


def test_two_places_of_one_name_are_found(found):
    one = only(found(f'<p id="same">one</p>{TURN}<p id="same">two</p>'), "link")
    assert (one.page, one.line) == (2, "same")


WORD = "w" * 60


def test_a_word_too_long_for_its_cell_is_found(found):
    rows = f"<tbody><tr><td>{WORD}</td><td>x</td></tr></tbody>"
    table = f'<table style="table-layout: fixed">{rows}</table>'
    one = only(found(table), "fit")
    assert one.wrong.startswith("runs out of its cell by ")
    assert one.line == WORD
    assert found(table.replace(WORD, "short")) == []


def test_words_that_run_off_the_paper_are_found(found):
    assert only(found(f"<p>{WORD * 4}</p>"), "fit").wrong.startswith("runs out of the page by ")


def test_words_that_run_out_at_the_bottom_of_a_frame_are_found(found):
    frame = '<div style="border: 1pt solid; height: {}">one<br>two<br>three</div>'
    assert only(found(frame.format("12mm")), "fit").line == "three"
    assert found(frame.format("30mm")) == []


def test_words_that_end_beyond_their_drawing_are_found(found):
    words = '<title>A pipe</title><text x="{}" y="9" font-size="3">outfall in the bank</text>'
    assert only(found(DRAWING.format(words.format(45))), "fit").line == "outfall in the bank"
    assert found(DRAWING.format(words.format(5))) == []


@pytest.mark.parametrize(
    ("style", "ratio"),
    [("color: #777", "4.5"), ("background: #000; color: #666", "3.7"), ("color: #ccc", "1.6")],
)
def test_words_too_faint_to_read_are_found_with_their_contrast(found, style, ratio):
    """Ratios as WebAIM's contrast checker gives them (from memory): #777 on white is 4.48."""
    one = only(found(f'<p style="{style}">faint</p>'), "contrast")
    assert one.wrong.startswith(f"words too faint to read, {ratio} to 1")


def test_words_that_are_dark_or_large_enough_pass(found):
    """#767676 on white is 4.54 to 1, the lightest grey that passes (WebAIM; from memory)."""
    assert (
        found('<p style="color: #767676">grey</p><p style="color: #777; font-size: 19pt">a</p>')
        == []
    )


def test_faint_words_of_a_drawing_are_found(found):
    words = '<title>A pipe</title><text x="5" y="9" font-size="3" fill="#aaaaaa">outfall</text>'
    assert only(found(DRAWING.format(words)), "contrast").line == "outfall"


PIXEL = "data:image/gif;base64,R0lGODlhAQABAAAAACwAAAAAAQABAAACAkQBADs="


def test_a_picture_without_an_alternative_is_found(view):
    body = f'<main>{TOLD}{TURN}<img src="{PIXEL}"></main>'
    pages, _ = press.proof(theme.page(body, title="A manual", lang="en"))
    assert only(list(read_over(pages, view)), "alternative text").page == 2


def test_a_drawing_without_a_title_is_found(found):
    assert only(found(DRAWING.format("<path/>")), "alternative text").page == 1
    assert found(DRAWING.format("<title>A pipe</title>")) == []


def test_blanks_are_told_by_their_row_and_column_and_stop_nothing(found):
    table = (
        "<table><thead><tr><th>Tag</th><th>Level</th></tr></thead><tbody><tr><td>G1</td>"
        '<td><span class="gap">not recorded</span></td></tr></tbody></table>'
    )
    one = only(found(f'{TURN}{table}<p>Name <span class="gap"></span></p>'), "blank")
    assert (one.page, one.line, one.stops) == (2, "G1, Level", False)


def test_a_drill_that_is_only_a_draft_is_told_by_its_event(found):
    sheet = '<section><h1>Water coming in</h1><p class="draft">DRAFT: no drill</p></section>'
    one = only(found(sheet), "draft")
    assert (one.line, one.stops) == ("Water coming in", False)


def test_the_small_shelters_manual_has_nothing_to_mend(view):
    page = theme.page(body_of(entries()), title="A manual", lang="en")
    pages, blots = press.proof(page)
    findings = list(read_over(pages, view))
    assert blots == ()
    assert [one for one in findings if one.stops] == []
    assert {one.rule for one in findings} == {"blank", "draft"}
