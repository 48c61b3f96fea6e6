"""A copy for the new owner, without what the former owner keeps to themselves."""

import hashlib
import json
import subprocess
from itertools import product

import pytest
from jsonschema import Draft202012Validator
from PIL import Image

from record.archive import NothingSuch, held_back
from record.cli import Refused
from record.described import schema_of
from record.facts import KINDS
from record.log import Log
from tests.record.records import Tablet

SECRET = """# 2031-05-01 of secret

- site: fern-bank

## valve CV-9

- type: check
- on run: not recorded

![wide, looking north, valve in its box, shows CV-9](secret.png)

## remark CV-1

Its twin is CV-9, behind the quicksilver jar.
"""
NEXT = """# 2031-05-01 of next

- site: fern-bank

## remark CV-1

Turned twice.
"""


@pytest.fixture
def sold(here, tmp_path):
    """The record with a valve that the former owner keeps to themselves, and its picture."""
    Image.new("RGB", (40, 30), "red").save("secret.png")
    for name, text in (("secret.md", SECRET), ("next.md", NEXT)):
        (tmp_path / name).write_text(text, encoding="utf-8")
        here("post", name)
    return here


def entries(place):
    with Log.open(place) as log:
        return log.entries()


def all_bytes(place):
    return {one: one.read_bytes() for one in place.rglob("*") if one.is_file()}


def test_the_new_owners_copy_has_every_link_and_no_word_or_picture_of_it(sold, tmp_path):
    told = sold("pack", "bag", "--without", "cv-9")
    sold("unpack", "bag", record="again")
    whole, copy = entries(tmp_path / "fern-bank"), entries(tmp_path / "again")
    assert [e.link_line for e in copy] == [e.link_line for e in whole]
    assert "match their seals" in sold("verify", record="again")
    picture = (tmp_path / "secret.png").read_bytes()
    for place in ("bag", "again"):
        for one, data in all_bytes(tmp_path / place).items():
            assert b"CV-9" not in data and b"quicksilver" not in data and data != picture, one
            assert hashlib.sha256(picture).hexdigest().encode() not in data
    kept = {e.content.kind for e in copy if e.content}
    assert {"valve", "store", "remark", "photographed"} <= kept  # of everything else
    # the valve, its picture, the remark that names it, and the sheet with all of them in it
    gone = [e for e in whole if {f.hash: f for f in copy}[e.hash].content is None]
    assert sorted(e.content.kind for e in gone) == [
        "photographed", "remark", "sheet-posted", "valve",
    ]  # fmt: skip
    assert "held back: 4 entries" in told and "told of still: CV-1" in told


def test_the_readme_says_how_many_are_held_back_and_no_more(sold, tmp_path):
    sold("pack", "bag", "--without", "CV-9")
    readme = (tmp_path / "bag" / "README.txt").read_text(encoding="utf-8")
    assert "Of them 4 were held back by whoever packed this" in readme
    sold("pack", "whole")
    assert "held back" not in (tmp_path / "whole" / "README.txt").read_text(encoding="utf-8")
    said = json.loads(sold("pack", "once-more", "--without", "CV-9", "--json"))
    Draft202012Validator(schema_of("pack")).validate(said)
    assert said["held_back"] == 4 and said["told_of_still"] == ["CV-1"]


def test_what_is_typed_from_its_readme_checks_it(sold, tmp_path):
    from tests.record.archive.test_pack import type_it

    sold("pack", "bag", "--without", "CV-9")
    good = type_it(tmp_path / "bag")
    assert good.returncode == 0, good.stdout + good.stderr


