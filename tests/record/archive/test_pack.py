"""A record packed for handing on, checked without this program, and restored."""

import hashlib
import json
import os
import re
import shutil
import subprocess
import tarfile

import pytest
from jsonschema import Draft202012Validator

from record.archive import BadBag
from record.cli import Refused
from record.described import schema_of
from record.log import Log, LogFault
from record.log.kept import missing_files
from record.posting import append_facts, own_fact, seeded_salt, stopped_clock
from tests.record.records import NOW


def lines_of(place):
    with Log.open(place) as log:
        return [(entry.link_line, entry.content_line) for entry in log.entries()]


def test_the_library_of_congress_finds_a_valid_bag(here, tmp_path):
    import bagit

    here("pack", "bag")
    assert bagit.Bag(str(tmp_path / "bag")).validate()


def test_what_was_packed_is_restored_byte_for_byte(here, tmp_path):
    packed = here("pack", "bag")
    restored = here("unpack", "bag", record="again")
    assert lines_of(tmp_path / "again") == lines_of(tmp_path / "fern-bank")
    picture = hashlib.sha256((tmp_path / "valve.png").read_bytes()).hexdigest()
    assert [one.name[:64] for one in (tmp_path / "again" / "photos").iterdir()] == [picture]
    point = next(line for line in packed.splitlines() if "checkpoint" in line)
    assert point in restored and "match their seals" in here("verify", record="again")


def typed(bag):
    """Return what a README has a person type, as a script that stops at the first refusal."""
    readme = (bag / "README.txt").read_text(encoding="utf-8").partition("HOW TO CHECK IT")[2]
    lines = [line[4:] for line in readme.splitlines() if re.match(r" {4}\S", line)]
    return "set -e -o pipefail\n" + "\n".join(lines)


def type_it(bag):
    script = ["bash", "-c", typed(bag)]
    return subprocess.run(script, cwd=bag, capture_output=True, text=True, check=False)


@pytest.fixture
def signed(here, tmp_path, monkeypatch):
    """A record whose first day is signed, and an edition of its manual kept for its owner."""
    monkeypatch.setenv("ASBURIED_CONFIG", str(tmp_path / "keys"))
    here("writer", "of", "--record")
    here("sign-off", "--day", "2031-05-01", "--as", "of")
    with Log.open(tmp_path / "fern-bank") as log:
        kept = log.files.keep("editions", b"the owner's manual, marmalade too", ".pdf")
        said = {
            "edition": 1,
            "reader": "owner",
            "recorded_to": "2031-05-01",
            "checkpoint": "0" * 64,
        }
        said |= dict.fromkeys(("pdf", "html", "calendar"), kept) | {"checkpoint": "0" * 64}
        fact = own_fact(
            "edition issued", said, site="fern-bank", zone="UTC", day="2031-05-02", writer="of",
            command="manual issue",
        )  # fmt: skip
        append_facts(log, fact, clock=stopped_clock(NOW), salt=seeded_salt("edition"))
    return here


def test_the_readme_is_right_that_ordinary_tools_will_do(signed, tmp_path):
    signed("pack", "bag")
    good = type_it(tmp_path / "bag")
    assert good.returncode == 0, good.stdout + good.stderr
    assert good.stdout.count("Signature Verified Successfully") == 1
    with (tmp_path / "bag" / "data" / "links.jsonl").open("ab") as file:
        file.write(b"x")
    assert type_it(tmp_path / "bag").returncode != 0


def harm_signature(bag):
    path = next((bag / "data" / "signatures").glob("*/signature.bin"))
    path.write_bytes(bytes([path.read_bytes()[0] ^ 1]) + path.read_bytes()[1:])


def drop_a_link(bag):
    path = bag / "data" / "links.jsonl"
    path.write_bytes(b"".join(path.read_bytes().splitlines(keepends=True)[1:]))


def change_what_it_says(bag):
    path = bag / "data" / "contents.jsonl"
    path.write_bytes(path.read_bytes().replace(b"check", b"gates"))


@pytest.mark.parametrize("harm", [harm_signature, drop_a_link, change_what_it_says])
def test_what_the_readme_has_typed_finds_harm_under_new_manifests(signed, tmp_path, harm):
    """Whoever does harm can write manifests anew: what is typed after them must tell."""
    import bagit

    signed("pack", "bag")
    harm(tmp_path / "bag")
    bagit.Bag(str(tmp_path / "bag")).save(manifests=True)
    told = type_it(tmp_path / "bag")
    assert told.returncode != 0 and "FAILED" not in told.stdout + told.stderr


def test_a_readers_copy_verifies_without_the_manual_that_was_made_for_the_owner(signed, tmp_path):
    """The entry of the edition is for every reader; the edition itself tells of the secret."""
    signed("pack", "bag", "--for", "technician")
    signed("unpack", "bag", record="again")
    assert not (tmp_path / "again" / "editions").exists()
    told = signed("verify", record="again")
    assert "match their seals" in told and "is missing" not in told
    next((tmp_path / "fern-bank" / "editions").iterdir()).unlink()
    with Log.open(tmp_path / "fern-bank") as log:  # the owner's own copy does miss it
        assert len(missing_files(log.files, log.entries())) == 3


