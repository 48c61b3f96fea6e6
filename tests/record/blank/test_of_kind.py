"""A form of any kind: filled in it posts, and nothing is new but what was filled in."""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from record.blank import Form, of_kind, write
from record.facts import Kind, Sort
from record.facts.values import Absent, Why
from record.fold import AsBuilt, fold
from record.log import Log
from record.sheets import SheetRejected, read_sheet
from tests.record.blank.filling import Choose, Filled, fill, first, kinds_with_forms
from tests.record.building import day
from tests.record.checks.ground import SEAM, SITE, TRENCH
from tests.record.records import post_text

KINDS = tuple(kinds_with_forms())
#: A swap takes two tags of one kind and no absence: not any value will do for any gap.
FREE = tuple(kind for kind in KINDS if kind.word != "tags swapped")
BEFORE = re.sub(r"!\[.*\n", "", TRENCH + SEAM.replace("## covering FILL", "## covering FILL-2"))
STORE = "## store S-1\n\n- name: larder"  # for what is said of a store alone
NEEDS = (
    "## work pass WP-1\n\n- for: painter\n- hull: not recorded\n- face: left\n- open: none\n"
    "- reserved: none\n- depth: 20 mm\n- until: 2031-06-01\n- stop rule: stop\n- ring: 555-0142",
    "## expected EX-1\n\n- what: pipe\n- amount: 24 m",
    "## temporary TP-1\n\n- what: plug\n- on thing: AIR-IN\n- off before: cover",
)


@pytest.fixture(scope="module")
def held(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A record with a trench, a seam and their coverings, and no pictures."""
    folder = tmp_path_factory.mktemp("held") / "record"
    with Log.make(folder) as log:
        post_text(log, day("2031-05-13", "ld", SITE))
        post_text(log, day("2031-05-14", "ld", BEFORE, STORE, *NEEDS))
    return folder


@pytest.fixture
def again(held: Path, tmp_path: Path) -> Iterator[Log]:
    with _copy(held, tmp_path) as log:
        yield log


def _copy(held: Path, into: Path) -> Log:
    folder = into / f"copy-{len(list(into.iterdir()))}"
    folder.mkdir()
    (folder / "record.sqlite").write_bytes((held / "record.sqlite").read_bytes())
    return Log.open(folder)


def printed(built: AsBuilt, kind: Kind, tag: str = "") -> str:
    block = of_kind(built, kind, tag)
    head = {"day": "2031-05-15", "writer": "", "part": "form", "zone": "America/Denver"}
    return write(Form(**head, site=built.site, notes=(), blocks=(block,)))


def tags(built: AsBuilt, kind: Kind) -> list[str]:
    """Return the tags a form of a kind may be asked for, a new thing's first."""
    if kind.word == "site":
        return [built.site]
    things = [t for t in built.things.values() if not kind.about or t.kind.word in kind.about]
    if kind.sort is Sort.THING:
        return ["", *(thing.tag for thing in things if thing.kind is kind)]
    return [thing.tag for thing in things] or [built.site]


def known(built: AsBuilt) -> set[tuple[str, str]]:
    """Return what is known of each thing and part: (tag, field)."""
    things = [x for thing in built.things.values() for x in (thing, *thing.parts)]
    return {
        (thing.tag, name)
        for thing in things
        for name in thing.fields
        if not (isinstance(v := thing.value(name), Absent) and v.why is Why.NOT_RECORDED)
    }


def post_filled(log: Log, kind: Kind, tag: str, folder: Path, choose: Choose = first) -> None:
    built = fold(log.entries())
    done: Filled = fill(printed(built, kind, tag), built, folder, choose)
    posted = post_text(log, done.text, folder=folder)
    told = {
        (entry.content.about, name)
        for entry in posted.recorded[:-1]
        if entry.content
        for name in entry.content.body
    }
    assert told <= done.gaps | done.said
    asked = {name for name in done.gaps if name[1] not in {"at", "by", "mends", "because"}}
    assert asked <= told, "what was filled in was not recorded"
    if kind.sort is Sort.THING:
        assert told.isdisjoint(known(built)), "what was known was stated again"


@pytest.mark.parametrize("kind", FREE, ids=lambda kind: kind.word)
def test_a_form_filled_in_is_recorded_and_nothing_else_is_new(
    again: Log, kind: Kind, tmp_path: Path
):
    for tag in tags(fold(again.entries()), kind)[:2]:
        post_filled(again, kind, tag, tmp_path)


@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.sampled_from(FREE), st.data())
def test_whatever_a_gap_takes_is_taken(held: Path, tmp_path: Path, kind: Kind, data):
    """Absences too: "not recorded", "none" and "n/a" with its reason are answers."""
    with _copy(held, tmp_path) as log:
        built = fold(log.entries())
        tag = data.draw(st.sampled_from(tags(built, kind)))

        def choose(values: list[str]) -> str:
            return data.draw(st.sampled_from(values))

        post_filled(log, kind, tag, tmp_path, choose)


