"""A sealed bag opens for whoever has the words or the key, and tells nobody else anything."""

import sys

import pyrage
import pytest

from record.cli import Refused
from record.log import LogFault
from tests.record.archive.test_pack import lines_of

WORDS = "seven dry oaks"


@pytest.fixture
def words(tmp_path, monkeypatch):
    monkeypatch.delenv("ASBURIED_PASSPHRASE", raising=False)
    (tmp_path / "words.txt").write_text(WORDS + "\n", encoding="utf-8")
    return ("--passphrase-file", "words.txt")


def test_a_bag_sealed_with_a_passphrase_is_restored_by_it(here, tmp_path, words, monkeypatch):
    here("pack", "bag.age", "--sealed", *words)
    data = (tmp_path / "bag.age").read_bytes()
    assert (tmp_path / "bag.age").stat().st_mode & 0o777 == 0o600
    assert b"marmalade" not in data and b"links.jsonl" not in data
    monkeypatch.setenv("ASBURIED_PASSPHRASE", WORDS)
    here("unpack", "bag.age", record="again")
    assert lines_of(tmp_path / "again") == lines_of(tmp_path / "fern-bank")


def test_what_it_seals_is_a_plain_age_file_that_other_programs_open(here, tmp_path, words):
    """The header is of the published format: age-encryption.org/v1, scrypt, one stanza alone."""
    here("pack", "bag.age", "--sealed", *words)
    here("pack", "bag.tar")
    data = (tmp_path / "bag.age").read_bytes()
    assert data.startswith(b"age-encryption.org/v1\n-> scrypt ")
    assert pyrage.passphrase.decrypt(data, WORDS) == (tmp_path / "bag.tar").read_bytes()


def test_another_passphrase_a_changed_and_a_cut_file_are_said_and_leave_nothing(
    here,
    tmp_path,
    words,
    monkeypatch,
):
    here("pack", "bag.age", "--sealed", *words)
    data = (tmp_path / "bag.age").read_bytes()
    (tmp_path / "changed.age").write_bytes(data[:-40] + bytes([data[-40] ^ 1]) + data[-39:])
    (tmp_path / "cut.age").write_bytes(data[:-3000])
    before = sorted(one.name for one in tmp_path.iterdir())
    for name, said in (("bag", "other words"), ("changed", WORDS), ("cut", WORDS)):
        monkeypatch.setenv("ASBURIED_PASSPHRASE", said)
        with pytest.raises(Refused, match=r"does not open.*nothing was restored") as fault:
            here("unpack", f"{name}.age", record="again")
        assert said not in str(fault.value)
    assert sorted(one.name for one in tmp_path.iterdir()) == before


def test_a_bag_sealed_for_two_keys_opens_by_either_and_by_no_third(here, tmp_path):
    keys = [pyrage.x25519.Identity.generate() for _ in range(3)]
    for number, key in enumerate(keys):
        (tmp_path / f"key-{number}.txt").write_text(f"# a key\n{key}\n", encoding="utf-8")
    to = [word for key in keys[:2] for word in ("--recipient", str(key.to_public()))]
    here("pack", "bag.age", "--sealed", *to)
    for number in (0, 1):
        here("unpack", "bag.age", "--identity", f"key-{number}.txt", record=f"again-{number}")
        assert lines_of(tmp_path / f"again-{number}") == lines_of(tmp_path / "fern-bank")
    with pytest.raises(Refused, match="was not sealed for the key"):
        here("unpack", "bag.age", "--identity", "key-2.txt", record="again-2")
    with pytest.raises(Refused, match="name its file: --identity"):
        here("unpack", "bag.age", record="again-2")
    assert not (tmp_path / "again-2").exists()


def test_a_key_with_a_slip_in_it_is_never_told(here, tmp_path):
    key = pyrage.x25519.Identity.generate()
    here("pack", "bag.age", "--sealed", "--recipient", str(key.to_public()))
    (tmp_path / "key.txt").write_text(str(key)[:-1], encoding="utf-8")
    with pytest.raises(Refused, match="holds no key of age") as fault:
        here("unpack", "bag.age", "--identity", "key.txt", record="again")
    assert str(key)[15:40] not in str(fault.value)
    with pytest.raises(LogFault, match="begins with age1"):
        here("pack", "other.age", "--sealed", "--recipient", "me@example.org")


def test_nobody_to_ask_for_a_passphrase_is_said_before_anything_is_written(here, tmp_path, words):
    with pytest.raises(Refused, match="--passphrase-file FILE"):
        here("pack", "bag.age", "--sealed")
    (tmp_path / "words.txt").write_text("\n", encoding="utf-8")
    with pytest.raises(Refused, match="passphrase is empty"):
        here("pack", "bag.age", "--sealed", *words)
    with pytest.raises(Refused, match="add --sealed"):
        here("pack", "bag", *words)
    assert not list(tmp_path.glob("bag*"))


def test_without_the_library_one_sentence_says_what_to_install(here, tmp_path, words, monkeypatch):
    monkeypatch.setitem(sys.modules, "pyrage", None)
    with pytest.raises(LogFault, match=r"pip install 'asburied\[sealed\]'"):
        here("pack", "bag.age", "--sealed", *words)
    assert not (tmp_path / "bag.age").exists()
