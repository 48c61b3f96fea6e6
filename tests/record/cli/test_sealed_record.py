"""An encrypted record is worked with as a plain one is, and leaves nothing open on the disk."""

import json
import os
import subprocess
import sys

import pytest
from PIL import Image
from typer.testing import CliRunner

from record.cli import Refused, app
from record.cli.app import RECORD_VARIABLE
from record.log import Locked, LogFault, NotARecord
from record.log.folder import CACHES
from tests.record.cli.test_no_network import COMMANDS
from tests.record.cli.test_owner_only import SHEET
from tests.typed import asburied

WORDS = "seven dry oaks"
SECRETS = (b"ZQ-77", b"fern-bank", b"Fern Bank", b"quicksilver")
PLAN = SHEET.replace("CV-1", "ZQ-77") + "\n## remark\n\nA quicksilver fox.\n\nBy the larder.\n"
WALK = [
    *(words for words in COMMANDS[1:] if words != ["unseal"]),
    ["say", "remark", "fern-bank", "text=quicksilver", "--writer", "ld"],
]


@pytest.fixture
def here(tmp_path, monkeypatch):
    """Run a command on a record, ``fb`` unless another is named, in a home of its own."""
    for name in ("XDG_STATE_HOME", "XDG_CACHE_HOME", "XDG_CONFIG_HOME", "HOME", "TMPDIR"):
        (tmp_path / "home" / name).mkdir(parents=True)
        monkeypatch.setenv(name, str(tmp_path / "home" / name))
    monkeypatch.setenv("ASBURIED_NOW", "2031-10-20T12:00:00Z")
    monkeypatch.setenv(RECORD_VARIABLE, "words.txt")
    monkeypatch.chdir(tmp_path)
    (tmp_path / "words.txt").write_text(WORDS + "\n", encoding="utf-8")
    (tmp_path / "sites").mkdir()
    Image.effect_noise((60, 40), 90).save("valve.png")
    (tmp_path / "plan.md").write_text(PLAN, encoding="utf-8")

    def run(*words, record="fb", status=0):
        place = f"sites/{record}" if record else "sites"
        monkeypatch.setattr(sys, "argv", ["asburied", "--record", place, *words])
        done = CliRunner().invoke(app, sys.argv[1:])
        if status is None:
            return done.output
        if done.exception is not None and not isinstance(done.exception, SystemExit):
            raise done.exception
        assert done.exit_code == status, done.output
        return done.output

    return run


def open_in(tmp_path):
    """Return which of the secrets lie open in a file of the record, or beside it, or its name."""
    picture = (tmp_path / "valve.png").read_bytes()[200:260]
    assert len(picture) == 60
    places = [tmp_path / "sites", tmp_path / "home"]
    files = [one for place in places for one in place.rglob("*") if one.is_file()]
    found = []
    for one in files:
        data = one.read_bytes()
        found += [(str(one), s) for s in (*SECRETS, picture) if s in data or s in one.name.encode()]
    return found


def test_no_command_leaves_a_word_or_a_picture_of_it_open_on_the_disk(here, tmp_path):
    here("init", "--sealed")
    done = {}
    for words in WALK:
        words = ["ZQ-77" if word == "CV-1" else word for word in words]
        done[words[0]] = here(*words, status=None)
        assert open_in(tmp_path) == [], words
    assert "zq-77" in done["show"].lower() and "quicksilver" in done["entries"]
    assert "match their seals" in done["verify"]
    names = {one.name for one in (tmp_path / "sites" / "fb" / "sealed-1").iterdir()}
    assert "index.cache" in names and names - {*CACHES, "README.txt"} == {
        "record.sqlcipher",
        "kept",
    }
    assert (tmp_path / "out").is_dir() and (tmp_path / "bag" / "data" / "photos").is_dir()
    assert len(list((tmp_path / "sites" / "fb" / "sealed-1" / "kept").iterdir())) >= 7


def test_what_looks_for_open_words_does_see_them_in_a_plain_record(here, tmp_path):
    here("init")
    here("post", "plan.md")
    here("show", "ZQ-77")
    found = open_in(tmp_path)
    assert {secret for _, secret in found} >= set(SECRETS)
    assert any("photos" in name for name, secret in found if secret not in SECRETS)


