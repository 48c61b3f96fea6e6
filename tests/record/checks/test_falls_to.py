"""Which station a run falls to, from the words a crew writes."""

import pytest

from record.place import stations
from record.place.shots import falls_to, millimetres
from tests.record.building import view_of
from tests.record.checks.ground import TRENCH, changed, sheets


def low_end(said, third="3 hull A"):
    blocks = changed(TRENCH, ("falls to: 3", f"falls to: {said}"), ("| 3 hull A |", f"| {third} |"))
    view = view_of(*sheets(blocks))
    run = view.built.things["AIR-IN"]
    found = falls_to(run, stations(run, view.hulls))
    return found and found.key


@pytest.mark.parametrize(
    ("said", "key"),
    [
        ("3", "3"),
        ("3 hull A", "3"),
        ("Hull A", "3"),
        ("the foot of hull A, left wall", "3"),
        ("terminal foot", "1"),
        ("foot", "1"),
        ("the bank", None),
        ("4", None),
        ("not recorded", None),
        ("none", None),
    ],
)
def test_a_station_is_known_by_its_number_or_its_words(said, key):
    assert low_end(said) == key


def test_words_that_fit_two_stations_fit_neither():
    assert low_end("foot", third="3 shaft foot") is None


def test_a_word_within_a_word_is_no_match():
    assert low_end("oot") is None


def test_millimetres_are_whole_where_tenths_say_no_more():
    told = [millimetres(m) for m in (0.056, 0.0042426, -0.025, 0.0, -0.00001)]
    assert told == ["56 mm", "4.2 mm", "-25 mm", "0 mm", "0 mm"]
