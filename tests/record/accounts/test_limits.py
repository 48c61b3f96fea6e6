"""Readings held against the limit that was set for them, and where they are heading."""

from datetime import date

import pytest

from record.accounts.drift import series
from record.accounts.drift_words import words
from record.accounts.limits import T_95, limit_of, past_limit, trend
from tests.record.building import day, view_of

DIP = "## dip pipe DP-1\n\n- x: 13.00 m\n- y: 8.80 m\n"


def read(on, said, limit=None):
    lines = ["## reading taken DP-1", "", "- what: water level", f"- reading: {said}"]
    return day(on, "ow", "\n".join([*lines, *([f"- limit: {limit}"] if limit else [])]) + "\n")


def levels(*readings, limit=None):
    sheets = [read(on, said, limit) for on, said in readings]
    (found,) = series(view_of(day("2031-05-01", "of", DIP), *sheets), "DP-1")
    return found


@pytest.mark.parametrize(
    ("limit", "past"),
    [
        ("47.95 m", True),  # day one lay under it: it is the most
        ("48.20 m", False),
        ("45.00 m", False),  # day one lay over it: it is the least
        ("at most 47.95 m", True),
        ("not over 48.00 m", False),
        ("at least 48.10 m", True),
        (">= 48.10 m", True),
        ("45.95 m", False),  # day one lay on it: which side is meant cannot be told
        ("30 m³/h", False),
        ("high", False),
    ],
)
def test_a_reading_is_past_the_side_the_limit_is_on(limit, past):
    found = levels(("2031-06-01", "45.95 m"), ("2032-06-01", "48.00 m"), limit=limit)
    assert bool(past_limit(found)) is past


def test_a_reading_on_the_limit_is_not_past_it_and_the_last_one_counts():
    limit = "47.95 m"
    on_it = levels(("2031-06-01", "45.95 m"), ("2032-06-01", "47.95 m"), limit=limit)
    assert past_limit(on_it) is None
    days = (("2031-06-01", "45.95 m"), ("2032-06-01", "48.00 m"), ("2033-06-01", "46.00 m"))
    assert past_limit(levels(*days, limit=limit)) is None
    assert limit_of(levels(*days, limit=limit)).least is False


YEARS = (
    ("2031-06-01", "46.00 m"),
    ("2032-06-01", "46.24 m"),
    ("2033-06-01", "46.41 m"),
    ("2034-06-01", "46.70 m"),
    ("2035-06-01", "46.85 m"),
)


def test_a_trend_is_that_of_a_reference_library_with_its_doubt():
    from scipy import stats

    found = trend(levels(*YEARS, limit="47.95 m"))
    days = [date.fromisoformat(on).toordinal() for on, _ in YEARS]
    line = stats.linregress(days, [float(said.split()[0]) for _, said in YEARS])
    doubt = stats.t.ppf(0.975, len(days) - 2) * line.stderr
    assert found.a_year == pytest.approx(line.slope * 365.25, rel=1e-6)
    assert found.doubt == pytest.approx(doubt * 365.25, rel=1e-3)
    assert found.certain and found.readings == 5


def test_the_points_of_student_are_those_of_a_reference_library():
    from scipy import stats

    for degrees, point in enumerate(T_95, 1):
        assert point == pytest.approx(stats.t.ppf(0.975, degrees), abs=6e-4)


def test_a_trend_comes_to_its_limit_between_two_days():
    """The middle is 46.44 m on 2033-06-01, the slope 0.216 ± 0.035 m a year, 1.51 m to go."""
    found = trend(levels(*YEARS, limit="47.95 m"))
    assert 2039 <= found.earliest.year <= 2040 and 2041 <= found.latest.year <= 2042


def test_a_trend_away_from_its_limit_never_comes_to_it():
    falling = [(on, f"{47 - 0.2 * n:.2f} m") for n, (on, _) in enumerate(YEARS)]
    found = trend(levels(*falling, limit="at most 47.95 m"))
    assert found.certain and found.earliest is None and found.latest is None


def test_readings_that_jump_about_are_no_trend():
    about = ("46.00 m", "46.30 m", "45.90 m", "46.20 m", "46.05 m")
    found = trend(levels(*zip((on for on, _ in YEARS), about, strict=True), limit="47.95 m"))
    assert not found.certain and found.latest is None


def test_two_readings_are_no_trend():
    assert trend(levels(*YEARS[:2])) is None
    assert trend(levels(YEARS[0], YEARS[1], (YEARS[1][0], "46.25 m"))) is None


def told(*readings, limit):
    return "\n".join(words([levels(*readings, limit=limit)]))


def test_it_is_told_which_way_readings_go_and_when_they_may_come_to_the_limit():
    """By the reference library 0.2158 ± 0.0350 m a year, 8.50 ± 1.38 in."""
    said = told(*YEARS, limit="47.95 m")
    assert 'heading  up by 0.216 m (8 1/2") a year, give or take 0.035 m (1 3/8")' in said
    assert "at its limit between 2039-" in said and "if it goes on so" in said
    marks = [line.index("*") for line in said.splitlines() if "|" in line]
    assert marks == sorted(marks) and len(marks) == 5 and marks[0] < marks[-1]


def test_a_reading_past_its_limit_is_told_so_and_not_carried_on():
    said = told(*YEARS, ("2036-06-01", "48.00 m"), limit="47.95 m")
    assert "PAST ITS LIMIT: 48.00 m on 2036-06-01, limit 47.95 m" in said
    assert "at its limit" not in said


def test_a_limit_whose_side_cannot_be_told_is_said_to_be_so():
    assert 'past "46.00 m" cannot be told' in told(*YEARS, limit="46.00 m")


def test_readings_that_tell_no_way_are_said_to_go_nowhere():
    flat = [(on, f"46.{n % 2}0 m") for n, (on, _) in enumerate(YEARS)]
    assert "nowhere that these 5 readings could tell" in told(*flat, limit="47.95 m")
