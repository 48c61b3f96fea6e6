"""A tag that names nothing: what it may have been."""

from __future__ import annotations

import pytest

from record.answers.found import find_thing
from record.answers.refused import NotFound
from tests.record.building import day, view_of
from tests.record.checks.ground import SITE, TRENCH

HIDDEN = "## store S-9\n\n- name: larder"


def told(tag: str, reader: str = "owner") -> str:
    seen = view_of(
        day("2031-05-13", "ld", SITE), day("2031-05-14", "ld", TRENCH, HIDDEN), reader=reader
    )
    with pytest.raises(NotFound) as caught:
        find_thing(seen, tag)
    return str(caught.value)


def test_the_number_of_an_entry_leads_to_the_history_of_what_it_is_about():
    """Numbers stand in every answer, and whoever reads one wants its words."""
    seen = view_of(day("2031-05-13", "ld", SITE), day("2031-05-14", "ld", TRENCH, HIDDEN))
    number = next(e.number for e in seen.built.entries if e.content.about == "AIR-IN/2")
    assert f"{number} is an entry, of AIR-IN: `asburied history AIR-IN`" in told(number)


def test_a_number_this_reader_may_not_read_says_nothing_of_what_it_is_about():
    seen = view_of(day("2031-05-13", "ld", SITE), day("2031-05-14", "ld", TRENCH, HIDDEN))
    number = next(e.number for e in seen.built.entries if e.content.about == "S-9")
    assert "of S-9" in told(number)
    assert told(number, "technician").startswith(f"nothing in this record is called {number}")


def test_a_tag_in_other_letters_is_offered():
    assert told("air-in").endswith("Did you mean AIR-IN?")
