"""Who may see an entry: never more than may see what it names."""

from __future__ import annotations

import pytest

from record.entry import Entry
from record.log import Log
from record.sheets import SheetRejected
from tests.record.records import post_text, sheet

EVERYONE = ("owner", "technician", "trade", "responder")
HIDDEN = """## run AIR-IN

- material: clay

## store S-3

- name: box behind the wall
- hull: not recorded
"""


@pytest.fixture
def hidden(log: Log) -> Log:
    """A record with a run anyone may see, and a store that is the owner's alone."""
    try:
        post_text(log, sheet(HIDDEN, day="2031-05-02"))
    except SheetRejected as rejected:
        needed = [f.problem.split('"')[1] for f in rejected.faults if "is missing" in f.problem]
        more = "".join(f"- {key}: not recorded\n" for key in needed)
        post_text(log, sheet(HIDDEN + more, day="2031-05-02"))
    return log


def readers(log: Log, blocks: str) -> tuple[str, ...]:
    entry = post_text(log, sheet(blocks)).recorded[0]
    assert entry.content is not None
    return entry.content.readers


def test_a_kind_has_its_readers_and_a_block_may_narrow_them(hidden: Log):
    assert readers(hidden, "## run D-1\n\n- material: clay") == EVERYONE
    narrowed = readers(hidden, "## run D-2\n\n- material: clay\n- readers: owner, technician")
    assert narrowed == ("owner", "technician")


def test_a_block_cannot_widen_its_kind(hidden: Log):
    said = "## store S-9\n\n" + "".join(
        f"- {key}: not recorded\n"
        for key in ("name", "hull", "from near", "from left", "bottom", "opens")
    )
    try:
        found = readers(hidden, said + "- readers: owner, trade")
    except SheetRejected as rejected:
        pytest.fail(str([f.problem for f in rejected.faults]))
    assert found == ("owner",)


@pytest.mark.parametrize(
    "words",
    [
        "Tools moved to S-3 today.",
        "Tools moved to S-3.",
        "Tools moved to S-3",
        "S-3's lid sticks.",
        "The S-3-lid sticks.",
        "tools are in s-3 now",
        "see (S-3), and “S-3”",
        "in S\N{NON-BREAKING HYPHEN}3 now",
        "in S\N{EN DASH}3 now",
        "in S\N{MINUS SIGN}3 now",
        "_S-3_",
        "AIR-IN/S-3",
        "S-3/2 is empty",
    ],
)
def test_words_that_name_what_is_hidden_are_the_owners_alone(hidden: Log, words: str):
    assert readers(hidden, f"## remark AIR-IN\n\n{words}") == ("owner",)


@pytest.mark.parametrize("words", ["Tools are in S-33.", "XS-3 fittings", "Rock.", "S 4"])
def test_words_that_name_nothing_hidden_stay_as_they_were(hidden: Log, words: str):
    assert readers(hidden, f"## remark AIR-IN\n\n{words}") == ("owner", "technician", "trade")


@pytest.mark.parametrize(
    "line",
    [
        "- screen: n/a, S-3 is in the way",
        "- falls to: S-3",
        "- from: behind S-3.",
        "- did: ph, in S-3",
        "- saw: whoever filled S-3",
    ],
)
def test_a_name_anywhere_in_a_block_narrows_it(hidden: Log, line: str):
    assert readers(hidden, f"## run D-1\n\n{line}") == ("owner",)


def test_a_picture_that_shows_what_is_hidden_is_the_owners_alone(hidden: Log, tmp_path):
    from PIL import Image

    Image.new("RGB", (4, 4)).save(tmp_path / "a.png")
    text = sheet("## run AIR-IN\n\n![wide, looking east, shows S-3](a.png)")
    posted = post_text(hidden, text, folder=tmp_path)
    shown = [e for e in posted.recorded if e.content and e.content.kind == "photographed"]
    assert [e.content.readers for e in shown if e.content] == [("owner",)]


def test_what_a_sheet_brings_in_narrows_the_rest_of_that_sheet(log: Log):
    text = HIDDEN + "".join(
        f"- {key}: not recorded\n" for key in ("from near", "from left", "bottom", "opens")
    )
    posted = post_text(log, sheet("## remark\n\nBox S-3 is in.\n\n" + text)).recorded
    assert posted[0].content and posted[0].content.readers == ("owner",)


def fact(log: Log, blocks: str, part: str) -> Entry:
    return post_text(log, sheet(blocks, part=part)).recorded[0]


def test_a_mend_is_seen_by_just_those_who_see_what_it_mends(hidden: Log):
    """Narrower, and a copy would keep the wrong value; wider, and it would give it away."""
    first = fact(hidden, "## run D-1\n\n- material: clay\n- readers: owner, technician", "a")
    mend = f"## run D-1\n\n- mends: {first.number}\n- because: misread\n- material: steel"
    entry = fact(hidden, mend, "b")
    assert entry.content and entry.content.readers == ("owner", "technician")


@pytest.mark.parametrize("more", ["because: it hid S-3", "because: misread\n- readers: owner"])
def test_a_mend_that_fewer_could_see_than_what_it_mends_is_refused(hidden: Log, more: str):
    first = fact(hidden, "## run D-1\n\n- material: clay", "a")
    mend = f"## run D-1\n\n- mends: {first.number}\n- {more}\n- material: steel"
    with pytest.raises(SheetRejected) as caught:
        fact(hidden, mend, "b")
    (fault,) = caught.value.faults
    assert "technician" in fault.problem and first.number in fault.problem


def test_a_withdrawal_that_fewer_could_see_than_what_it_takes_back_is_refused(hidden: Log):
    first = fact(hidden, "## run D-1\n\n- material: clay", "a")
    gone = f"## withdrawn\n\n- mends: {first.number}\n- because: it was S-3"
    with pytest.raises(SheetRejected):
        fact(hidden, gone, "b")


def test_a_mend_of_words_kept_to_the_owner_is_kept_to_the_owner(hidden: Log):
    said = "## remark AIR-IN\n\n- readers: owner\n- text: the neighbour has a key"
    first = fact(hidden, said, "a")
    mend = f"## remark AIR-IN\n\n- mends: {first.number}\n- because: no more\n- text: no key now"
    entry = fact(hidden, mend, "b")
    assert entry.content and entry.content.readers == ("owner",)
