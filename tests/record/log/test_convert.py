"""A record is encrypted, made plain or given another passphrase whole, or stays as it was."""

from __future__ import annotations

import contextlib
import hashlib
import os
import shutil
import signal
import sqlite3
import sys
import threading
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from record.log import Log, LogFault, cipher, convert, verify
from record.log.folder import Folder
from record.log.kept import missing_files
from record.secret import Words, asking
from tests.record.records import SITE, Tablet, post_text, sheet

FIRST, SECOND = "seven dry oaks", "nine wet elms"
PHOTO = b"\xff\xd8 the way out behind the larder \xff\xd9"
CANARIES = (b"Fern Bank", b"quicksilver", PHOTO, b"SQLite format 3")


@pytest.fixture(autouse=True)
def _quick_sums(monkeypatch: pytest.MonkeyPatch):
    """What is tested here is not how long a passphrase holds."""
    monkeypatch.setattr(cipher, "ITERATIONS", 2)
    say(FIRST, SECOND)
    yield
    asking(None)


def say(*words: str) -> None:
    asking(Words(lambda _: iter(words)))


@pytest.fixture
def plain(tmp_path: Path) -> Path:
    path = tmp_path / "sites" / "fern"
    with Log.make(path) as log:
        post_text(log, SITE)
        post_text(log, sheet("## remark\n\nA quicksilver fox."))
        log.files.keep("photos", PHOTO, ".jpg")
    (path / "index.cache").write_bytes(b"quicksilver")
    (path / "recall.kept").mkdir(mode=0o700)
    (path / "recall.kept" / "0.names").write_bytes(b"quicksilver")
    return path


def all_of(path: Path) -> tuple[list[object], dict[str, bytes]]:
    """Return every line and every kept file of a record, having looked that all is sound."""
    with Log.open(path) as log:
        assert verify(log.lines()).sound and missing_files(log.files, log.entries()) == ()
        files = {
            f"{what}/{sha256}{file.suffix}": file.data for what, sha256, file in log.files.every()
        }
        return list(log.lines()), files


def open_in(path: Path) -> list[tuple[str, bytes]]:
    files = [one for one in path.rglob("*") if one.is_file()]
    data = [(one.name, one.read_bytes()) for one in files]
    return [(n, c) for n, d in data for c in CANARIES if c in d]


def test_all_of_it_is_there_encrypted_and_nothing_of_it_lies_open(plain: Path):
    before = all_of(plain)
    assert open_in(plain.parent)
    done = convert.seal(plain, FIRST)
    assert (done.entries, done.files, done.left) == (4, 3, ())
    assert all_of(plain) == before
    assert open_in(plain.parent) == []
    assert [one.name for one in plain.iterdir()] == ["sealed-1"]
    assert [str(one) for one in plain.rglob("*") if one.stat().st_mode & 0o077] == []


def test_plain_again_it_is_byte_for_byte_what_it_was(plain: Path):
    before = all_of(plain)
    convert.seal(plain, FIRST)
    done = convert.unseal(plain)
    assert (done.entries, done.files) == (4, 3)
    assert all_of(plain) == before
    assert sorted(one.name for one in plain.iterdir()) == ["photos", "record.sqlite", "sheets"]
    with sqlite3.connect(plain / "record.sqlite") as connection:
        names = {row[0] for row in connection.execute("SELECT name FROM sqlite_master")}
        assert "kept_key" not in names and "links_no_update" in names
    connection.close()
    assert [str(one) for one in plain.rglob("*") if one.stat().st_mode & 0o077] == []


def test_another_passphrase_opens_it_the_old_one_no_more_and_every_key_is_new(plain: Path):
    convert.seal(plain, FIRST)
    before = all_of(plain)
    old = {one.name: one.read_bytes() for one in plain.rglob("*") if one.is_file()}
    convert.seal(plain, SECOND)
    assert all_of(plain) == before
    say(SECOND)
    assert all_of(plain) == before
    say(FIRST)
    with pytest.raises(LogFault, match="the passphrase is another"):
        Log.open(plain)
    new = {one.name: one.read_bytes() for one in plain.rglob("*") if one.is_file()}
    assert old.keys() & new.keys() == {"record.sqlcipher", "README.txt"}
    assert [one.name for one in plain.iterdir()] == ["sealed-2"]


def test_it_can_be_written_to_in_every_form(plain: Path):
    for number, work in enumerate((convert.seal, convert.seal, lambda *_: convert.unseal(plain))):
        work(plain, SECOND)
        with Log.open(plain) as log:
            post_text(log, sheet("## remark\n\nAnother.", part=f"p{number}"))
    assert len(all_of(plain)[0]) == 4 + 3 * 2