def test_no_guessed_content_gives_the_hash_of_a_stub(sold, tmp_path):
    """Whoever guesses every word of an entry still lacks 16 random bytes; without them, or with
    those of another entry, no guess gives the hash that the link holds."""
    whole = {e.hash: e for e in entries(tmp_path / "fern-bank")}
    sold("pack", "bag", "--without", "CV-9")
    data = tmp_path / "bag" / "data"
    sealed = {
        json.loads(line)["content"] for line in (data / "links.jsonl").read_bytes().splitlines()
    }
    shown = (data / "contents.jsonl").read_bytes().splitlines(keepends=True)
    stubs = sealed - {hashlib.sha256(line).hexdigest() for line in shown}
    true = [e.content_line for e in whole.values() if e.link.content in stubs]
    assert len(true) == len(stubs) == 4
    salt = len(b'{"salt":"')
    others = {line[salt : salt + 32] for line in shown} | {b"0" * 32, b""}
    for line, other in product(true, others):
        assert line[salt : salt + 32] not in others  # each entry has its own
        guess = line.replace(line[salt : salt + 32], other)
        assert hashlib.sha256(guess).hexdigest() not in stubs


def test_one_entry_is_held_back_by_its_number_and_the_sheet_it_came_with(sold, tmp_path):
    found = [e for e in entries(tmp_path / "fern-bank") if e.content.kind == "remark"]
    last = found[-1].number
    sold("pack", "bag", "--without", last)
    said = b"".join(all_bytes(tmp_path / "bag").values())
    assert b"Turned twice" not in said and b"quicksilver" in said


def test_what_is_not_there_and_the_site_itself_are_refused(sold):
    with pytest.raises(Refused, match=r"no entry is about CV-99.*Did you mean CV-9"):
        sold("pack", "bag", "--without", "CV-99")
    with pytest.raises(Refused, match="is the site itself"):
        sold("pack", "bag", "--without", "fern-bank")


def test_a_short_tag_is_no_word_and_a_part_of_a_thing_is_of_it(tmp_path):
    """Hull A is not every "a"; R-1/3 is of R-1, and R-10 is another."""
    tablet = Tablet("of")
    said = [
        tablet.says("hull", "A", {}),
        tablet.says("remark", "fern-bank", {"text": "a stone by a root"}),
        tablet.says("station", "R-1/3", {"station": "bend"}),
        tablet.says("run", "R-10", {"carries": "water"}),
        tablet.says("remark", "fern-bank", {"text": "behind r-1, dry"}),
    ]
    with Log.make(tmp_path / "r") as log:
        assert held_back(said, ["A"], log.files).numbers == ("of-1",)
        assert held_back(said, ["R-1"], log.files).numbers == ("of-3", "of-5")
        with pytest.raises(NothingSuch):
            held_back(said, ["of-9"], log.files)


def test_an_edition_that_shows_it_is_held_back_with_its_hash(tmp_path):
    """The file of an edition has no salt: its hash would bear out a guess of what it shows."""
    tablet = Tablet("of")
    issued = {"edition": "1", "recorded_to": "2031-05-01", "checkpoint": "0" * 64}
    said = [
        tablet.says("valve", "V-1", {"type": "gate"}, readers=("owner", "technician")),
        tablet.says("store", "S-1", {"name": "box"}, readers=("owner",)),
        *(tablet.says("edition-issued", "fern-bank", issued | {"reader": reader, "pdf": n * 64})
          for n, reader in zip("abc", ("owner", "technician", "responder"), strict=True)),
    ]  # fmt: skip
    assert "edition issued" in KINDS
    with Log.make(tmp_path / "r") as log:
        assert held_back(said, ["V-1"], log.files).numbers == ("of-1", "of-3", "of-4")
        assert held_back(said, ["S-1"], log.files).numbers == ("of-2", "of-3")


def test_the_copy_reserves_what_it_lacks(sold, tmp_path):
    """Where the valve lies the copy cannot tell: no spot of ground is ruled out from it."""
    assert not json.loads(sold("beneath", "1", "2", "--json"))["columns"][0]["reserved"]
    sold("pack", "bag", "--without", "CV-9")
    sold("unpack", "bag", record="again")
    said = json.loads(sold("beneath", "1", "2", "--json", record="again"))
    assert said["columns"][0]["reserved"]


def test_other_tools_find_a_valid_bag(sold, tmp_path):
    sold("pack", "bag", "--without", "CV-9")
    for manifest in ("tagmanifest-sha256.txt", "manifest-sha256.txt"):
        subprocess.run(
            ["sha256sum", "--check", "--quiet", manifest], cwd=tmp_path / "bag", check=True
        )
