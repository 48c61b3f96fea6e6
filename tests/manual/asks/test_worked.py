"""The chapter of worked figures: what it prints of each, and what is still to be written."""

from __future__ import annotations

import re

import pytest

from manual.asks.worked import worked_told
from manual.build import bind, write
from record.figures import figures
from tests.manual.books import MARK_UP, Page, body_of, entries
from tests.record.building import entries_of
from tests.record.figures.ground import BUILT, OWNERS, PLAN, shelter
from tests.record.figures.test_never_said import EVERYWHERE, plain


def chapter(found, reader="owner"):
    """Return the words of the chapter, every run of blanks one."""
    html = write(bind(found, reader)).partition(">Worked figures</h1>")[2]
    html = html.partition(">Where every figure comes from</h1>")[0]
    return " ".join(Page(html.replace("</td>", "</td> ").replace("</th>", "</th> ")).text.split())


@pytest.fixture(scope="module")
def told():
    return chapter(entries_of(PLAN, OWNERS, BUILT))


def test_a_figure_is_printed_with_formula_inputs_entries_and_result_in_both_systems(told):
    """6500 kg / (24.44 m² × 1000) = 0.266 m over 46.194: 46.460 m, which is 152' 5 1/8"."""
    part = told.partition("Water level in the open pit")[2].partition("DANGER")[0]
    assert "Formula: h = mass/(ρw × plan area)" in part
    assert "Source: Archimedes; 1,000 kg/m³." in part
    assert re.search(r"mass 6500 kg \(14330 lb\) of-\d+", part)
    assert "begins to float at 46.460 m (152' 5 1/8\")" in part
    assert "To confirm: The engineer of record must confirm this" in part


def test_what_could_hurt_stands_between_source_and_who_confirms(told):
    part = told.partition("Each person's share of the air")[2]
    places = [part.index(w) for w in ("Source:", "usual, not recorded", "1918 ppm", "To confirm:")]
    assert places == sorted(places)
    assert "An alarm rules" in part[: places[-1]]


def test_every_figure_of_the_record_is_in_the_chapter(told):
    found = figures(shelter())
    for worked in found:
        assert worked.sum.title in told
        assert worked.heading in told
        for fed in worked.given:
            assert all(entry in told for entry in fed.entries)


def test_a_figure_that_lacks_an_input_says_what_to_write_and_prints_no_number():
    told = chapter(entries())
    wanted = told.partition("Not worked: write these, and the figures follow")[2]
    assert 'mass of hull A: not recorded "- mass: …" under "## hull A"' in wanted
    assert "float-level of A" in wanted
    assert "begins to float at" not in told


def test_running_sand_is_told_under_danger(told):
    assert "DANGER Running sand buries." in told


def test_nothing_of_the_shaft_is_in_a_technicians_chapter(told):
    theirs = chapter(entries_of(PLAN, OWNERS, BUILT), "technician")
    assert "SH-1" in told and "SH-1" not in theirs
    assert "drums" not in theirs and "withheld from this copy" in theirs


def test_words_of_the_record_are_no_mark_up():
    block = f"## hull A\n\n- design cover: 1.00 m\n- design cover by: {MARK_UP}"
    cover = "## cover measured A\n\n| point | cover | how |\n|---|---|---|\n| C1 | 1.1 m | rod |"
    page = Page(body_of(entries(block, cover)))
    assert f"design cover by {MARK_UP}" in " ".join(page.text.split())
    assert "script" not in [tag for tag, _ in page.tags]


def test_the_values_are_those_of_the_figures():
    view = shelter()
    sums = {one.name: one for one in worked_told(view).sums}
    assert set(sums) == {one.name for one in figures(view)}
    [row] = [r for r in sums["float-level"].figures[0].given if r.key == "mass"]
    assert row.value == "6500 kg (14330 lb)" and row.entries.startswith("of-")


def test_the_chapter_says_nowhere_that_something_is_safe_or_rated(told):
    said = plain(iter([told]))
    assert "none of it is a rating" in told.casefold() and not re.search(EVERYWHERE, said)
