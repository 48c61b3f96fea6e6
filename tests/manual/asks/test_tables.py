"""No kind of thing is left out of a copy, and none is told to whoever may not see it."""

import re

import pytest

from manual.asks.tables import ALONG_A_RUN, IN_CHAPTERS, rest_told
from manual.build import bind, draw, write
from manual.chapter import chapters
from record.facts import KINDS, Sort
from record.log import Log
from tests.manual.books import Page, body_of, entries
from tests.record.facts.week import whole_day
from tests.record.records import post_text

THING_KINDS = {k.word for k in KINDS.values() if k.sort is Sort.THING and not k.key}


@pytest.fixture(scope="module")
def week(tmp_path_factory):
    with Log.make(tmp_path_factory.mktemp("week") / "record") as log:
        post_text(log, whole_day())
        return tuple(log.entries())


def named(tags, words):
    return {tag for tag in tags if re.search(rf"(?<![\w-]){re.escape(tag)}(?![\w-])", words)}


def page(found, reader="owner"):
    return Page(body_of(found, reader))


def words_of(found, reader="owner"):
    return re.sub(r"\s+", " ", page(found, reader).text)


def test_a_kind_that_a_chapter_tells_of_is_really_asked_for_by_one():
    asked = " ".join(each.text for each in chapters())
    itself = {"site": "site.", "run": "in runs", "panel": "in face.panels"}
    itself["procedure"] = "emergency"
    for word in IN_CHAPTERS:
        assert itself.get(word, f'record.of("{word}")') in asked, word
    assert set(IN_CHAPTERS) <= THING_KINDS and set(ALONG_A_RUN) <= THING_KINDS


@pytest.mark.parametrize("reader", ["owner", "technician", "trade", "responder"])
def test_every_tag_a_reader_may_see_is_in_their_manual_and_no_other(week, reader):
    book = bind(week, reader)
    words = Page(draw(book, write(book))).text
    seen = {tag for tag in book.view.built.things if tag != "fern-bank"}
    every = {tag for tag in bind(week, "owner").view.built.things if tag != "fern-bank"}
    assert named(seen, words) == seen
    assert named(every - seen, words) == set()
    assert ("CE-1" in seen) == (reader == "owner")


def test_the_rest_of_the_record_is_told_kind_by_kind_with_every_field(week):
    told = {kind.kind: kind.rows for kind in rest_told(bind(week, "owner").view)}
    assert {"penetration", "door", "lot", "seam", "batch", "cable", "marker"} <= set(told)
    (hole,) = told["penetration"]
    assert "seal lot: SE-9" in hole.words and "sealed inside: gland and sealer" in hole.words
    assert "size: 0.110 m" in hole.words
    assert not set(told) & set(IN_CHAPTERS)


def test_a_run_is_told_with_its_fittings_insulation_wires_and_cables(week):
    words = words_of(week)
    start = words.index("C-1: power")
    section = words[start : words.index("Valve", start + 10)]
    for tag in ("FT-1", "IN-1", "IN-2", "MK-1", "CB-1"):
        assert tag in section
    assert "loss coefficient: 0.35" in section


def test_tests_on_every_form_stand_in_one_table_and_failures_with_what_became_of_them(week):
    words = words_of(week)
    for said in ("tightness of the conduit", "supply air at the terminal", "pinholes of the coat"):
        assert said in words
    assert re.search(
        r"sleeve to plate, all round: failed \(ld-\d+\) → repaired \(ld-\d+\) → passed again", words
    )


def test_the_build_record_tells_who_did_saw_and_answers_and_where_a_day_has_no_order():
    said = "## remark AU-1\n\n- did: ph\n- saw: ck\n- by: gc\n- text: {}"
    built = entries(said.format("belt drawn tight"), said.format("belt slipped"))
    words = words_of(built)
    assert "did: ph, saw: ck, said: gc" in words
    assert words.count(", no time, no order") == 2
    alone = words_of(entries(said.format("belt drawn tight")))
    assert ", no time" in alone and "no order" not in alone


def test_a_thing_that_names_its_lot_is_kept_from_nobody_by_that(week):
    """A penetration must be known to whoever comes with an axe, and its lot is no secret."""
    assert "mill sheet 4471" in words_of(week, "responder")
    assert "gland and sealer" in words_of(week, "responder")


def test_a_machine_tells_what_was_found_on_whatever_form_it_was_written():
    flow = (
        "## flow tested AU-1\n\n- test: supply air\n- point: terminal\n- flow: 61 m³/h\n"
        "- pressure difference: 40 Pa\n- setting: crank\n- air: 14 °C\n- criterion: 90 m³/h\n"
        "- criterion from: engineer\n- result: failed\n- instrument: V-1\n"
        "- calibrated: 2031-02-01\n- retest of: none"
    )
    read = "## reading taken AU-1\n\n- what: drop over the filter\n- reading: 85 Pa"
    words = words_of(entries(flow, read))
    assert "2031-05-16: failed; 61 m³/h" in words
    assert "2031-05-16: 85 Pa" in words


def test_a_machine_test_undone_since_is_told_as_void_where_it_stands():
    blocks = (
        "## tested AU-1\n\n- at: 09:00\n- test: fan flow\n- result: passed\n"
        "- reading: 95 m³/h\n- limit: 90 m³/h\n- instrument: V-1",
        "## opened up AU-1\n\n- at: 15:00\n- what: cut\n- why: a new duct collar",
    )
    words = words_of(entries(*blocks))
    void = "VOID since 2031-05-16 15:00, not passed since"
    assert f"2031-05-16 09:00: 95 m³/h; {void}" in words  # beside the machine
    assert f"passed; {void}" in words  # in the table of tests
    assert "VOID" not in words_of(entries(blocks[0]))
