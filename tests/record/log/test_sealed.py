"""An encrypted record keeps what a plain one does, and shows whoever lacks the words nothing."""

from __future__ import annotations

import hashlib
import hmac
import os
import shutil
import signal
import sqlite3
import subprocess
import sys
import textwrap
import time
from pathlib import Path

import pytest
import sqlcipher3
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.ciphers.aead import AESGCM
from cryptography.hazmat.primitives.kdf.hkdf import HKDFExpand

from record.log import Locked, Log, LogFault, NoWords, verify
from record.log.kept import missing_files
from record.secret import Words, asking
from tests.record.records import SITE, Tablet, post_text, sheet

WORDS = "seven dry öaks"
PHOTO = b"\xff\xd8 the way out behind the larder \xff\xd9"
CANARIES = (b"Fern Bank", b"fern-bank", b"quicksilver", PHOTO, b"links", b"sheet-posted")


def by(words: str) -> Words:
    return Words(lambda _: iter([words]))


@pytest.fixture(autouse=True)
def _nobody_is_asked():
    """A command that ran in this process before may have said how to ask."""
    asking(None)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    path = tmp_path / "fern"
    with Log.make(path, sealed_with=WORDS) as log:
        post_text(log, SITE)
        post_text(log, sheet("## remark\n\nA quicksilver fox."))
        log.files.keep("photos", PHOTO, ".jpg")
    return path


def database(folder: Path) -> Path:
    return folder / "sealed-1" / "record.sqlcipher"


def test_what_was_written_comes_back_by_the_passphrase(folder: Path):
    with Log.open(folder, by(WORDS)) as log:
        assert verify(log.lines()).sound and len(log.entries()) == 4
        assert missing_files(log.files, log.entries()) == ()
        found = log.files.found("photos", hashlib.sha256(PHOTO).hexdigest())
        assert found is not None and (found.data, found.suffix) == (PHOTO, ".jpg")
        assert log.files.found("sheets", hashlib.sha256(PHOTO).hexdigest()) is None


def test_no_byte_of_it_lies_open_at_rest_or_while_it_is_written(folder: Path):
    def shown() -> list[tuple[str, bytes]]:
        files = [each for each in folder.rglob("*") if each.is_file()]
        assert len(files) >= 4
        data = [(each.name, each.read_bytes()) for each in files]
        return [(n, c) for n, d in data for c in CANARIES if c in d or c.decode("latin") in n]

    assert shown() == []
    with Log.open(folder, by(WORDS)) as log:
        with log.writing() as writing:
            entry = Tablet("ck").says("remark", "fern-bank", {"text": "quicksilver again"})
            writing.append([entry], received="2031-06-01T12:00:00Z")
            assert shown() == []
        held = log.engine.connect()  # the write-ahead log is there while somebody reads
        held.exec_driver_sql("SELECT * FROM links").all()
        post_text(log, sheet("## remark\n\nquicksilver, a third time.", part="b"))
        names = {each.name for each in (folder / "sealed-1").iterdir()}
        assert {"record.sqlcipher-wal", "record.sqlcipher-shm"} <= names
        assert shown() == []
        held.close()
    assert shown() == []
    assert [str(one) for one in folder.rglob("*") if one.stat().st_mode & 0o077] == []


def test_another_passphrase_is_said_and_never_told(folder: Path, capfd):
    before = database(folder).read_bytes()
    with pytest.raises(Locked, match="does not open: the passphrase is another") as fault:
        Log.open(folder, by("nine wet elms"))
    assert "elms" not in str(fault.value) and "oaks" not in str(fault.value)
    with pytest.raises(NoWords, match="no passphrase was given: nobody was there to ask"):
        Log.open(folder)
    with pytest.raises(NoWords):
        Log.open(folder, by("  "))
    assert capfd.readouterr() == ("", "")
    assert database(folder).read_bytes() == before


