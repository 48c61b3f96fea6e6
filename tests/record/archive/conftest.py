"""A record of one sheet, with a picture and a secret, and the command to work on it."""

import pytest
from PIL import Image
from typer.testing import CliRunner

from record.cli import app

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

![wide, looking north, valve in its box, shows CV-1](valve.png)

## store S-1

- name: the larder under the stair

| item | what |
|---|---|
| 1 | marmalade |
"""


@pytest.fixture
def here(tmp_path, monkeypatch):
    """Run the command in a folder with a record of one sheet, a picture and a secret."""
    monkeypatch.setenv("ASBURIED_NOW", "2031-05-02T12:00:00Z")
    monkeypatch.chdir(tmp_path)
    Image.new("RGB", (40, 30), "white").save("valve.png")
    (tmp_path / "plan.md").write_text(SHEET, encoding="utf-8")

    def run(*words, record="fern-bank"):
        done = CliRunner().invoke(app, ["--record", record, *words], catch_exceptions=True)
        if done.exception is not None and not isinstance(done.exception, SystemExit):
            raise done.exception
        assert done.exit_code == 0, done.output
        return done.output

    run("init")
    run("post", "plan.md")
    return run