def test_a_readers_copy_has_every_link_and_no_word_of_what_is_withheld(here, tmp_path):
    here("pack", "bag", "--for", "technician")
    told = here("unpack", "bag", record="again")
    whole, copy = lines_of(tmp_path / "fern-bank"), lines_of(tmp_path / "again")
    assert [link for link, _ in copy] == [link for link, _ in whole]
    assert 0 < sum(content is None for _, content in copy) < len(copy) and " say" in told
    assert "match their seals" in here("verify", record="again")
    for file in (tmp_path / "bag").rglob("*"):
        assert not file.is_file() or not any(
            word in file.read_bytes() for word in (b"larder", b"marmalade")
        ), file
    salts = [
        content.split(b'"salt":"')[1][:32]
        for (_, content), (_, shown) in zip(whole, copy, strict=True)
        if shown is None
    ]
    said = b"".join(one.read_bytes() for one in (tmp_path / "bag").rglob("*") if one.is_file())
    assert salts and not any(salt in said for salt in salts)  # a guess can be held against nothing


def test_verify_and_the_readme_tell_one_hash_of_what_a_copy_reserves(here, tmp_path):
    here("pack", "bag", "--for", "technician")
    here("unpack", "bag", record="again")
    (kept,) = (tmp_path / "again" / "reserved").iterdir()
    said = hashlib.sha256(kept.read_bytes()).hexdigest()
    assert said in (tmp_path / "bag" / "README.txt").read_text(encoding="utf-8")
    told = here("verify", record="again")
    assert "packed for technician: holds" in told and said in told
    form = json.loads(here("verify", "--json", record="again"))
    Draft202012Validator(schema_of("verify")).validate(form)
    unsigned = {"signed_by": None, "signature": None}
    assert form["reserved"] == {"sha256": said, "reader": "technician", "holds": True, **unsigned}
    with pytest.raises(AssertionError, match="it was changed"):
        kept.write_bytes(kept.read_bytes().replace(b"true", b"false"))
        here("verify", record="again")
    here("pack", "whole")
    assert not (tmp_path / "whole" / "data" / "reserved").exists()


def test_the_same_record_is_the_same_file_on_another_day(here, tmp_path, monkeypatch):
    (tmp_path / "a").mkdir()
    (tmp_path / "b").mkdir()
    here("pack", "a/bag.tar")
    monkeypatch.setenv("ASBURIED_NOW", "2040-01-01T00:00:00Z")
    os.umask(os.umask(0o022))
    here("pack", "b/bag.tar")
    assert (tmp_path / "a/bag.tar").read_bytes() == (tmp_path / "b/bag.tar").read_bytes()
    with tarfile.open(tmp_path / "a/bag.tar") as tar:
        assert {one.mode for one in tar.getmembers()} == {0o600}
    here("unpack", "a/bag.tar", record="again")
    assert lines_of(tmp_path / "again") == lines_of(tmp_path / "fern-bank")


def test_only_its_owner_may_read_a_bag(here, tmp_path):
    here("pack", "bag")
    modes = {one.stat().st_mode & 0o077 for one in (tmp_path / "bag").rglob("*")}
    assert modes == {0} and (tmp_path / "bag").stat().st_mode & 0o077 == 0


def change(bag):
    (bag / "data" / "contents.jsonl").write_bytes(
        (bag / "data" / "contents.jsonl").read_bytes().replace(b"check", b"gates")
    )


def cut(bag):
    path = bag / "data" / "links.jsonl"
    path.write_bytes(path.read_bytes()[:-40])


def escape(bag):
    manifest = bag / "manifest-sha256.txt"
    manifest.write_text(manifest.read_text() + f"{'0' * 64}  data/../../outside\n")


def link(bag):
    path = next((bag / "data" / "photos").iterdir())
    path.unlink()
    path.symlink_to("/etc/hostname")


@pytest.mark.parametrize(
    ("harm", "named"),
    [
        (change, "data/contents.jsonl: it was changed"),
        (cut, "data/links.jsonl: it was changed or cut short"),
        (lambda bag: (bag / "data" / "links.jsonl").unlink(), "data/links.jsonl: it is missing"),
        (lambda bag: (bag / "data" / "more.txt").write_text("x"), "data/more.txt: it was put in"),
        (lambda bag: (bag / "README.txt").write_text("x"), "README.txt: it was changed"),
        (lambda bag: (bag / "bagit.txt").unlink(), "bagit.txt: it is missing"),
        (escape, "leads out of the bag"),
        (link, "a link to elsewhere, and is not followed"),
    ],
)
def test_a_bad_bag_is_refused_whole_by_the_name_of_the_bad_file(here, tmp_path, harm, named):
    here("pack", "bag")
    harm(tmp_path / "bag")
    before = sorted(one.name for one in tmp_path.iterdir())
    with pytest.raises((Refused, BadBag), match="nothing was restored") as fault:
        here("unpack", "bag", record="again")
    assert named in str(fault.value)
    assert sorted(one.name for one in tmp_path.iterdir()) == before


def test_a_bag_made_anew_round_a_changed_line_is_refused_by_the_lines_own_hash(here, tmp_path):
    """Whoever changes a line can write new manifests; the chain still tells."""
    import bagit

    here("pack", "bag")
    change(tmp_path / "bag")
    bagit.Bag(str(tmp_path / "bag")).save(manifests=True)
    assert bagit.Bag(str(tmp_path / "bag")).validate()
    with pytest.raises((Refused, BadBag, LogFault), match="nothing was restored"):
        here("unpack", "bag", record="again")
    assert not (tmp_path / "again").exists()


def test_nothing_that_is_there_is_written_over(here, tmp_path):
    here("pack", "bag")
    shutil.copytree(tmp_path / "bag", tmp_path / "other")
    with pytest.raises(LogFault, match="there already"):
        here("pack", "bag")
    with pytest.raises((Refused, LogFault), match="there already"):
        here("unpack", "other", record="fern-bank")