def test_a_passphrase_is_the_same_however_its_letters_are_composed(folder: Path):
    with Log.open(folder, by("seven dry o\u0308aks")) as log:
        assert len(log.entries()) == 4


def test_the_key_is_worked_out_once_a_command(folder: Path, monkeypatch: pytest.MonkeyPatch):
    worked = []
    sum_ = hashlib.pbkdf2_hmac
    monkeypatch.setattr(hashlib, "pbkdf2_hmac", lambda *a: worked.append(a) or sum_(*a))
    words = by(WORDS)
    for _ in range(3):
        with Log.open(folder, words) as log:
            log.entries()
    assert len(worked) == 1


def test_a_file_cut_short_or_changed_is_said_in_words(folder: Path):
    whole = database(folder).read_bytes()
    for cut in (0, 15, 4095, 5000):
        database(folder).write_bytes(whole[:cut])
        with pytest.raises(LogFault, match="cut short"):
            Log.open(folder, by(WORDS))
    for changed in (whole[:4096], whole[:8192], whole[:20] + bytes(1) + whole[21:]):
        database(folder).write_bytes(changed)
        with pytest.raises(LogFault, match=r"cut short|damaged"):
            list(Log.open(folder, by(WORDS)).lines())
    for page in range(1, len(whole) // 4096):
        at = page * 4096 + 77
        database(folder).write_bytes(whole[:at] + bytes([whole[at] ^ 1]) + whole[at + 1 :])
        try:
            with Log.open(folder, by(WORDS)) as log:
                lines = list(log.lines())
        except LogFault as fault:
            assert "damaged" in str(fault), fault
        else:  # a page of an index: nothing that was asked for lay on it
            assert verify(lines).sound and len(lines) == 4
    database(folder).write_bytes(whole)
    with Log.open(folder, by(WORDS)) as log:
        assert len(log.entries()) == 4


def test_a_kept_file_that_was_changed_or_swapped_is_not_what_its_name_says(folder: Path):
    with Log.open(folder, by(WORDS)) as log:
        entries = log.entries()
        kept = sorted((folder / "sealed-1" / "kept").iterdir())
        first, second = (each.read_bytes() for each in kept[:2])
        kept[0].write_bytes(second), kept[1].write_bytes(first)
        faults = missing_files(log.files, entries)
        assert faults and all("was changed" in words for _, words in faults)
        kept[0].write_bytes(first[:-3]), kept[1].write_bytes(second[:-3])
        assert len(missing_files(log.files, entries)) == len(faults)


def test_plain_sqlite_makes_nothing_of_it(folder: Path):
    with pytest.raises(sqlite3.DatabaseError, match="not a database"):
        sqlite3.connect(database(folder)).execute("SELECT * FROM links")


def test_sqlcipher_opens_it_without_this_program_by_what_the_page_for_developers_says(
    folder: Path,
):
    connection = sqlcipher3.connect(str(database(folder)))
    connection.execute(f"PRAGMA key = '{WORDS}'")
    for setting in (
        "cipher_page_size = 4096",
        "kdf_iter = 256000",
        "cipher_hmac_algorithm = HMAC_SHA512",
        "cipher_kdf_algorithm = PBKDF2_HMAC_SHA512",
    ):
        connection.execute(f"PRAGMA {setting}")
    lines = [bytes(row[0]) for row in connection.execute("SELECT line FROM links ORDER BY seq")]
    (key,) = connection.execute("SELECT key FROM kept_key").fetchone()
    connection.close()
    assert len(lines) == 4 and lines[0].startswith(b'{"site":"fern-bank"')
    assert len(key) == 32


def test_without_sqlcipher_too_all_of_it_opens_by_the_lines_that_lie_beside_it(
    folder: Path, tmp_path: Path
):
    """
    They work with PBKDF2 (RFC 8018), AES-256-CBC (NIST SP 800-38A) and GCM (SP 800-38D) alone, page
    by page as SQLCipher 4 lays it out: 16 bytes of salt at the start, 16 of IV and 64 of HMAC
    ending a page.
    """
    page = (folder / "sealed-1" / "README.txt").read_text(encoding="utf-8")
    _, found, program = page.partition("    import getpass")
    done = subprocess.run(
        [sys.executable, "-W", "ignore", "-c", textwrap.dedent(found + program)],
        cwd=folder / "sealed-1",
        input=WORDS + "\n",
        capture_output=True,
        text=True,
    )
    assert done.returncode == 0, done.stderr
    with (
        Log.open(folder, by(WORDS)) as sealed,
        Log.open(folder / "sealed-1" / "opened") as plain,
    ):
        assert list(plain.lines()) == list(sealed.lines())
        assert missing_files(plain.files, plain.entries()) == ()
        found_again = plain.files.found("photos", hashlib.sha256(PHOTO).hexdigest())
        assert found_again is not None and found_again.data == PHOTO


def test_two_records_of_one_passphrase_and_one_photo_have_nothing_in_common(
    folder: Path, tmp_path: Path
):
    with Log.make(tmp_path / "gorse", sealed_with=WORDS) as log:
        log.files.keep("photos", PHOTO, ".jpg")
    mine, other = (
        {each.name: each.read_bytes() for each in path.rglob("*") if each.is_file()}
        for path in (folder, tmp_path / "gorse")
    )
    assert mine.keys() & other.keys() == {"record.sqlcipher", "README.txt"}
    assert mine["record.sqlcipher"][:16] != other["record.sqlcipher"][:16]


def test_a_process_killed_while_it_posts_leaves_a_whole_record(folder: Path):
    """Six kills without warning; what was told is there, and no sheet is there in part."""
    steady = (
        "import sys\nfrom pathlib import Path\nfrom record.log import Log\n"
        "from record.secret import Words\nfrom tests.record.records import post_text, sheet\n"
        "words = Words(lambda _: iter([sys.argv[3]]))\n"
        "with Log.open(Path(sys.argv[1]), words) as log:\n"
        "    for n in range(10_000):\n"
        "        words = '\\n\\n'.join(f'quicksilver {sys.argv[2]} {n} {m}' for m in range(30))\n"
        "        post_text(log, sheet(f'## remark\\n\\n{words}', part=f'k{sys.argv[2]}-{n}'))\n"
        "        print(n, flush=True)\n"
    )
    told = 0
    for turn in range(6):
        process = subprocess.Popen(
            [sys.executable, "-c", steady, str(folder), str(turn), WORDS],
            env={**os.environ, "PYTHONPATH": str(Path(__file__).parents[3])},
            stdout=subprocess.PIPE,
            text=True,
        )
        assert process.stdout is not None and process.stdout.readline() == "0\n"
        time.sleep(0.02 * turn)
        process.send_signal(signal.SIGKILL)
        told += 1 + len(process.stdout.read().splitlines())
        process.wait()
        process.stdout.close()
        assert [
            c for c in CANARIES for f in folder.rglob("*") if f.is_file() and c in f.read_bytes()
        ] == []
    with Log.open(folder, by(WORDS)) as log:
        assert verify(log.lines()).sound
        sheets = [e for e in log.entries() if e.content and e.content.kind == "sheet-posted"]
        assert len(sheets) - 2 >= told >= 6
        assert len(log.entries()) == 4 + 31 * (len(sheets) - 2)


def test_the_database_refuses_to_change_the_past_here_too(folder: Path):
    with (
        Log.open(folder, by(WORDS)) as log,
        pytest.raises(LogFault, match="never changed"),
        log.writing() as writing,
    ):
        writing._connection.exec_driver_sql("UPDATE links SET line = 'changed'")


def test_a_second_record_is_not_made_over_it(folder: Path):
    for words in (None, "others"):
        with pytest.raises(LogFault, match="holds a record already"):
            Log.make(folder, sealed_with=words)
    assert sorted(each.name for each in folder.iterdir()) == ["sealed-1"]


def test_a_copy_of_its_folder_is_the_record(folder: Path, tmp_path: Path):
    shutil.copytree(folder, tmp_path / "copy")
    with Log.open(tmp_path / "copy", by(WORDS)) as log:
        assert verify(log.lines()).sound and missing_files(log.files, log.entries()) == ()


def test_on_a_disc_that_cannot_be_written_it_is_read(folder: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(os, "access", lambda *_: False)
    with Log.open(folder, by(WORDS)) as log:
        assert len(log.entries()) == 4
        with pytest.raises(LogFault, match="cannot be written"), log.writing() as writing:
            writing.append(log.entries()[:1], received="")
    names = {each.name for each in (folder / "sealed-1").iterdir()}
    assert names == {"record.sqlcipher", "kept", "README.txt"}


def test_without_the_library_one_sentence_says_what_to_install(
    folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.setitem(sys.modules, "sqlcipher3", None)
    for work in (
        lambda: Log.open(folder, by(WORDS)),
        lambda: Log.make(tmp_path / "new", sealed_with=WORDS),
    ):
        with pytest.raises(LogFault, match=r"pip install 'asburied\[sealed\]'"):
            work()
    assert list((tmp_path / "new").iterdir()) == []


def test_opening_a_plain_record_loads_nothing_that_encrypts(tmp_path: Path):
    Log.make(tmp_path / "plain").close()
    program = (
        "import sys\nfrom pathlib import Path\nfrom record.log import Log\n"
        "with Log.open(Path('plain')) as log: log.entries()\n"
        "print([m for m in sys.modules if m.startswith(('sqlcipher3', 'cryptography'))])"
    )
    done = subprocess.run(
        [sys.executable, "-c", program], cwd=tmp_path, capture_output=True, text=True, check=True,
        env={**os.environ, "PYTHONPATH": str(Path(__file__).parents[3])},
    )  # fmt: skip
    assert done.stdout == "[]\n"


def test_a_record_encrypted_by_the_first_version_opens_ever_after(tmp_path: Path):
    """Its files were written in 2026 and never again; here, and by SQLCipher and AES-GCM alone."""
    shutil.copytree(Path(__file__).parent / "sealed_2026", tmp_path / "old")
    sha256 = hashlib.sha256(b"a picture of the larder").hexdigest()
    with Log.open(tmp_path / "old", by("seven dry oaks")) as log:
        assert verify(log.lines()).sound and missing_files(log.files, log.entries()) == ()
        found = log.files.found("photos", sha256)
        assert found is not None and found.data == b"a picture of the larder"
    connection = sqlcipher3.connect(str(database(tmp_path / "old")))
    connection.execute("PRAGMA key = 'seven dry oaks'")
    connection.execute("PRAGMA cipher_page_size = 4096")
    connection.execute("PRAGMA kdf_iter = 256000")
    connection.execute("PRAGMA cipher_hmac_algorithm = HMAC_SHA512")
    connection.execute("PRAGMA cipher_kdf_algorithm = PBKDF2_HMAC_SHA512")
    assert connection.execute("SELECT count(*) FROM links").fetchone() == (2,)
    (key,) = connection.execute("SELECT key FROM kept_key").fetchone()
    connection.close()
    names, files = (
        HKDFExpand(hashes.SHA256(), 32, use).derive(key)
        for use in (b"asburied names", b"asburied files")
    )
    name = hmac.new(names, f"photos/{sha256}".encode(), "sha256").hexdigest()
    kept = (tmp_path / "old" / "sealed-1" / "kept" / name).read_bytes()
    inside = AESGCM(files).decrypt(kept[16:28], kept[28:], name.encode())
    assert kept[:16] == b"asburied kept 1\n"
    assert inside == f"photos/{sha256}.jpg\n".encode() + b"a picture of the larder"