def test_a_recall_over_many_skips_what_it_has_no_words_for_and_rules_nothing_out_there(
    here, tmp_path, monkeypatch
):
    here("init", "--sealed")
    here("post", "plan.md")
    here("init", record="plain")
    (tmp_path / "other.md").write_text(SHEET.replace("fern-bank", "gorse"), encoding="utf-8")
    here("post", "other.md", record="plain")
    asked = ("recall", "V-1", "--kind", "valve", "--json")
    both = json.loads(here(*asked, record="", status=1))
    assert both["looked_at"] == 2 and both["not_read"] == []
    assert [one["site"] for one in both["not_recorded"]] == ["fern-bank", "gorse"]
    assert json.loads(here(*asked, record="", status=1)) == both
    monkeypatch.delenv(RECORD_VARIABLE)
    one = json.loads(here(*asked, record="", status=1))
    assert one["looked_at"] == 1 and len(one["not_read"]) == 1
    assert "sites/fb is encrypted, and no passphrase was given" in one["not_read"][0]
    said = here("recall", "V-1", "--kind", "valve", record="", status=1)
    assert "NOT READ: fb:" in said and "What was not read cannot be ruled out." in said


def test_what_a_recall_keeps_of_an_encrypted_record_lies_in_it_and_is_encrypted(here, tmp_path):
    here("init", "--sealed")
    here("post", "plan.md")
    for one in (tmp_path / "sites").rglob("record.sqlcipher"):
        os.utime(one, (1e9, 1e9))  # written long ago: it may be kept
    asked = ("recall", "V-1", "--kind", "valve", "--json")
    first = here(*asked, record="", status=1)
    kept = tmp_path / "sites" / "fb" / "sealed-1" / "recall.kept"
    names, pieces = sorted(kept.iterdir())
    assert (names.suffix, pieces.suffix) == (".names", ".pieces")
    assert here(*asked, record="", status=1) == first
    assert open_in(tmp_path) == []
    pieces.write_bytes(pieces.read_bytes()[::-1])
    assert here(*asked, record="", status=1) == first


def test_what_a_recall_kept_before_a_record_was_encrypted_is_taken_away(here, tmp_path):
    here("init")
    here("post", "plan.md")
    os.utime(tmp_path / "sites" / "fb" / "record.sqlite", (1e9, 1e9))
    here("recall", "V-1", "--kind", "valve", record="", status=1)
    kept = tmp_path / "sites" / "recall.kept"
    assert len([*kept.iterdir()]) == 2
    here("init", "--sealed", record="sealed")
    here("post", "plan.md", record="sealed")
    (tmp_path / "sites" / "fb").rename(tmp_path / "plain")
    (tmp_path / "sites" / "sealed").rename(tmp_path / "sites" / "fb")
    here("recall", "V-1", "--kind", "valve", record="", status=1)
    assert [*kept.iterdir()] == []


def test_the_words_come_from_a_file_or_a_descriptor_and_are_asked_for_once(here, monkeypatch):
    here("init", "--sealed")
    monkeypatch.setenv("ASBURIED_NOW", "2031-10-20T12:00:00Z")
    place, words = "sites/fb", ("post", "plan.md")
    reading, writing = os.pipe()
    os.write(writing, f"{WORDS}\n".encode())
    os.close(writing)
    done = asburied("--record", place, *words, **{RECORD_VARIABLE: "words.txt"})
    assert (done.returncode, done.stderr) == (0, "")
    program = "from manual.cli import main; main()"
    done = subprocess.run(
        [sys.executable, "-c", program, "--record", place, "show", "ZQ-77"],
        env={**os.environ, RECORD_VARIABLE: f"/dev/fd/{reading}"},
        pass_fds=[reading],
        capture_output=True,
        text=True,
    )
    os.close(reading)
    assert (done.returncode, done.stderr) == (0, "") and "ZQ-77" in done.stdout


