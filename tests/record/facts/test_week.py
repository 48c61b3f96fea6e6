"""A day that uses every new kind of fact: it posts, reads back, and keeps its secrets."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from record.answers import behind
from record.answers.entry_list import Wanted, entry_list, entry_words
from record.answers.history import history, history_form, history_words
from record.answers.show import show, show_words
from record.entry import Entry
from record.log import Log
from record.readers import look
from tests.record.facts.week import CONCEALED, FORMS, THINGS, whole_day
from tests.record.records import post_text, sheet

NEW = {
    *("penetration", "door", "concealed entry", "fitting", "insulation", "marker", "cable", "lot"),
    *("weld inspected", "coating inspected", "compaction tested", "pressure tested"),
    *("flow tested", "holiday tested", "repaired"),
}


@pytest.fixture(scope="module")
def entries(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Entry, ...]]:
    log = Log.make(tmp_path_factory.mktemp("week") / "record")
    post_text(log, whole_day())
    yield tuple(log.entries())
    log.close()


def number_of(entries: tuple[Entry, ...], kind: str, at: str | None = None) -> str:
    (found,) = [e.number for e in entries
                if e.content and e.content.kind == kind and at in (None, e.content.at)]  # fmt: skip
    return found


def test_a_whole_day_of_every_new_kind_posts_clean(entries: tuple[Entry, ...]):
    posted = {e.content.kind.replace("-", " ") for e in entries if e.content}
    assert posted >= NEW
    assert look(entries).built.unread == ()


def test_failed_repaired_and_passed_again_are_told_in_one_line(entries: tuple[Entry, ...]):
    failed = number_of(entries, "weld-inspected", "07:10")
    repaired, passed = number_of(entries, "repaired"), number_of(entries, "weld-inspected", "08:30")
    view = look(entries)
    words = (
        f"sleeve to plate, all round: failed ({failed}) → repaired ({repaired}) → "
        f"passed again ({passed})"
    )
    assert words in history_words(history(view, "SM-1"))
    assert f"  {words}" in show_words(show(view, "SM-1"))
    (chain,) = history_form(history(view, "SM-1"))["chains"]
    assert (chain["failed"], chain["then"], chain["settled"]) == (failed, [repaired, passed], True)


def test_who_did_it_who_saw_it_and_who_wrote_it_are_three_people(entries: tuple[Entry, ...]):
    view = look(entries)
    (told,) = [line for line in history_words(history(view, "PN-1")) if "  penetration" in line]
    assert "written by ld" in told and "did ph, saw ck" in told
    assert any("did ph, saw ck" in line for line in show_words(show(view, "PN-1")))


def test_a_concealed_entry_reaches_nobody_but_the_owner(entries: tuple[Entry, ...]):
    assert "CE-1" in look(entries).built.things
    for reader in ("technician", "trade", "responder"):
        view = look(entries, reader)
        assert "CE-1" not in view.built.things
        said = [e.content_line for e in view.built.entries if e.content_line]
        assert not any(b"CE-1" in line or b"push bar" in line for line in said)


def test_behind_the_panel_the_penetration_the_cable_and_all_that_lies_with_it_are_found(
    entries: tuple[Entry, ...],
):
    """P-1 spans a 2.00 to 3.20 m and level 50.50 to 51.50 m. The hole's middle is 0.60 m across
    and 0.50 m up; half of its 125 mm sleeve makes it 0.5375 to 0.6625 m across."""
    answer = behind(look(entries), "P-1")
    items = {item.tag: item for item in answer.items}
    assert {"PN-1", "C-1", "CB-1", "IN-1", "IN-2", "MK-1", "SM-1"} <= set(items)
    hole = items["PN-1"]
    assert (hole.across.from_m, hole.across.to_m) == pytest.approx((0.5375, 0.6625))
    assert (hole.upward.from_m, hole.upward.to_m) == pytest.approx((0.4375, 0.5625))
    assert "FT-1" not in items, "the bend at a 4.00 m is 0.80 m past the panel"


def test_the_breaker_of_a_cable_is_told_before_the_panel_is_opened(entries: tuple[Entry, ...]):
    answer = behind(look(entries), "P-1")
    (breaker,) = [one for one in answer.isolations if one.tag == "CB-1"]
    assert breaker.kind == "breaker 7, 16 A" and breaker.where == "board of the plant room"
    assert any("CB-1" in h.about and "electricity" in h.words for h in answer.hazards)
    assert any("PN-1" in h.about and "gland and sealer" in h.words for h in answer.hazards)


def test_every_block_of_the_day_is_on_the_sheet():
    text = whole_day()
    assert all(block.strip() in text for block in (*THINGS, *FORMS, CONCEALED))


def posted_later(log: Log, blocks: str, day: str) -> tuple[Entry, ...]:
    post_text(log, sheet(blocks, day=day))
    return tuple(log.entries())


@pytest.fixture
def begun(log: Log) -> Log:
    post_text(log, whole_day())
    return log


def test_what_lies_with_a_conduit_is_covered_with_it(begun: Log):
    """The covering names the conduit alone, and hides what is in it and over it all the same."""
    posted_later(begun, "## covering WALL\n\n- what: board\n- hides: C-1\n", "2031-05-15")
    found = posted_later(begun, "## covered WALL\n\n- extent: all of it\n", "2031-05-16")
    covers = {item.tag: item.cover for item in behind(look(found), "P-1").items}
    assert {covers[tag] for tag in ("C-1", "CB-1", "MK-1", "IN-1")} == {"before cover"}
    assert covers["PN-1"] == "not covered"


def test_a_repair_is_told_in_the_past_of_the_panel_it_was_made_behind(entries: tuple[Entry, ...]):
    past = {one.kind: one.words for one in behind(look(entries), "P-1").past}
    assert "ground out and welded again" in past["repaired"]
    assert {"weld inspected", "coating inspected", "pressure tested"} <= set(past)


def test_two_happenings_of_one_thing_and_day_without_an_hour_have_no_known_order(begun: Log):
    """One alone leaves nothing to ask, and one with an hour has its place in the day."""
    said = "## remark CB-1\n\n{}- text: {}\n"
    one = look(posted_later(begun, said.format("", "pulled"), "2031-05-15"))
    assert not any("order not known" in line for line in history_words(history(one, "CB-1")))
    more = said.format("", "tied") + "\n" + said.format("- at: 09:00\n", "marked")
    two = look(posted_later(begun, more, "2031-05-16"))
    told = [line for line in history_words(history(two, "CB-1")) if "2031-05-16" in line]
    assert ["order not known" in line for line in told] == [True, False]
    lines = entry_words(entry_list(two, Wanted(tag="CB-1", day="2031-05-16")))
    assert ["order not known" in line for line in lines] == [True, False]


def test_the_list_of_entries_tells_who_did_and_who_saw(entries: tuple[Entry, ...]):
    (line,) = entry_words(entry_list(look(entries), Wanted(tag="PN-1")))
    assert "did ph, saw ck" in line


def test_whoever_must_decide_is_named_where_they_were_recorded(begun: Log):
    site = "## site fern-bank\n\n- engineer of record: {}\n- electrician: E. L.\n"
    found = posted_later(begun, site.format("S. T., 555-0143"), "2031-05-15")
    call = behind(look(found), "P-1").call
    assert call[-2:] == ("engineer of record: S. T., 555-0143", "electrician: E. L.")
