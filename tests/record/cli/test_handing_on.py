"""The house is sold: copies, the new holder, their key, a countersign, and the record goes over."""

import json

import pytest
from typer.testing import CliRunner

from record.cli import app

BUILT = """# 2031-05-01 of

- site: fern-bank
- zone: UTC

## site fern-bank

- name: Fern Bank
- datum: bolt
- grid: x east, y north

## store S-1

- name: behind the larder

## copy handed over fern-bank

- what: owner's manual
- reader: owner
- handed to: ow
- copies: 2
"""
SOLD = """# 2041-05-16 ow

- site: fern-bank
- zone: UTC

## holder changed fern-bank

- from: ow
- to: nw, who bought the house
- day: 2041-05-16
- secrets: S-1, shown and opened together

## copy handed over fern-bank

- what: this record on a stick
- reader: owner
- handed to: nw
- on what: stick
- received by: nw
- when back: n/a, both older copies are shredded
"""


@pytest.fixture
def run(tmp_path, monkeypatch):
    """Run a command as one of three: each has keys of their own, in a folder of their own."""
    monkeypatch.chdir(tmp_path)

    def run(who, day, record, *words, status=0):
        monkeypatch.setenv("ASBURIED_CONFIG", str(tmp_path / f"keys-{who}"))
        monkeypatch.setenv("ASBURIED_NOW", f"{day}T12:00:00Z")
        done = CliRunner().invoke(app, ["--record", record, *words])
        assert done.exit_code == status, done.output
        return done.output

    return run


def sold(run, tmp_path):
    """Walk the sale to the last signature in the former owner's copy, and pack it."""
    (tmp_path / "built.md").write_text(BUILT, encoding="utf-8")
    (tmp_path / "sold.md").write_text(SOLD, encoding="utf-8")
    run("of", "2031-05-02", "old", "init")
    run("of", "2031-05-02", "old", "post", "built.md")
    run("of", "2031-05-02", "old", "writer", "of", "--record")
    before = json.loads(run("of", "2031-05-02", "old", "verify", "--json"))["checkpoint"]
    run("ow", "2041-05-16", "old", "post", "sold.md")
    # From outside the house: the crew's office, by the key that the record knew ten years before.
    run("of", "2041-05-16", "old", "sign-off", "--as", "of", "--for", "ow")
    run("ow", "2041-05-16", "old", "pack", "stick")
    return before


def test_the_new_owner_has_the_whole_history_their_own_key_and_the_outside_countersign(
    run, tmp_path
):
    before = sold(run, tmp_path)
    run("nw", "2041-05-20", "new", "unpack", "stick")
    run("nw", "2041-05-20", "new", "writer", "nw", "--record", "--role", "owner")
    run("nw", "2041-05-20", "new", "sign-off", "--as", "nw", "--for", "ow", "--for", "of")
    told = json.loads(run("nw", "2041-05-21", "new", "verify", "--json"))
    signed = [(one["signer"], one["standing"]) for one in told["signatures"]]
    assert signed == [("of", "good"), ("nw", "good")] and told["sound"] and told["withheld"] == 0
    # It still extends the checkpoint that the first manual carried, ten years before.
    run("nw", "2041-05-21", "new", "verify", "--checkpoint", before)
    listed = run("nw", "2041-05-21", "new", "entries")
    assert listed.count("copy handed over") == 2 and listed.count("holder changed") == 1
    assert "behind the larder" in run("nw", "2041-05-21", "new", "show", "S-1")


def test_what_the_former_owner_writes_afterwards_is_theirs_and_forks_nothing(run, tmp_path):
    """Both go on from the same record; only what is merged reaches the other, under its writer."""
    sold(run, tmp_path)
    run("nw", "2041-05-20", "new", "unpack", "stick")
    said = ("say", "remark", "text=the key hangs by the stove", "--writer", "ow")
    run("ow", "2041-06-01", "old", *said)
    run("nw", "2041-06-02", "new", "say", "remark", "text=found it", "--writer", "nw")
    alone = json.loads(run("nw", "2041-06-02", "new", "verify", "--json"))
    run("nw", "2041-06-03", "new", "merge", "old")
    both = json.loads(run("nw", "2041-06-03", "new", "verify", "--json"))
    assert both["forks"] == [] and both["sound"] and set(both["writers"]) == {"of", "ow", "nw"}
    assert both["writers"]["ow"] == alone["writers"]["ow"] + 2  # the remark, and its sheet


def test_the_secrets_that_went_over_are_told_to_the_new_owner_and_to_no_technician(run, tmp_path):
    sold(run, tmp_path)
    run("nw", "2041-05-20", "new", "unpack", "stick")
    run("nw", "2041-05-20", "new", "pack", "for-the-fitter", "--for", "technician")
    said = b"".join(one.read_bytes() for one in (tmp_path / "for-the-fitter").rglob("*.jsonl"))
    assert b"shown and opened" not in said and b"larder" not in said and b"copy-handed" in said