def test_on_a_terminal_it_is_asked_for_once_a_command_and_twice_for_a_new_record(here, monkeypatch):
    monkeypatch.delenv(RECORD_VARIABLE)
    asked = []
    monkeypatch.setattr("record.cli.passphrase.on_terminal", lambda: True)
    monkeypatch.setattr("getpass.getpass", lambda prompt: asked.append(prompt) or WORDS)
    here("init", "--sealed")
    assert asked == ["New passphrase of the record: ", "The same again: "]
    asked.clear()
    here("post", "plan.md")
    here("verify")
    assert asked == ["Passphrase of sites/fb: "] * 2
    here("init", "--sealed", record="other")
    asked.clear()
    here("merge", "sites/fb", record="other")
    assert asked == ["Passphrase of sites/fb: "]


def test_another_passphrase_and_nobody_to_ask_are_told_and_nothing_is_changed(here, tmp_path):
    here("init", "--sealed")
    before = (tmp_path / "sites" / "fb" / "sealed-1" / "record.sqlcipher").read_bytes()
    (tmp_path / "wrong.txt").write_text("nine wet elms\n", encoding="utf-8")
    for named, status, said in (
        ("wrong.txt", 1, "the passphrase is another"),
        ("", 2, "no passphrase was given: put it"),
        ("nowhere.txt", 2, "nowhere.txt cannot be read"),
    ):
        for words in (["show", "ZQ-77"], ["post", "plan.md"], ["verify"], ["pack", "bag"]):
            done = asburied("--record", "sites/fb", *words, **{RECORD_VARIABLE: named})
            assert (done.returncode, done.stdout) == (status, ""), done
            assert said in done.stderr and "elms" not in done.stderr
            assert len(done.stderr.splitlines()) == 1
    assert (tmp_path / "sites" / "fb" / "sealed-1" / "record.sqlcipher").read_bytes() == before
    assert not (tmp_path / "bag").exists()


def test_an_empty_passphrase_and_a_database_are_refused(here, tmp_path):
    (tmp_path / "words.txt").write_text("\n", encoding="utf-8")
    with pytest.raises(Refused, match="passphrase is empty"):
        here("init", "--sealed")
    assert not (tmp_path / "sites" / "fb").exists()
    with pytest.raises(Refused, match="encrypt the server's disk"):
        here("init", "--sealed", "--office", "postgresql://db.example/asburied")


def test_a_record_is_encrypted_asked_given_another_passphrase_and_made_plain_again(here, tmp_path):
    here("init")
    here("post", "plan.md")
    before = here("show", "ZQ-77"), here("entries")
    assert open_in(tmp_path)
    said = here("seal")
    assert "is encrypted: 6 entries, 2 kept files." in said and "lost is lost for good" in said
    assert "files of it that lay open" in said
    assert open_in(tmp_path) == []
    assert (here("show", "ZQ-77"), here("entries")) == before
    assert "is encrypted already" in here("seal")
    (tmp_path / "new.txt").write_text("nine wet elms\n", encoding="utf-8")
    assert "is encrypted anew" in here("seal", "--change", "--new-passphrase-file", "new.txt")
    with pytest.raises(Locked, match="the passphrase is another"):
        here("show", "ZQ-77")
    (tmp_path / "new.txt").rename("words.txt")
    assert (here("show", "ZQ-77"), here("entries")) == before and open_in(tmp_path) == []
    assert json.loads(here("unseal", "--json"))["entries"] == 6
    (tmp_path / "words.txt").unlink()
    assert (here("show", "ZQ-77"), here("entries")) == before


def test_what_a_recall_kept_of_a_record_while_it_was_plain_goes_when_it_is_encrypted(
    here, tmp_path
):
    here("init")
    here("post", "plan.md")
    os.utime(tmp_path / "sites" / "fb" / "record.sqlite", (1e9, 1e9))
    kept = [tmp_path / "sites" / "recall.kept", tmp_path / "sites" / "fb" / "recall.kept"]
    for asked in ("", "fb"):
        here("recall", "V-1", "--kind", "valve", record=asked, status=1)
    assert [len([*one.iterdir()]) for one in kept] == [2, 2]
    here("seal")
    assert [*kept[0].iterdir()] == [] and not kept[1].exists()
    for asked in ("", "fb"):
        here("recall", "V-1", "--kind", "valve", record=asked, status=1)
    assert open_in(tmp_path) == []


