"""Editions: numbered, each knows what it supersedes and names exactly what is new since."""

from __future__ import annotations

import re

import pytest

from manual.bound.editions import editions, last_for, next_number, since
from manual.issue import NothingNew, NotIssued
from record.log import verify
from record.log.kept import missing_files
from tests.manual.books import Page
from tests.manual.issuing import issued, without_press
from tests.record.records import post_text, sheet

TURNED = "## valve CV-1\n\n- normal position: open"


@pytest.fixture(autouse=True)
def _no_press(monkeypatch):
    without_press(monkeypatch)


def changes(html):
    """Return the numbers in the list of what changed since the last edition."""
    chapter = html.decode().partition("What changed since the last edition</h1>")[2]
    chapter = chapter.partition("</section>")[0]
    return re.findall(r"<tr>\n<td>([a-z]+-\d+)</td>", chapter)


def cover(html):
    page = Page(html.decode())
    return page.text.partition("This manual says")[0]


def test_the_first_edition_supersedes_none_and_says_that_all_is_new(log):
    first = issued(log)
    assert first.number == 1
    assert "none: this is the first" in cover(first.built.html)
    assert changes(first.built.html) == []
    assert "This is the first edition. Everything in it is new." in first.built.html.decode()


def test_an_edition_issued_is_an_entry_that_names_its_files_and_what_it_rests_on(log):
    before = log.entries()
    first = issued(log)
    assert [e for e in log.entries() if e not in before] == [first.entry]
    content = first.entry.content
    assert (first.entry.number, content.kind, content.about) == (
        "of-1",
        "edition-issued",
        "fern-bank",
    )
    body = content.body
    assert (body["edition"], body["supersedes"], body["reader"]) == (1, "none", "owner")
    assert body["checkpoint"] == first.built.book.point.hash
    for name, suffix, data in (
        ("pdf", ".pdf", first.built.pdf),
        ("html", ".html", first.built.html),
        ("calendar", ".ics", first.built.calendar),
    ):
        assert log.files.kept("editions", body[name], suffix).read_bytes() == data
    assert verify(log.lines()).sound
    assert missing_files(log.files, log.entries()) == ()


def test_the_second_supersedes_the_first_and_lists_exactly_the_entries_since(log):
    issued(log)
    posted = post_text(log, sheet(TURNED, day="2031-05-20", writer="ck")).recorded
    told = [e.number for e in posted if e.content.kind != "sheet-posted"]
    second = issued(log)
    assert second.number == 2
    assert second.entry.content.body["supersedes"] == "1"
    assert "edition 1, recorded to 2031-05-15" in cover(second.built.html)
    assert told == ["ck-1"]
    assert changes(second.built.html) == told


def test_a_change_bar_stands_beside_what_changed_and_beside_nothing_else(log):
    first = issued(log)
    assert 'class="changed"' not in first.built.html.decode()
    post_text(log, sheet(TURNED, day="2031-05-20", writer="ck"))
    html = issued(log).built.html.decode()
    barred = re.findall(r'<div class="changed">\s*<h[23]>(.*?)</h[23]>', html)
    assert barred == ["CV-1"]
    assert (
        html.count('class="changed"') == 5
    )  # its row among valves and of its system, its system twice


def test_where_two_tags_were_swapped_both_have_the_bar(log):
    other = "## valve CV-2\n\n- type: check\n- on run: AIR-IN"
    post_text(log, sheet(other, day="2031-05-18", writer="ck"))
    issued(log)
    swap = (
        "## tags swapped CV-1\n\n- with: CV-2\n- from: 2031-05-19\n- found by: pour test\n"
        "- why: plates hung the wrong way round"
    )
    post_text(log, sheet(swap, day="2031-05-20", writer="ck"))
    html = issued(log).built.html.decode()
    barred = re.findall(r'<div class="changed">\s*<h[23]>(.*?)</h[23]>', html)
    assert sorted(barred) == ["CV-1", "CV-2"]


def test_an_entry_written_before_the_edition_but_unseen_by_it_is_new_to_the_next(log):
    # The tablet's clock runs a month slow: what counts is what the edition had seen.
    from tests.record.records import NOW

    issued(log)
    late = NOW.replace(month=5, day=22)
    post_text(log, sheet(TURNED, day="2031-05-20", writer="ck"), now=late)
    assert changes(issued(log).built.html) == ["ck-1"]


