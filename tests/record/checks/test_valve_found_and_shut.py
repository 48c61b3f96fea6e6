"""Valves before hand-over: found by two lengths, known by a photo, shut by so many turns."""

import pytest

from record.checks import valve_found_and_shut as rule
from tests.record.checks.ground import handed

VALVE = {
    "type": "ball",
    "hull": "A",
    "from near": "1.00 m",
    "from left": "0.10 m",
    "turns to close": "quarter turn",
    "closes": "clockwise",
}
MARKS = tuple(f"\n## landmark L-{n}\n\n- what: post\n- x: {n} m\n- y: 0.00 m\n" for n in (1, 2))
PHOTO = "\n## photographed\n\n- file: v.jpg\n- caption: valve\n- shows: V-1\n"


def valve(**but):
    fields = {**VALVE, **{name.replace("_", " "): words for name, words in but.items()}}
    said = "".join(f"- {name}: {words}\n" for name, words in fields.items() if words)
    return f"\n## valve V-1\n\n{said}"


def says(*blocks):
    return [found.says for found in handed(rule, *blocks)]


def test_a_valve_with_all_three_is_right():
    assert says(valve(), PHOTO) == []


@pytest.mark.parametrize(
    ("but", "said"),
    [
        ({"turns_to_close": ""}, "turns to close not recorded"),
        ({"closes": "not recorded"}, "closes not recorded"),
        ({"from_left": ""}, "it has no two ties"),
        ({"hull": "", "from_near": "", "from_left": ""}, "it has no two ties"),
        ({"turns_to_close": "n/a, by motor"}, None),
    ],
)
def test_what_one_of_them_lacks_is_said_and_does_not_stop(but, said):
    found = handed(rule, valve(**but), PHOTO)
    assert [one.says for one in found] == ([said] if said else [])
    assert not any(one.stops for one in found)


@pytest.mark.parametrize("type_", ["check", "flap", "overpressure"])
def test_one_that_works_by_itself_has_no_turns(type_):
    assert says(valve(type=type_, turns_to_close="", closes=""), PHOTO) == []


def test_a_valve_of_no_known_type_may_be_one_that_is_turned():
    assert says(valve(type="", turns_to_close=""), PHOTO) == ["turns to close not recorded"]


def test_without_a_photo_that_shows_it_that_is_said():
    assert says(valve()) == ["no photo shows it"]
    assert says(valve(), PHOTO.replace("V-1", "A")) == ["no photo shows it"]


def test_one_on_the_grid_needs_two_landmarks_to_tape_it_from():
    outside = valve(hull="", from_near="", from_left="", x="3.00 m", y="4.00 m")
    assert says(outside, PHOTO, MARKS[0]) == ["it has no two ties"]
    assert says(outside, PHOTO, *MARKS) == []
