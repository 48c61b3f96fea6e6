"""The record's sentences: English when nobody says otherwise, else the language spoken."""

from __future__ import annotations

from pathlib import Path

import pytest

from record.words import Words, english, speaking, spoken, tell, tell_how_many, term
from record.words.written import LanguageFault, faults, read_words

POLISH = Words(
    "pl",
    {
        "upkeep.failed_on": "nie zaliczono {day}",
        "upkeep.days.one": "{number} dzień",
        "upkeep.days.few": "{number} dni",
        "upkeep.days.many": "{number} dni razem",
        "upkeep.days.other": "{number} dnia",
    },
    {"not recorded": "nie zapisano"},
).over(english())


def test_english_is_spoken_when_nobody_says_otherwise():
    assert spoken() is english()
    assert tell("upkeep.failed_on", day="2031-05-14") == "failed on 2031-05-14"
    assert term("not recorded") == "not recorded"
    assert [tell_how_many("upkeep.days", n) for n in (0, 1, 2)] == ["0 days", "1 day", "2 days"]


def test_another_language_is_spoken_for_as_long_as_the_block_lasts():
    with speaking(POLISH):
        assert tell("upkeep.failed_on", day="2031-05-14") == "nie zaliczono 2031-05-14"
        assert term("not recorded") == "nie zapisano"
        assert term("nobody translated this") == "nobody translated this"
    assert term("not recorded") == "not recorded"


def test_a_number_of_days_is_said_in_the_form_it_takes():
    with speaking(POLISH):
        said = [tell_how_many("upkeep.days", number) for number in (1, 3, 5, 12, 22)]
    assert said == ["1 dzień", "3 dni", "5 dni razem", "12 dni razem", "22 dni"]


def test_what_is_said_in_english_is_counted_as_english_does():
    """Russian takes "one" for 21; a sentence it lacks is English, and English takes "other"."""
    with speaking(Words("ru", {}).over(english())):
        assert tell_how_many("upkeep.days", 21) == "21 days"


def read(tmp_path: Path, text: str) -> list[str]:
    file = tmp_path / "record.toml"
    file.write_text(text, encoding="utf-8")
    return faults(read_words(file, "pl/record.toml"), english().said, "pl/record.toml", "pl")


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ('[upkeep]\nfailed = "x"', "pl/record.toml: upkeep.failed: English has nothing of that"),
        ('[upkeep]\nfailed_on = "x"', "upkeep.failed_on puts in nothing; write it with {day}"),
        ('[upkeep]\nfailed_on = "{day"', "upkeep.failed_on: expected '}' before end of string"),
        (
            '[upkeep.days]\none = "dzień"\nmany = "{number} dni"\nother = "{number} dnia"',
            "pl/record.toml: upkeep.days.few is missing; pl has the forms one, few, many, other",
        ),
        ('[upkeep.days]\nmany = "{count} dni"', "upkeep.days.many puts in {count}"),
        ('[upkeep.days]\ntwo = "{number} dni"', "upkeep.days.two: pl has no such form"),
    ],
)
def test_what_is_wrong_with_a_file_is_said_with_its_place(tmp_path: Path, text: str, fault: str):
    assert any(fault in said for said in read(tmp_path, text))


def test_a_whole_and_right_file_has_no_faults(tmp_path: Path):
    """ "one day" needs no figure: in that form the number may be left out."""
    text = (
        '[upkeep]\nfailed_on = "nie zaliczono {day}"\n[upkeep.days]\none = "dzień"\n'
        'few = "{number} dni"\nmany = "{number} dni"\nother = "{number} dnia"\n'
    )
    assert read(tmp_path, text) == []


def test_a_file_that_cannot_be_read_is_said_with_its_line(tmp_path: Path):
    file = tmp_path / "record.toml"
    file.write_text("[a]\nb = \n", encoding="utf-8")
    with pytest.raises(LanguageFault, match=r"pl/record\.toml: .*line 2"):
        read_words(file, "pl/record.toml")