@pytest.mark.parametrize("tag", ["M-1", "S-1"])
def test_a_withdrawal_under_the_tag_of_what_fewer_may_see_is_refused_in_words(again: Log, tag: str):
    """A copy that shows the entry and not that it was withdrawn would go on saying it."""
    seen_by_all = next(e for e in again.entries() if e.content and e.content.about == "TP-1")
    form = f"## withdrawn {tag}\n\n- mends: {seen_by_all.number}\n- because: it was another"
    with pytest.raises(SheetRejected) as caught:
        post_text(again, day("2031-05-15", "ld", form))
    assert "could not see what mends it" in caught.value.faults[0].problem


SCRAWL = st.text(st.sampled_from("_-|#<!>[]()\"'`~*: ,.0123456789abmn½±°\n"), max_size=16)


@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.sampled_from(KINDS), st.lists(SCRAWL, min_size=1, max_size=5), st.data())
def test_whatever_is_scrawled_into_a_form_is_posted_or_refused_in_words(
    held: Path, tmp_path: Path, kind: Kind, scrawls: list[str], data
):
    with _copy(held, tmp_path) as log:
        built = fold(log.entries())
        tag = data.draw(st.sampled_from(tags(built, kind)))
        turns = itertools.cycle(scrawls)
        form = re.sub("_{4,}", lambda _: next(turns), printed(built, kind, tag))
        before = list(log.lines())
        try:
            post_text(log, form, folder=tmp_path)
        except SheetRejected as refused:
            assert refused.faults and list(log.lines()) == before


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.word)
def test_a_form_that_was_not_filled_is_refused_on_just_its_gaps(again: Log, kind: Kind):
    built = fold(again.entries())
    for tag in tags(built, kind)[:2]:
        form = printed(built, kind, tag)
        bare = re.sub(r"<!--.*?-->", "", form, flags=re.DOTALL)
        with pytest.raises(SheetRejected) as caught:
            read_sheet("form.md", form.encode())
        assert {fault.problem for fault in caught.value.faults} == {"this gap was not filled"}
        assert len(caught.value.faults) == len(re.findall("_{4,}", bare))


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.word)
def test_a_form_asks_every_field_or_says_what_is_known_of_it(again: Log, kind: Kind):
    built = fold(again.entries())
    for tag in tags(built, kind)[:2]:
        form = printed(built, kind, tag)
        placed = {"hull", "from near", "from left", "x", "y"}
        for field in kind.fields:
            assert re.search(rf"^(- |<!-- ){field.key}: ", form, re.M) or field.key in placed


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.word)
def test_a_form_prints_on_an_upright_page(again: Log, kind: Kind):
    built = fold(again.entries())
    for tag in tags(built, kind)[:2]:
        assert max(map(len, printed(built, kind, tag).splitlines())) <= 100


def test_a_form_marks_just_what_a_new_thing_is_refused_without(again: Log):
    """Taking out a marked line is refused by its name; taking out all others is not."""
    hull = next(k for k in KINDS if k.word == "hull")
    form = printed(fold(again.entries()), hull, "NEW").replace(
        "# 2031-05-15 ____", "# 2031-05-15 ld"
    )
    fields = [line for line in form.splitlines() if line.startswith("- ")]
    marked = [line for line in fields if "<!-- needed" in line]
    left = [line for line in fields[:2] + marked if line.startswith("- inside") is False]
    bare = "\n".join(["# 2031-05-15 ld", "", *left[:2], "", "## hull NEW", "", *left[2:]])
    with pytest.raises(SheetRejected) as caught:
        post_text(again, re.sub("_{4,}", "not recorded", bare))
    lacks = {fault.problem.split('"')[1] for fault in caught.value.faults}
    assert lacks == {"inside length", "inside width", "inside height"}


def test_what_is_known_is_shown_as_the_crew_wrote_it_with_its_entry(again: Log):
    form = printed(fold(again.entries()), next(k for k in KINDS if k.word == "run"), "AIR-IN")
    assert "<!-- size: 150 mm (ld-" in form and "\n- size:" not in form
    assert "2 bend: x 5.00 m" in " ".join(form.split())
    assert "- joint: ____" in form