CHANGES = ("os.rename", "os.remove", "os.mkdir", "os.rmdir", "os.link", "shutil.rmtree", "open")


def cut_short(path: Path, work: Callable[[], object], at: int) -> bool:
    """Do ``work`` in a process that is killed before its ``at``-th change of a file; was it?"""
    child = os.fork()
    if child == 0:
        left = [at]

        def hook(event: str, args: tuple[object, ...]) -> None:
            place = str(args[0]) if args else ""
            wanted = event in CHANGES and str(path.parent) in place
            if event == "open" and not (isinstance(args[2], int) and args[2] & os.O_CREAT):
                return
            if wanted or event == "sqlite3.connect":
                left[0] -= 1
                if not left[0]:
                    os.kill(os.getpid(), signal.SIGKILL)

        sys.addaudithook(hook)
        try:
            work()
        finally:
            os._exit(0)
    _, status = os.waitpid(child, 0)
    return os.WIFSIGNALED(status)


@pytest.mark.parametrize("what", ["seal", "change", "unseal"])
def test_killed_at_any_change_of_a_file_it_is_the_one_or_the_other_and_goes_on(
    plain: Path, tmp_path: Path, what: str
):
    before = all_of(plain)
    if what != "seal":
        convert.seal(plain, FIRST)
    kept = tmp_path / "kept"
    shutil.copytree(plain.parent, kept)
    forms = set()
    for at in range(1, 400):
        shutil.rmtree(plain.parent)
        shutil.copytree(kept, plain.parent)
        words = FIRST if what == "seal" else SECOND
        work = {"unseal": lambda: convert.unseal(plain)}.get(
            what, lambda words=words: convert.seal(plain, words)
        )
        killed = cut_short(plain, work, at)
        say(FIRST, SECOND)
        assert all_of(plain) == before, at
        sealed = bool(Folder(plain).sealed())
        forms.add((sealed, Folder(plain).left_open()))
        if what == "change":
            assert sealed and open_in(plain) == [], at
        if what == "seal" and not sealed:
            assert open_in(plain / ".converting") == [], at
        if not sealed and what == "unseal":
            with pytest.raises(LogFault, match="is not encrypted"):
                work()
            assert sorted(one.name for one in plain.iterdir()) == [
                "photos",
                "record.sqlite",
                "sheets",
            ]
        else:
            work() if at % 2 else convert.finish(plain)
        say(FIRST, SECOND)
        assert all_of(plain) == before, at
        if Folder(plain).sealed():
            assert open_in(plain.parent) == [] and not Folder(plain).left_open(), at
            assert len(list(plain.iterdir())) == 1, at
        if not killed:
            break
    assert not killed and at > 20
    # It was seen before the renaming, after it with the old still there, and done.
    assert len(forms) >= 2 and any(left for _, left in forms)


def test_whoever_waits_to_write_meanwhile_is_told_to_do_it_again_and_loses_nothing(
    plain: Path, monkeypatch: pytest.MonkeyPatch
):
    copying = threading.Event()
    copied = convert.copied

    def slowly(*logs: Log) -> tuple[int, int]:
        copying.set()
        time.sleep(0.4)
        return copied(*logs)

    monkeypatch.setattr(convert, "copied", slowly)
    done = threading.Thread(target=lambda: (say(FIRST), convert.seal(plain, FIRST)))
    with Log.open(plain) as log:
        done.start()
        assert copying.wait(10)
        entry = Tablet("ck").says("remark", "fern-bank", {"text": "late"})
        said = pytest.raises(LogFault, match=r"encrypted, .* meanwhile.*Run it again")
        with said, log.writing() as writing:
            writing.append([entry], received="2031-06-01T12:00:00Z")
        done.join()
    assert len(all_of(plain)[0]) == 4
    with Log.open(plain) as log, log.writing() as writing:
        writing.append([entry], received="2031-06-01T12:00:00Z")
    assert len(all_of(plain)[0]) == 5