def test_nothing_new_issues_nothing_and_says_which_edition_stands(log):
    issued(log)
    before = log.entries()
    with pytest.raises(NothingNew, match="nothing was recorded since edition 1, which stands"):
        issued(log)
    assert log.entries() == before


def test_one_asked_for_again_is_the_next_edition_with_no_changes(log):
    issued(log)
    again = issued(log, again=True)
    assert (again.number, again.entry.content.body["supersedes"]) == (2, "1")
    assert changes(again.built.html) == []


def test_each_reader_has_editions_of_his_own_under_one_count(log):
    issued(log)
    theirs = issued(log, reader="technician")
    assert theirs.number == 2
    assert theirs.entry.content.body["supersedes"] == "none"
    found = editions(log.entries())
    assert [(e.number, e.reader) for e in found] == [(1, "owner"), (2, "technician")]
    assert last_for(found, "owner").number == 1
    assert last_for(found, "trade") is None
    assert next_number(found) == 3
    assert since(log.entries(), found[0]) == ()


def test_a_technicians_list_of_changes_leaves_out_what_he_may_not_see(log):
    issued(log, reader="technician")
    more = "## store S-1\n\n- lid: pull the red cord\n\n"
    post_text(log, sheet(more, day="2031-05-20", writer="ow"))
    post_text(log, sheet(TURNED, day="2031-05-20", writer="ck"))
    second = issued(log, reader="technician")
    assert changes(second.built.html) == ["ck-1"]
    assert b"red cord" not in second.built.html


def test_what_came_in_while_it_was_built_stops_the_edition_rather_than_being_passed_over(log):
    def meanwhile(number, words):
        if number == 5:
            post_text(log, sheet(TURNED, day="2031-05-20", writer="ck"))

    with pytest.raises(NotIssued, match=r"recorded meanwhile: ck-1, ck-2"):
        issued(log, progress=meanwhile)
    assert editions(log.entries()) == ()
    assert "CV-1" in Page(issued(log).built.html.decode()).text


@pytest.mark.parametrize("writer", ["", "Of", "the office", "ld-1"])
def test_a_writer_who_is_none_is_refused_before_anything_is_built(log, writer):
    with pytest.raises(NotIssued, match="is not a writer"):
        issued(log, writer=writer)


def test_a_changed_or_deleted_file_of_an_edition_is_told_by_its_entry(log):
    first = issued(log)
    body = first.entry.content.body
    pdf = log.files.kept("editions", body["pdf"], ".pdf")
    pdf.write_bytes(pdf.read_bytes() + b" ")
    log.files.kept("editions", body["calendar"], ".ics").unlink()
    assert missing_files(log.files, log.entries()) == (
        ("of-1", f"its file editions/{body['pdf'][:12]}… was changed"),
        ("of-1", f"its file editions/{body['calendar'][:12]}… is missing"),
    )


def test_systems_lots_and_zones_that_changed_have_a_bar_and_others_none(log):
    """A row of a table carries it at its head; a system's facts are barred as a block."""
    zone = "## reserved zone R-1\n\n- hull: A\n- face: left\n- hazard: cable"
    zone += "\n- width: 1.00 m\n- height: 1.00 m"
    lots = "\n\n".join(f"## lot LT-{n}\n\n- number: 1{n}\n- product: tar" for n in (1, 2))
    post_text(log, sheet(f"{zone}\n\n{lots}", day="2031-05-18", writer="ck"))
    first = issued(log).built.html.decode()
    assert 'class="changed"' not in first and "<!--changed-->" not in first
    news = "## reserved zone R-1\n\n- hazard: cable, live\n\n## lot LT-2\n\n- maker: somebody"
    post_text(log, sheet(f"{news}\n\n{TURNED}", day="2031-05-20", writer="ck"))
    html = issued(log).built.html.decode()
    rows = re.findall(r'<tr class="changed">\s*<td>(.*?)</tr>', html, re.DOTALL)
    assert "<!--changed-->" not in html
    for said, count in (("cable, live", 1), ("LT-2", 1), ("LT-1", 0)):
        assert sum(said in row for row in rows) == count, said
    (air,) = re.findall(r">Air</h2>(.*?)</section>", html, re.DOTALL)
    assert air.count('<div class="changed">') == 2
