"""What the README shows of things that go wrong is what is really said."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.record.archive.conftest import SHEET
from tests.typed import asburied

README = (Path(__file__).parents[3] / "README.md").read_text(encoding="utf-8")
SHOWN = README.partition("## When something goes wrong")[2]


def shown(command: str) -> str:
    """Return what the README shows under a command."""
    (said,) = re.findall(rf"```\n\$ {re.escape(command)}\n(.*?)```", SHOWN, re.DOTALL)
    return str(said).strip()


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("ASBURIED_NOW", "2031-05-02T12:00:00Z")
    plan = SHEET.split("![")[0].replace("fern-bank", "larch-end")
    (tmp_path / "plan.md").write_text(plan, encoding="utf-8")
    assert run("init") == "" and run("post", "plan.md") == ""
    return tmp_path


def run(*words: str, record: str = "larch-end") -> str:
    """Run a command; return what it refuses with, or nothing."""
    done = asburied("--record", record, *words)
    return done.stderr.strip()


def test_a_sheet_that_was_in_already_is_told_and_goes_in_no_second_time(here: Path):
    done = asburied("--record", "larch-end", "post", "plan.md")
    words = shown("asburied post plan.md")
    assert re.sub(r"\d+ entr(y|ies)", "N entries", done.stdout.strip()) == re.sub(
        r"\d+ entr(y|ies)", "N entries", words
    )


def test_a_damaged_bag_is_named_by_its_bad_file(here: Path):
    assert run("pack", "bag") == ""
    lines = here / "bag" / "data" / "contents.jsonl"
    lines.write_bytes(lines.read_bytes().replace(b"bolt", b"peg?"))
    assert run("unpack", "bag", record="again") == shown("asburied --record again unpack bag")
    assert not (here / "again").exists()


def test_another_passphrase_is_said(here: Path, monkeypatch: pytest.MonkeyPatch):
    pytest.importorskip("sqlcipher3")
    for name in ("one", "two"):
        (here / name).write_text(f"{name}\n", encoding="utf-8")
    variable = "ASBURIED_RECORD_PASSPHRASE_FILE"
    made = asburied("--record", "sealed", "init", "--sealed", **{variable: "one"})
    assert made.returncode == 0, made.stderr
    done = asburied("--record", "sealed", "entries", **{variable: "two"})
    words = shown("asburied entries")
    assert done.returncode == 1 and done.stderr.strip() == words.replace("larch-end", "sealed")


def test_a_full_disk_is_said(here: Path):
    """No file may grow past 70 kB, as on a disk that is nearly full."""
    from tests.record.log.test_faults import FULL
    from tests.record.log.test_faults import asburied as limited

    long = "rock " * 30_000
    (here / "long.md").write_text(
        f"# 2031-05-02 of\n\n- site: larch-end\n- zone: UTC\n\n## remark\n\n{long}\n",
        encoding="utf-8",
    )
    done = limited(here / "larch-end", "post", "long.md", before=FULL.format(70_000))
    assert done.returncode == 1 and "nothing was recorded" in done.stderr
    assert "nothing was recorded: the disk is full" in shown("asburied post 2022-05-19-ld.md")


def test_a_bag_and_another_copy_make_a_record_again_and_a_changed_one_is_refused(here: Path):
    import sqlite3

    assert run("pack", "bag") == ""
    (here / "more.md").write_text(
        "# 2031-05-02 of\n\n- site: larch-end\n- zone: UTC\n\n## remark\n\nA stone.\n",
        encoding="utf-8",
    )
    assert run("post", "more.md") == ""
    assert run("unpack", "bag", record="again") == ""
    assert run("merge", "larch-end", record="again") == ""
    done = asburied("--record", "again", "verify")
    assert done.returncode == 0 and "match their seals" in done.stdout
    assert "A stone." in asburied("--record", "again", "entries").stdout
    with sqlite3.connect(here / "larch-end" / "record.sqlite") as vandal:
        vandal.execute("DROP TRIGGER contents_no_update")
        vandal.execute("UPDATE contents SET line = replace(CAST(line AS TEXT), 'stone', 'brick')")
    assert asburied("--record", "larch-end", "verify").returncode == 1
    refused = run("merge", "larch-end", record="again")
    assert "its content line does not give the hash" in refused
