"""What a record shows is for its owner's login alone, however open the machine is."""

import os

import pytest
from PIL import Image
from typer.testing import CliRunner

from record.cli import app
from record.log import Log

SHEET = """# 2031-05-01 of

- site: fern-bank
- zone: UTC

## site fern-bank

- name: Fern Bank
- datum: bolt
- grid: x east, y north

## valve CV-1

- type: check
- on run: not recorded

![valve in its box, shows CV-1](valve.png)
"""


@pytest.fixture
def open_machine():
    """A login that keeps nothing from anybody: umask 000."""
    was = os.umask(0)
    yield
    os.umask(was)


@pytest.mark.usefixtures("open_machine")
def test_every_file_of_a_record_and_beside_it_is_for_its_owner_alone(tmp_path, monkeypatch):
    monkeypatch.setenv("ASBURIED_NOW", "2031-05-02T12:00:00Z")
    monkeypatch.setenv("ASBURIED_CONFIG", str(tmp_path / "keys"))
    monkeypatch.chdir(tmp_path)
    Image.new("RGB", (40, 30), "white").save("valve.png")
    (tmp_path / "plan.md").write_text(SHEET, encoding="utf-8")
    (tmp_path / "out").mkdir()
    steps = (
        ("init",),
        ("post", "plan.md"),
        ("show", "CV-1"),
        ("writer", "of", "--record"),
        ("pack", "out/bag"),
        ("pack", "out/bag.tar"),
    )
    for words in steps:
        done = CliRunner().invoke(app, ["--record", "fern-bank", *words])
        assert done.exit_code == 0, done.output
    with Log.open(tmp_path / "fern-bank") as log:
        log.files.keep("editions", b"a manual", ".pdf")
    made = [tmp_path / "fern-bank", tmp_path / "keys"]
    made += [one for top in ("fern-bank", "keys", "out") for one in (tmp_path / top).rglob("*")]
    names = {one.name for one in made}
    assert {"record.sqlite", "index.cache", "photos", "editions", "of.pem", "bag.tar"} <= names
    assert [str(one) for one in made if one.stat().st_mode & 0o077] == []
