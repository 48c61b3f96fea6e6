"""A bag is restored into an encrypted record, and no plain byte of it is written on the way."""

from __future__ import annotations

import hashlib
import shutil
from pathlib import Path

import pytest

from record.archive import BadBag, unpack
from record.archive.check import FolderBag, held
from record.archive.in_place import BagFiles
from record.archive.untar import TarBag
from record.cli import Refused
from record.log import Folder, Log, LogFault
from record.log.kept import missing_files
from record.secret import Words
from tests.record.archive.test_pack import change, cut, escape, lines_of, link

pytest.importorskip("sqlcipher3")
WORDS = "seven dry oaks"
RECEIVED = "2031-05-02T12:00:00Z"


@pytest.fixture
def phrase(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Words:
    (tmp_path / "words").write_text(f"{WORDS}\n", encoding="utf-8")
    monkeypatch.setenv("ASBURIED_RECORD_PASSPHRASE_FILE", str(tmp_path / "words"))
    return Words(lambda _: iter([WORDS]))


BAGS = {
    "a folder": (("pack", "bag"), ()),
    "a tar": (("pack", "bag.tar"), ()),
    "a sealed bag": (
        ("pack", "bag.age", "--sealed", "--passphrase-file", "words"),
        ("--passphrase-file", "words"),
    ),
}


@pytest.mark.parametrize(("pack", "more"), BAGS.values(), ids=BAGS)
def test_it_holds_the_same_and_lies_open_nowhere(here, tmp_path: Path, phrase: Words, pack, more):
    here(*pack)
    before = {path for path in tmp_path.rglob("*") if path.is_file()}
    here("unpack", pack[1], "--sealed", *more, record="again")
    whole = lines_of(tmp_path / "fern-bank")
    with Log.open(tmp_path / "again", phrase) as log:
        assert [(e.link_line, e.content_line) for e in log.entries()] == whole
        assert log.vault is not None and missing_files(log.files, log.entries()) == ()
        picture = (tmp_path / "valve.png").read_bytes()
        kept = log.files.found("photos", hashlib.sha256(picture).hexdigest())
        assert kept is not None and kept.data == picture and kept.suffix == ".png"
    assert not Folder(tmp_path / "again").left_open()
    for path in {path for path in tmp_path.rglob("*") if path.is_file()} - before:
        data = path.read_bytes()
        assert b"marmalade" not in data and picture[:24] not in data
        assert path.is_relative_to(tmp_path / "again")


@pytest.mark.parametrize("harm", [change, cut, escape, link, "links.jsonl", "more.txt"])
def test_a_bad_bag_is_refused_in_the_same_words_and_leaves_nothing(
    here, tmp_path: Path, phrase: Words, harm
):
    here("pack", "bag")
    if harm == "links.jsonl":
        (tmp_path / "bag" / "data" / harm).unlink()
    elif harm == "more.txt":
        (tmp_path / "bag" / "data" / harm).write_text("x")
    else:
        harm(tmp_path / "bag")
    before = sorted(one.name for one in tmp_path.iterdir())
    said = []
    for more in ((), ("--sealed",)):
        with pytest.raises(Refused, match="nothing was restored") as fault:
            here("unpack", "bag", *more, record="again")
        said.append(str(fault.value))
    assert said[0] == said[1]
    assert sorted(one.name for one in tmp_path.iterdir()) == before


def test_a_bag_made_anew_round_a_changed_line_is_refused_by_the_lines_own_hash(
    here, tmp_path: Path, phrase: Words
):
    import bagit

    here("pack", "bag")
    change(tmp_path / "bag")
    bagit.Bag(str(tmp_path / "bag")).save(manifests=True)
    said = []
    for more in ((), ("--sealed",)):
        with pytest.raises(Refused, match="nothing was restored") as fault:
            here("unpack", "bag", *more, record="again")
        said.append(str(fault.value))
    assert said[0] == said[1] and "bag: data/contents.jsonl" in said[0]
    assert not (tmp_path / "again").exists()


def test_what_is_changed_between_the_check_and_the_use_is_told_and_goes_in_nowhere(
    here, tmp_path: Path
):
    here("pack", "bag")
    here("pack", "bag.tar")
    source = FolderBag(tmp_path / "bag")
    files = BagFiles(source, held(source))
    assert b"marmalade" in files.read("contents.jsonl")
    change(tmp_path / "bag")
    with pytest.raises(BadBag, match=r"data/contents\.jsonl was changed while it was read"):
        files.read("contents.jsonl")
    tar = TarBag(tmp_path / "bag.tar")
    files = BagFiles(tar, held(tar))
    whole = (tmp_path / "bag.tar").read_bytes()
    (tmp_path / "bag.tar").write_bytes(whole.replace(b"marmalade", b"pineapple"))
    with pytest.raises(BadBag, match="was changed while it was read"):
        files.read("contents.jsonl")
    tar.close()


def test_a_bag_is_read_and_never_written_to(here, tmp_path: Path):
    here("pack", "bag")
    source = FolderBag(tmp_path / "bag")
    files = BagFiles(source, held(source))
    with pytest.raises(OSError, match="not written"):
        files.keep("photos", b"x", ".jpg")
    assert files.found("photos", "0" * 64) is None


def test_a_signed_copy_keeps_its_signature_and_what_it_reserves(
    here, tmp_path: Path, phrase: Words, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.setenv("ASBURIED_CONFIG", str(tmp_path / "keys"))
    here("writer", "of", "--record")
    here("pack", "bag", "--for", "technician", "--as", "of")
    told = here("unpack", "bag", "--sealed", record="again")
    assert "signed by of: good" in told
    assert "Signed with all of its bag by of: good" in here("verify", record="again")


def test_without_room_nothing_is_left(here, tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    from record.log.sealed import SealedFiles

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    here("pack", "bag")
    shutil.rmtree(tmp_path / "fern-bank")
    monkeypatch.setattr(SealedFiles, "put", full)
    before = {*tmp_path.iterdir()}
    with pytest.raises(LogFault, match="No space left on device; nothing was restored"):
        unpack(tmp_path / "bag", tmp_path / "again", received=RECEIVED, sealed_with=WORDS)
    assert {*tmp_path.iterdir()} == before
