"""A record is told to be sound in one go only where every line by itself would be."""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Sequence

import pytest

from record.entry import BadLine, Entry, checkpoint, in_showing_order, read
from record.log import Log, checked, verified, verify
from record.log.sound import Row, Sound, sound
from tests.record.records import SITE, Tablet, post_text, sheet


def crew() -> tuple[Tablet, Tablet]:
    """Two chains that had seen each other, with a mend, a picture and a withdrawal among them."""
    ck, ld = Tablet("ck"), Tablet("ld")
    for n in range(5):
        ck.meets(ld)
        ck.says("remark", "fern-bank", {"text": f"ck {n} ½"})
        ld.meets(ck)
        ld.says("photographed", "fern-bank", {"sha256": f"{n:064x}", "caption": "wide"})
    ld.says("remark", "fern-bank", {"text": "so"}, mends=ld.chain[:1], fields=("caption",))
    ck.withdraws(ck.chain[0])
    return ck, ld


def rows(*tablets: Tablet) -> list[Row]:
    return [(e.hash, e.link_line, e.content_line) for t in tablets for e in t.chain]


def in_one_go(found: Sequence[Row], many: int = 3) -> Sound | None:
    return sound(lambda: [found[at : at + many] for at in range(0, len(found), many)])


@pytest.mark.parametrize("many", [1, 3, 100])
def test_a_sound_record_is_told_just_as_line_by_line(many: int):
    before = rows(*crew())
    told = in_one_go(before, many)
    verdict, entries = verified([(stored, "", link, content) for stored, link, content in before])
    assert told is not None and told.verdict == verdict and verdict.sound
    assert told.checkpoint == checkpoint("fern-bank", entries)
    naming = tuple(e for e in entries if e.content and e.content.kind == "photographed")
    assert in_showing_order(told.named) == naming and len(naming) == 5


@pytest.mark.parametrize("which", [0, 4, 11])
@pytest.mark.parametrize("column", [0, 1, 2])
def test_no_record_with_a_flipped_byte_is_told_to_be_sound(which: int, column: int):
    """Every byte of the stored hash, the link line or the content line, by its lowest bit."""
    before = rows(*crew())
    row = before[which]
    whole = row[column]
    data = whole.encode() if isinstance(whole, str) else whole
    assert data is not None
    for at in range(len(data)):
        turned: bytes | str = data[:at] + bytes([data[at] ^ 1]) + data[at + 1 :]
        changed = [*row]
        changed[column] = turned.decode("latin-1") if column == 0 else turned  # type: ignore[union-attr]
        assert in_one_go([*before[:which], tuple(changed), *before[which + 1 :]]) is None  # type: ignore[list-item]


def dropped(found: list[Row], at: int) -> list[Row]:
    return found[:at] + found[at + 1 :]


@pytest.mark.parametrize("at", range(11))
def test_nor_one_that_lacks_an_entry_somebody_had_seen_or_built_on(at: int):
    """ck-6 and ld-6 are last, and nobody had seen them: without such a one it is sound."""
    found = rows(*crew())
    lines = [(stored, "", link, content) for stored, link, content in dropped(found, at)]
    assert (in_one_go(dropped(found, at)) is not None) == (verify(lines).sound and at == 5)


def test_nor_one_whose_lines_changed_places_or_that_has_forked_or_lacks_a_content():
    found = rows(*crew())
    swapped = [found[1], found[0], *found[2:]]
    stored, link, _ = found[3]
    withheld = [*found[:3], (stored, link, None), *found[4:]]
    ck, _ = crew()
    other, _ = crew()
    other.chain[3:] = []
    other.says("remark", "fern-bank", {"text": "another device"})
    forked = [*rows(ck)[:4], *rows(other)[3:4]]
    for each in (swapped, withheld, forked, []):
        assert in_one_go(each) is None


def test_one_that_was_signed_is_told_with_all_its_entries():
    ck, ld = crew()
    ck.says("signed-off", "fern-bank", {"signer": "ck"})
    found = rows(ck, ld)
    told = in_one_go(found)
    assert told is not None and told.signed
    every = in_showing_order([*ck.chain, *ld.chain])
    assert told.entries() == every and verify([(s, "", a, b) for s, a, b in found]).sound