def test_nobody_takes_away_what_somebody_else_is_making(
    plain: Path, monkeypatch: pytest.MonkeyPatch
):
    """One gives it another passphrase, another finishes: between the looking over and the name."""
    convert.seal(plain, FIRST)
    before = all_of(plain)
    looked_over = convert.held_to_the_old
    others: list[threading.Thread] = []

    def finishing() -> None:
        say(FIRST, SECOND)
        with contextlib.suppress(LogFault):
            convert.finish(plain)

    def meanwhile(*logs: Log) -> None:
        looked_over(*logs)
        others.append(threading.Thread(target=finishing))
        others[0].start()
        time.sleep(0.4)

    monkeypatch.setattr(convert, "held_to_the_old", meanwhile)
    convert.seal(plain, SECOND)
    others[0].join()
    assert all_of(plain) == before and [one.name for one in plain.iterdir()] == ["sealed-2"]


def test_a_plain_record_put_beside_it_that_holds_more_is_not_removed(plain: Path, tmp_path: Path):
    shutil.copytree(plain, tmp_path / "copy")
    convert.seal(plain, FIRST)
    with Log.open(tmp_path / "copy") as log:
        post_text(log, sheet("## remark\n\nOnly here.", part="b"))
    shutil.copy(tmp_path / "copy" / "record.sqlite", plain)
    assert Folder(plain).left_open()
    for work in (lambda: convert.finish(plain), lambda: convert.seal(plain, SECOND)):
        with pytest.raises(LogFault, match=r"holds 2 entries that the encrypted record lacks"):
            work()
    assert (plain / "record.sqlite").exists()
    (plain / "record.sqlite").unlink()
    shutil.copy(tmp_path / "copy" / "record.sqlite", tmp_path)
    assert len(all_of(plain)[0]) == 4


def test_what_was_written_by_whoever_had_it_open_is_told_and_removed(plain: Path):
    """A question asked just before writes its index just after, where it knew the record to be."""
    with Log.open(plain) as log:
        convert.seal(plain, FIRST)
        assert not Folder(plain).left_open()
        late = log.cache("index.cache")
        late.write_bytes(b"quicksilver")
        sha256 = log.files.keep("sheets", b"# a quicksilver sheet", ".md")
    assert Folder(plain).left_open()
    done = convert.finish(plain)
    assert (done.entries, done.files, done.removed) == (4, 4, 2)
    assert open_in(plain) == [] and not Folder(plain).left_open()
    with Log.open(plain) as log:
        assert log.files.found("sheets", sha256) is not None


def test_files_that_are_somebodys_own_stay_and_are_named(plain: Path):
    (plain / "notes.txt").write_text("quicksilver", encoding="utf-8")
    (plain / "photos" / "0518-wide.jpg").write_bytes(PHOTO)
    done = convert.seal(plain, FIRST)
    assert done.left == ("notes.txt", "photos/0518-wide.jpg")
    assert (plain / "photos" / "0518-wide.jpg").read_bytes() == PHOTO
    assert convert.finish(plain).left == done.left


def test_a_damaged_picture_stays_as_it_is_and_is_named_by_verify_before_and_after(plain: Path):
    sha256 = hashlib.sha256(PHOTO).hexdigest()
    (plain / "photos" / f"{sha256}.jpg").write_bytes(b"half")
    convert.seal(plain, FIRST)
    with Log.open(plain) as log:
        found = log.files.found("photos", sha256)
        assert found is not None and found.data == b"half"
    convert.unseal(plain)
    assert (plain / "photos" / f"{sha256}.jpg").read_bytes() == b"half"


def test_an_encrypted_file_that_does_not_open_is_named_and_nothing_is_changed(plain: Path):
    convert.seal(plain, FIRST)
    hurt = sorted((plain / "sealed-1" / "kept").iterdir())[0]
    hurt.write_bytes(hurt.read_bytes()[:-1])
    for work in (lambda: convert.unseal(plain), lambda: convert.seal(plain, SECOND)):
        with pytest.raises(LogFault, match=f"{hurt.name} does not open"):
            work()
        assert [one.name for one in (plain / "sealed-1").iterdir() if "kept" in one.name]
        assert Folder(plain).database == plain / "sealed-1" / "record.sqlcipher"
    hurt.unlink()
    assert convert.unseal(plain).files == 2


def test_a_full_disk_while_it_is_encrypted_leaves_it_as_it_was(
    plain: Path, monkeypatch: pytest.MonkeyPatch
):
    before = all_of(plain)

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("record.log.sealed.write_whole", full)
    with pytest.raises(LogFault, match=r"No space left.*nothing is lost"):
        convert.seal(plain, FIRST)
    assert all_of(plain) == before and not Folder(plain).sealed()


def test_a_plain_record_has_nothing_to_make_plain(plain: Path):
    with pytest.raises(LogFault, match="is not encrypted"):
        convert.unseal(plain)