def test_files_left_open_by_a_conversion_cut_short_are_told_at_each_opening(here, tmp_path, capsys):
    here("init")
    here("post", "plan.md")
    data = (tmp_path / "sites" / "fb" / "record.sqlite").read_bytes()
    here("seal")
    (tmp_path / "sites" / "fb" / "record.sqlite").write_bytes(data)
    done = asburied("--record", "sites/fb", "show", "ZQ-77")
    assert done.returncode == 0 and "`asburied --record sites/fb seal` removes them" in done.stderr
    assert "Removed: 1 files" in here("seal")
    done = asburied("--record", "sites/fb", "show", "ZQ-77")
    assert (done.returncode, done.stderr) == (0, "") and open_in(tmp_path) == []


def test_the_old_passphrase_is_asked_for_before_the_new_and_no_slip_is_taken(
    here, monkeypatch, tmp_path
):
    here("init", "--sealed")
    monkeypatch.delenv(RECORD_VARIABLE)
    monkeypatch.setattr("record.cli.passphrase.on_terminal", lambda: True)
    asked, answers = [], iter([WORDS, "nine wet elms", "nine wet helms"])
    monkeypatch.setattr("getpass.getpass", lambda prompt: asked.append(prompt) or next(answers))
    with pytest.raises(Refused, match="the two are not the same"):
        here("seal", "--change")
    assert asked == [
        "Passphrase of sites/fb: ",
        "New passphrase of the record: ",
        "The same again: ",
    ]
    assert [one.name for one in (tmp_path / "sites" / "fb").iterdir()] == ["sealed-1"]


def test_what_cannot_be_encrypted_is_said(here):
    with pytest.raises(NotARecord):
        here("seal")
    here("init")
    with pytest.raises(Refused, match="it has no passphrase to change"):
        here("seal", "--change")
    with pytest.raises(Refused, match="goes with --change"):
        here("seal", "--new-passphrase-file", "words.txt")
    with pytest.raises(LogFault, match="is not encrypted"):
        here("unseal")
    for words in ("seal", "unseal"):
        done = asburied("--record", "postgresql://db.example/asburied#fb", words)
        assert done.returncode == 2 and "encrypt the server's disk" in done.stderr


def test_a_bag_of_an_encrypted_record_is_said_to_lie_open_unless_it_is_sealed(here):
    here("init", "--sealed")
    here("post", "plan.md")
    assert "the record is encrypted, and this bag is not" in here("pack", "bag")


def test_a_bag_of_it_is_sealed_with_words_of_its_own(here, tmp_path, monkeypatch):
    monkeypatch.delenv("ASBURIED_PASSPHRASE", raising=False)
    here("init", "--sealed")
    here("post", "plan.md")
    with pytest.raises(Refused, match="say where the passphrase is"):
        here("pack", "bag.age", "--sealed")
    (tmp_path / "bag.txt").write_text("of the bag\n", encoding="utf-8")
    said = here("pack", "bag.age", "--sealed", "--passphrase-file", "bag.txt")
    assert "this bag is not" not in said
    with pytest.raises(Refused, match="the passphrase is another"):
        here("unpack", "bag.age", "--passphrase-file", "words.txt", record="again")
    here("unpack", "bag.age", "--passphrase-file", "bag.txt", record="again")
    here("merge", "sites/again")


def test_two_who_encrypt_it_at_once_leave_it_encrypted_once(here, tmp_path):
    here("init")
    here("post", "plan.md")
    program = "from manual.cli import main; main()"
    both = [
        subprocess.Popen(
            [sys.executable, "-c", program, "--record", "sites/fb", "seal"],
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
        )
        for _ in range(2)
    ]
    told = [(*one.communicate(), one.returncode) for one in both]
    assert 0 in {code for *_, code in told}
    for _, errors, code in told:
        assert code == 0 or "meanwhile" in errors or "nothing is lost" in errors, told
    here("seal")
    assert [one.name for one in (tmp_path / "sites" / "fb").iterdir()] == ["sealed-1"]
    assert open_in(tmp_path) == [] and "All 6 entries match" in here("verify")
