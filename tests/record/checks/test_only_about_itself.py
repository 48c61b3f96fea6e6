"""A correct entry never adds a stopping finding about something else.

Correct: a thing or a happening of its own, that says nothing about what others are and lies where
nothing else lies. Whatever it is, and whatever it was added to, what stopped stays the same but for
what is about the new thing itself; a reading or a look may only take findings away.
"""

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.record.building import day
from tests.record.checks.ground import SEAM, TRENCH, changed, readiness
from tests.record.checks.test_falls_the_right_way import BEND_BLUNDER
from tests.record.checks.test_photo_of_every_side import WEST
from tests.record.checks.test_water_in_the_pit import dipped

BEFORE = {
    "a trench": TRENCH,
    "a seam": SEAM,
    "a backfall": BEND_BLUNDER,
    "a seam unseen from one side": changed(SEAM, (WEST, "")),
    "a hull in a dry pit": dipped("96.20"),
    "a hull in a wet pit": dipped("96.90"),
}
FAR = """
## run NEW-{n}

- carries: spare
- size: 50 mm
- outside diameter: 60 mm
- inside diameter: 50 mm
- falls to: {falls}
- tracer wire: yes
- marker tape: yes

| station | x [m] | y [m] | invert [m] | ground [m] | how |
|---|---|---|---|---|---|
| 1 start | {x}.00 | {y}.00 | 98.{a} ± 5 mm | 99.90 | staff |
| 2 end | {x}.00 | 9{y}.00 | 98.{b} ± 5 mm | 99.90 | staff |
"""
NEW = st.one_of(
    st.builds(
        FAR.format,
        n=st.integers(1, 9),
        falls=st.sampled_from(["1", "2", "not recorded"]),
        x=st.integers(40, 90),
        y=st.integers(1, 9),
        a=st.integers(100, 999),
        b=st.integers(100, 999),
    ),
    st.sampled_from(
        [
            "\n## remark\n\nDry all day.\n",
            "\n## landmark L-9\n\n- what: post\n- x: 70 m\n- y: 3 m\n",
            "\n## benchmark BM-9\n\n- what: bolt\n- level: 99.000 m\n",
            "\n## hand-over item HO-9\n\n- what: seed\n- by whom: gc\n- state: open\n",
            "\n## valve V-9\n\n- type: ball\n- normal position: open\n",
            "\n## equipment EQ-9\n\n- type: pump\n",
            "\n## store ST-9\n\n- readers: owner\n",
            "\n## covering LIN-9\n\n- what: lining\n- hides: NO-9\n",
            "\n## dip pipe DP-9\n\n- x: 70 m\n- y: 9 m\n",
            "\n## seam SM-9\n\n- joins: link to A\n- hull: A\n",
            "\n## reading taken fern-bank\n\n- what: rain\n- reading: none\n",
            "\n## witness point\n\n- what: weld\n- asked: of\n- came: no\n",
        ]
    ),
)


def stopping(blocks, *later):
    return {(one.rule, one.about) for one in readiness(blocks, *later).findings if one.stops}


def own(entry):
    return entry.split("## ", 1)[1].split("\n")[0].split()[-1]


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(sorted(BEFORE)), st.lists(NEW, min_size=1, max_size=3, unique_by=own))
def test_what_is_added_elsewhere_stops_nothing_else(name, entries):
    before = stopping(BEFORE[name])
    later = day("2031-05-15", "ck", *entries)
    after = stopping(BEFORE[name], later)
    new = {own(entry) for entry in entries}
    assert {about for _, about in after - before} <= new


@settings(max_examples=20, deadline=None)
@given(st.sampled_from(sorted(BEFORE)), st.lists(NEW, min_size=1, max_size=2, unique_by=own))
def test_written_on_the_same_sheet_it_is_no_different(name, entries):
    before = stopping(BEFORE[name])
    after = stopping(BEFORE[name] + "".join(entries))
    assert {about for _, about in after - before} <= {own(entry) for entry in entries}


GOOD = {
    "a pour that passed": "\n## tested AIR-IN\n\n- at: 12:00\n- test: pour\n- result: passed\n"
    "- reading: all out\n- limit: all out\n- instrument: bucket\n",
    "a photo": "\n## remark AIR-IN\n\n![wide, looking west, AIR-IN, staff in view](more.jpg)\n",
    "a name": "\n## run AIR-IN\n\n- from: terminal\n",
    "how a valve was left": "\n## left as CV-1\n\n- state: free\n",
    "a release": "\n## hold released FILL\n\n- at: 16:00\n- by: ld\n- hold: fill\n- second: ck\n",
}


@settings(max_examples=20, deadline=None)
@given(st.permutations(sorted(GOOD)), st.sampled_from([TRENCH, BEND_BLUNDER]))
def test_right_entries_about_the_trench_itself_add_nothing_that_stops(names, blocks):
    said = stopping(blocks)
    for count in range(1, len(names) + 1):
        told = stopping(blocks, day("2031-05-15", "ck", *(GOOD[one] for one in names[:count])))
        assert told <= said
