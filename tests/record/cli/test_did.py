"""Writing down that a task of upkeep was done."""

import pytest

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
- installed: 2031-05-01
"""


@pytest.fixture
def asked(tmp_path, monkeypatch):
    from typer.testing import CliRunner

    monkeypatch.setenv("ASBURIED_NOW", "2031-10-20T12:00:00Z")
    monkeypatch.chdir(tmp_path)
    place = tmp_path / "fern-bank"

    def run(*words, status=0):
        done = CliRunner().invoke(app, ["--record", str(place), *words])
        assert done.exit_code == status, (done.output, done.exception)
        return done.output

    run("init")
    (tmp_path / "plan.md").write_text(SHEET, encoding="utf-8")
    run("post", "plan.md")
    return run


def test_what_was_done_is_off_the_list_and_the_next_day_is_told(asked):
    assert "2031-10-31" not in asked("due") and "2031-11-01  CV-1" in asked("due")
    said = asked("did", "check-valve-test", "CV-1", "--writer", "ow", "--found", "clean")
    assert "serviced CV-1, 2031-10-20" in said and "next due 2032-04-20" in said
    assert "2032-04-20  CV-1" in asked("due")


def test_what_failed_stays_until_it_passes(asked):
    said = asked("did", "check-valve-test", "CV-1", "--writer", "ow", "--failed", "--at", "09:00")
    assert "next due 2031-10-20; it failed, and is due until it is retested" in said
    said = asked("did", "check-valve-test", "CV-1", "--writer", "ow", "--at", "15:00")
    assert "next due 2032-04-20" in said


def test_a_wrong_word_records_nothing(asked):
    from record.cli import Refused

    before = asked("entries")
    with pytest.raises((Refused, AssertionError)) as fault:
        asked("did", "check-valve-tset", "CV-1", "--writer", "ow")
    assert "check-valve-test" in str(fault.value)
    assert asked("entries") == before


def test_a_title_will_do_for_the_word(asked):
    said = asked("did", "Clean and test the check valve", "CV-1", "--writer", "ow")
    assert "task: check-valve-test" in said


def test_the_filled_card_is_kept_as_a_picture(asked, tmp_path):
    from PIL import Image

    Image.new("RGB", (40, 30), "white").save(tmp_path / "card.png")
    more = ("--photo", "card.png", "--typed-by", "of")
    said = asked("did", "check-valve-test", "CV-1", "--writer", "ow", *more)
    assert "typed by: of" in said and "photographed" in said
    assert "card.png" in asked("history", "CV-1")
