"""The form before a covering: every rule has its help, and what is filled in clears it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from record.blank import HELP, Form, of_covering, write
from record.checks import RULES, ready
from record.log import Log
from record.readers import View, look
from record.sheets import SheetRejected, read_sheet
from tests.record.blank.filling import fill
from tests.record.building import day
from tests.record.checks.ground import COVERED, GOES_ON, SEAM, SITE, TRENCH, changed
from tests.record.checks.test_cover_as_designed import POINTS
from tests.record.checks.test_in_the_way import pipe
from tests.record.checks.test_lies_in_its_hull import FAN
from tests.record.checks.test_outlet_clear_of_frost import WEEP
from tests.record.checks.test_packing_clears_the_weld import BOARD, LINED
from tests.record.checks.test_sealed_inside_and_out import BOTH
from tests.record.checks.test_shape_kept import SHAPE
from tests.record.checks.test_sides_filled_alike import LIFTS
from tests.record.checks.test_trunk_large_enough import trunk, two
from tests.record.checks.test_two_in_one_place import BOX
from tests.record.checks.test_two_ties_and_a_check import BURIED, MARKS, SECOND, THIRD, TIES
from tests.record.checks.test_water_in_the_pit import dipped
from tests.record.records import post_text


def bare(blocks: str) -> str:
    """Return the blocks without their pictures, which would have to be there to be posted."""
    return re.sub(r"!\[.*\n", "", blocks)


TRENCH_BARE = bare(TRENCH)
SEAM_BARE = bare(SEAM)


def form_of(view: View, tag: str = "FILL", part: str = "fill") -> str:
    head = {"day": "2031-05-15", "writer": "ck", "part": part, "zone": "America/Denver"}
    return write(Form(**head, site=view.built.site, notes=(), blocks=of_covering(view, tag)))


def flat(form: str) -> str:
    return " ".join(form.split())


@pytest.fixture
def place(tmp_path: Path) -> Path:
    return tmp_path / "record"


def begun(place: Path, blocks: str, *later: str) -> Log:
    log = Log.make(place)
    post_text(log, day("2031-05-13", "ld", SITE))
    for n, text in enumerate((blocks, *later)):
        post_text(log, day("2031-05-14", "ld", text, part=f"p{n}"))
    return log


def seen(log: Log) -> View:
    return look(log.entries())


def test_every_rule_has_its_help():
    """A new rule says here what is to be written that clears it, or that nothing is."""
    assert set(HELP) == {rule.word for rule in RULES}


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.word)
def test_help_of_every_rule_stands_beside_a_finding_against_it(rule):
    assert callable(HELP[rule.word])


def test_a_station_without_level_is_a_row_with_one_gap(place: Path):
    bare = changed(TRENCH_BARE, ("| 98.300 ± 3 mm |", "| not recorded |"))
    with begun(place, bare) as log:
        form = form_of(seen(log))
    assert re.search(r"\| station +\| level +\|\n\|[-|]+\|\n\| 2 bend +\| _+ +\|\n", form)
    assert "STOPS AIR-IN: 2 bend: its level is not recorded" in flat(form)


def test_photos_inspection_and_coats_that_lack_stand_ready(place: Path):
    bare = SEAM_BARE.replace("- result: passed", "- result: not recorded")
    bare = bare.replace("| wrap | 1 | 15:00 | 15:30 | W-1 | none | 14.0 °C | 8.6 °C | none |\n", "")
    with begun(place, bare) as log:
        form = form_of(seen(log))
    assert "![wide, looking ____, SM: ____, rule in view, shows SM](____)" in form
    assert "![close, looking ____, SM, west side, rule in view, shows SM](____)" in form
    assert "## inspected SM" in form and "- what: weld all round" in form
    assert re.search(r"## coat applied SM\n.*\| wrap +\| 1 +\| _", form, re.DOTALL)
    assert form.rstrip().split("## ")[-1].startswith("hold released FILL")


CASES = {
    "nothing but photos": TRENCH_BARE,
    "no level": changed(TRENCH_BARE, ("| 98.300 ± 3 mm |", "| not recorded |")),
    "no place": changed(TRENCH_BARE, ("| 2 bend | 5.00 |", "| 2 bend | not recorded |")),
    "no station": re.sub(r"\| (station|-|\d) .*\n|\|---.*\n", "", TRENCH_BARE),
    "backfall": changed(TRENCH_BARE, ("98.300", "98.500")),
    "a book that came back to nothing": TRENCH_BARE
    + "\n## levelled fern-bank\n\n| point | backsight [m] | intermediate [m] | foresight [m] |\n"
    "|---|---|---|---|\n| peg | 1.200 | none | none |\n| AIR-IN 2 crown | none | 2.744 | none |\n"
    "| peg | none | none | 1.201 |\n",
    "one tie": TRENCH_BARE + "\n## landmark P\n\n- what: post\n- x: 0.00 m\n- y: 12.00 m\n\n"
    "## position tied AIR-IN\n\n- landmark: P\n- point: 2\n- distance: 13.000 m\n",
    "no end to fall to": changed(TRENCH_BARE, ("falls to: 3", "falls to: not recorded")),
    "flat": changed(TRENCH_BARE, ("98.300", "98.390")),
    "no least fall": changed(
        TRENCH_BARE,
        ("least fall: 1 %", "least fall: not recorded"),
        ("least fall from: engineer", "least fall from: not recorded"),
    ),
    "no drain": re.sub(r"## drain.*?(?=## valve)", "", TRENCH_BARE, flags=re.DOTALL),
    "a drain to nowhere": changed(
        TRENCH_BARE, ("discharges: gully in the plant room", "discharges: not recorded")
    ),
    "no valve": re.sub(r"## valve.*?(?=## covering)", "", TRENCH_BARE, flags=re.DOTALL),
    "a valve elsewhere": changed(
        TRENCH_BARE, ("on run: AIR-IN\n- at station: 3", "on run: AIR-IN\n- at station: 1")
    ),
    "a valve of no type": changed(TRENCH_BARE, ("type: check", "type: not recorded")),
    "a valve in two places": changed(
        TRENCH_BARE,
        (
            "- type: check",
            "- type: check\n- hull: A\n- from near: 1.00 m\n- from left: 1.00 m\n"
            "- x: 15.00 m\n- y: 0.00 m",
        ),
    ),
    "no diameters": changed(
        TRENCH_BARE,
        ("- outside diameter: 160 mm\n", ""),
        ("- inside diameter: 152 mm\n", ""),
        ("invert [m]", "crown [m]"),
    ),
    "found by nobody": changed(
        TRENCH_BARE, ("- tracer wire: yes", "- tracer wire: not recorded")
    ).replace("- reached by: left wall, third board", "- reached by: not recorded"),
    "no frost guard": changed(
        TRENCH_BARE, ("- freeze protection: n/a, inside the hull\n", ""), ("- screen: none\n", "")
    ),
    "more to hide": TRENCH_BARE.replace("- hides: AIR-IN", "- hides: not recorded"),
    "no weld seen": re.sub(r"## inspected.*?(?=## batch)", "", SEAM_BARE, flags=re.DOTALL),
    "a weld that failed": SEAM_BARE.replace("- result: passed", "- result: failed"),
    "no build-up": changed(SEAM_BARE, ("- build-up: BU", "- build-up: not recorded")),
    "coats not counted": changed(
        SEAM_BARE, ("| 3 foam | spray foam | 2 ", "| 3 foam | x | not recorded ")
    ),
    "coats missing": re.sub(r"(?m)^\| (tar|foam|wrap) \| [12] .*\n", "", SEAM_BARE),
    "out of order": changed(SEAM_BARE, ("| 10:00 | 10:30 |", "| 13:30 | 13:35 |")),
    "no waits": changed(
        SEAM_BARE,
        ("| 1 h | 24 h |", "| not recorded | not recorded |"),
        ("n/a, by the can", "not recorded"),
    ),
    "a coat of no layer": changed(SEAM_BARE, ("| tar | 1 | 10:00", "| pitch | 1 | 10:00")),
    "no film": changed(SEAM_BARE, ("8.6 °C | 2.6 mm", "8.6 °C | not recorded")),
    "thin": changed(SEAM_BARE, ("8.6 °C | 2.6 mm", "8.6 °C | 1.6 mm")),
    "no dew point": changed(SEAM_BARE, ("8.6 °C | 2.6 mm", "not recorded | 2.6 mm")),
    "too near the dew point": changed(SEAM_BARE, ("8.6 °C | 2.6 mm", "13.6 °C | 2.6 mm")),
    "no batch": changed(SEAM_BARE, ("| T-1 | none |", "| T-1 | not recorded |")),
    "a plug left in": TRENCH_BARE
    + "\n## temporary TP-1\n\n- what: plug\n- on thing: AIR-IN\n- off before: FILL\n",
    "a valve that never came": TRENCH_BARE
    + "\n## expected EX-1\n\n- what: ball valve\n- amount: 1\n- before: FILL\n",
    "batch without its end": changed(SEAM_BARE, ("- last used: 13:50\n", "")),
    "batch too old": changed(SEAM_BARE, ("- last used: 13:50", "- last used: 14:50")),
    "no sides": changed(SEAM_BARE, ("- sides: east, west\n", "")),
    "a test that failed": SEAM_BARE
    + "\n## tested SM\n\n- test: holiday\n- result: failed\n- reading: 2\n- limit: 0\n"
    "- instrument: H-1\n\n## inspected SM\n\n- what: wrap\n- result: not recorded\n",
    "a proof that lapsed": SEAM_BARE
    + "\n## proof lapsed SM\n\n- test: holiday\n- cause: drilled\n",
    "a waiver of nothing": TRENCH_BARE
    + "\n## hold waived FILL\n\n- rule: phoots\n- tags: AIR-IN\n- reason: not recorded\n"
    "- second: ck\n",
    "covered": TRENCH_BARE + COVERED,
    "a valve put in backwards": changed(TRENCH_BARE, ("flow: inward", "flow: not recorded")),
    "a drain in the frost": bare(WEEP) + "\n## site fern-bank\n\n- frost depth: 2.00 m\n",
    "a hole with no seal": changed(bare(BOTH), ("sealing ring and mastic", "none")),
    "a buried valve tied once": bare(BURIED) + MARKS + TIES.replace(THIRD, "").replace(SECOND, ""),
    "a board on a weld": bare(LINED) + BOARD.replace("thickness: 7 mm", "thickness: none"),
    "earth over a hull unmeasured": POINTS[: POINTS.index("## cover m")]
    + POINTS[POINTS.index("## covering") :],
    "earth too thin": POINTS.replace("1.280 ±", "1.180 ±"),
    "no greatest cover": POINTS.replace("- most cover: 1.50 m\n", ""),
    "one side never levelled": LIFTS.replace(
        "| 4 | left | sand | 97.30 m", "| 4 | left | sand | none"
    ),
    "a hull never measured": SHAPE[: SHAPE.index("## shape")],
    "a shape without its limit": SHAPE.replace("2.475 | 25 |", "2.475 | not recorded |"),
    "a slipped digit": FAN.replace("near: 8.40 m", "near: 84.0 m"),
    "one box in another": BOX.format(near="1.20"),
    "a branch of no width": bare(trunk("223 mm")) + two("190 mm", "not recorded"),
    "wrapped before it was tarred": SEAM_BARE.replace("| 1 primer", "| 1 wrap"),
    "covered, released by nobody": TRENCH_BARE + GOES_ON,
    "a pipe that nobody named": TRENCH_BARE + pipe(),
    "water at the mark": dipped("96.90"),
    "a hull of no known mass": changed(
        dipped("96.20"), ("- mass: 6500 kg", "- mass: not recorded")
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_filled_in_the_form_is_recorded(place: Path, tmp_path: Path, case: str):
    with begun(place, CASES[case]) as log:
        view = seen(log)
        done = fill(form_of(view), view.built, tmp_path)
        posted = post_text(log, done.text, folder=tmp_path)
        told = {
            (entry.content.about, name)
            for entry in posted.recorded[:-1]
            if entry.content and entry.content.kind != "photographed"
            for name in entry.content.body
        }
        assert told <= done.gaps | done.said


@pytest.mark.parametrize("case", CASES)
def test_not_filled_in_it_is_refused_on_just_its_gaps(place: Path, case: str):
    with begun(place, CASES[case]) as log:
        form = form_of(seen(log))
    with pytest.raises(SheetRejected) as caught:
        read_sheet("form.md", form.encode())
    assert {fault.problem for fault in caught.value.faults} == {"this gap was not filled"}
    assert max(map(len, form.splitlines())) <= 100


@pytest.mark.parametrize("case", CASES)
def test_every_finding_is_told_and_all_that_words_can_clear_is_asked(place: Path, case: str):
    with begun(place, CASES[case]) as log:
        view = seen(log)
        findings = ready(view, "FILL").findings
        form = flat(form_of(view))
    assert findings
    for finding in findings:
        assert flat(finding.says) in form, finding.rule


def test_between_them_the_cases_have_a_finding_of_nearly_every_rule(tmp_path: Path):
    """
    Unread entries come from a newer program, words that differ from two writers, and a
    camera's claim or a missing scale from a picture: no one sheet makes them.
    """
    met: set[str] = set()
    for n, blocks in enumerate(CASES.values()):
        with begun(tmp_path / str(n), blocks) as log:
            met |= {finding.rule for finding in ready(seen(log), "FILL").findings}
    elsewhere = {"every entry read", "no two statements differ", "camera agrees with its sheet"}
    elsewhere |= {"photo with a scale"}
    assert met >= {rule.word for rule in RULES} - elsewhere


CLEARED = {
    "a pipe that nobody named": ["nothing in the way unnamed"],
    "nothing but photos": ["photo wide and close before cover"],
    "no level": ["every station levelled"],
    "no least fall": ["pipe falls enough"],
    "no drain": ["drain at every low point"],
    "a drain to nowhere": ["drain at every low point"],
    "no valve": ["check valve at the low end"],
    "a valve elsewhere": ["check valve at the low end"],
    "a valve of no type": ["check valve at the low end"],
    "no diameters": ["every station levelled"],
    "found by nobody": ["pipe can be found again", "valve can be worked"],
    "no frost guard": ["drain kept open"],
    "coats not counted": ["every coat on"],
    "coats missing": ["every coat on"],
    "no film": ["coats thick enough"],
    "a test that failed": ["what failed passed again"],
    "a proof that lapsed": ["no lapsed proof"],
    "a valve put in backwards": ["valve turned the right way"],
    "a drain in the frost": ["drain outlet clear of frost"],
    "a hole with no seal": ["sealed inside and out"],
    "a buried valve tied once": ["two ties and a check tie"],
    "a board on a weld": ["packing clears the weld"],
    "no greatest cover": ["cover as designed"],
    "a hull never measured": ["hull kept its shape"],
    "a shape without its limit": ["hull kept its shape"],
    "no sides": ["photo wide and close before cover"],
}
AS_SEEN = [
    (r"(\| 2 bend +\| )_+", r"\1invert 98.300 m"),
    (r"(- at station: )_+", r"\g<1>3"),
    (r"(- flow: )_+", r"\g<1>inward"),
    (r"(- most cover: )_+", r"\g<1>1.50 m"),
    (r"\| _+ +\| 2 ", "| H2 | 2 "),
    (r"\| _+ +\| 2 ", "| G1 | 2 "),
]


@pytest.mark.parametrize("case", CLEARED)
def test_what_is_filled_in_clears_the_finding(place: Path, tmp_path: Path, case: str):
    with begun(place, CASES[case]) as log:
        view = seen(log)
        form = form_of(view)
        for gap, value in AS_SEEN:
            form = re.sub(gap, value, form, count=1)
        before = {one.rule for one in ready(view, "FILL").findings}
        post_text(log, fill(form, view.built, tmp_path).text, folder=tmp_path)
        after = {one.rule for one in ready(seen(log), "FILL").findings}
    assert before >= set(CLEARED[case]) and not after & set(CLEARED[case])


def test_two_statements_that_differ_are_mended_both_at_once(place: Path, tmp_path: Path):
    """ck wrote without having seen what ld wrote of the same day: neither is newer."""
    with begun(place, TRENCH_BARE) as log:
        station = next(e for e in log.entries() if e.content and e.content.about == "AIR-IN/2")
        mends = (
            "## run AIR-IN\n\n- mends: {}\n- because: {}\n\n| station | invert [m] |\n|---|---|\n"
        )
        first = mends.format(station.number, "read again") + "| 2 | 98.310 |"
        post_text(log, day("2031-05-14", "ld", first, part="again"))
        second = mends.format(station.number, "shot again") + "| 2 | 98.290 |"
        post_text(log, day("2031-05-14", "ck", second))
        view = seen(log)
        form = form_of(view)
        [told] = [
            one for one in ready(view, "FILL").findings if one.rule == "no two statements differ"
        ]
        assert f"- mends: {', '.join(told.numbers)}" in form
        assert re.search(r"\| station +\| level +\|\n\|[-|]+\|\n\| 2 +\| _+ +\|\n", form)
        text = re.sub(r"(\| 2 +\| )_+", r"\1invert 98.300 m", form)
        post_text(log, fill(text, view.built, tmp_path).text, folder=tmp_path)
        assert not [one for one in ready(seen(log), "FILL").findings if one.rule == told.rule]


def test_words_of_the_record_cannot_end_a_hint_or_begin_one(place: Path, tmp_path: Path):
    odd = changed(TRENCH_BARE, ("- material: plastic pipe", "- material: plastic --> pipe | x"))
    with begun(place, odd) as log:
        view = seen(log)
        form = form_of(view) + write_of(view, "AIR-IN")
        done = fill(write_of(view, "AIR-IN"), view.built, tmp_path)
        posted = post_text(log, done.text, folder=tmp_path)
    assert "plastic -> pipe" in form
    assert not any(e.content and e.content.kind == "remark" for e in posted.recorded)


def write_of(view: View, tag: str) -> str:
    from record.blank import of_kind

    block = of_kind(view.built, view.built.things[tag].kind, tag)
    head = {"day": "2031-05-16", "writer": "ck", "part": "kind", "zone": "America/Denver"}
    return write(Form(**head, site=view.built.site, notes=(), blocks=(block,)))