def with_content(content: bytes, /, **link: object) -> Row:
    """Return a first entry of ck with these lines, hashed as they should be."""
    said = {
        "site": "fern-bank", "writer": "ck", "seq": 1, "recorded": "2031-05-14T12:00:00Z",
        "content": hashlib.sha256(content).hexdigest(), "prev": None,
    }  # fmt: skip
    line = json.dumps(said | link, separators=(",", ":")).encode() + b"\n"
    return hashlib.sha256(line).hexdigest(), line, content


def line_of(entry: Entry) -> bytes:
    assert entry.content_line is not None
    return entry.content_line


PLAIN = line_of(crew()[0].chain[0])
#: Lines that no reader of one line takes, or takes only strictly; their hashes are right.
REFUSED = {
    "a key twice": PLAIN.replace(b'"v":1,', b'"v":1,"v":1,'),
    "a key nobody knows": PLAIN.replace(b'"v":1,', b'"v":1,"w":1,'),
    "a key too few": re.sub(rb'"zone":[^,]*,', b"", PLAIN),
    "a number with a point": PLAIN.replace(b'{"text":', b'{"n":1.5,"text":'),
    "a version below 1": PLAIN.replace(b'"v":1', b'"v":0'),
    "a day that is none": PLAIN.replace(b"2031-05-14", b"2031-02-30"),
    "an hour that is none": PLAIN.replace(b'"at":null', b'"at":"25:00"'),
    "a mend of nothing": PLAIN.replace(
        b'"replaces":[]', b'"replaces":[{"entry":"x","number":"ck-1","fields":[]}]'
    ),
    "no JSON": b"remark\n",
    "nothing": b"",
    "no line feed": PLAIN[:-1],
    "two line feeds": PLAIN + b"\n",
    "a blank": b" " + PLAIN,
    "bytes that are no words": PLAIN.replace(b"ck 0", b"ck \xff"),
    "seen a word": re.sub(rb'"seen":\{[^}]*\}', b'"seen":{"ld":"x"}', PLAIN),
}


@pytest.mark.parametrize("line", REFUSED.values(), ids=REFUSED)
def test_a_content_that_is_not_plain_is_left_to_be_read_by_itself(line: bytes):
    assert line != PLAIN
    assert in_one_go([with_content(PLAIN)]) is not None
    assert in_one_go([with_content(line)]) is None


LINKS: dict[str, dict[str, object]] = {
    "a writer that is none": {"writer": "C K"},
    "a number below 1": {"seq": 0},
    "a number too far on": {"seq": 2},
    "a moment that is none": {"recorded": "2031-05-14T25:00:00Z"},
    "a line before that is not here": {"prev": "0" * 64},
    "a content that is none": {"content": "x"},
    "one key more": {"more": 1},
}


@pytest.mark.parametrize("link", LINKS.values(), ids=LINKS)
def test_nor_is_a_link_that_is_not_plain(link: dict[str, object]):
    assert in_one_go([with_content(PLAIN, **link)]) is None


def test_two_lines_in_one_row_and_none_in_the_next_are_not_two_lines():
    """Joined they are the same bytes as two rows of a line each."""
    one, two = rows(crew()[0])[:2]
    joined = (one[0], one[1] + two[1], one[2]), (two[0], b"", two[2])
    assert in_one_go(joined) is None
    assert in_one_go([one, two]) is None  # ck-2 had seen ld-1


def test_what_is_refused_by_itself_is_refused_in_one_go():
    refused = 0
    for line in REFUSED.values():
        stored, link, content = with_content(line)
        try:
            read(link, content)
        except BadLine:
            refused += 1
            assert not verify([(stored, "", link, content)]).sound
    assert refused > 8


def test_the_command_asks_so_and_falls_back_to_every_line(tmp_path):
    with Log.make(tmp_path / "r") as log:
        assert checked(log).point is None
        post_text(log, SITE)
        post_text(log, sheet("## remark\n\nA stone."))
        found = checked(log)
        assert found.verdict.sound and found.entries == ()
        assert found.point == checkpoint("fern-bank", log.entries())
        assert [e.content.kind for e in found.named if e.content] == ["sheet-posted"] * 2
