"""Sums about the air of people and the crank against published figures. None is a time to stay."""

import re
import shlex

import pytest

from record.reckon import SUMS, json_form, read, words
from record.units import Dimension

ASKED = (
    "each=0.0052 L/s", "start=400 ppm", "outside=400 ppm", "people=4", "volume=30 m³"
)  # fmt: skip


def test_eight_on_a_hundred_have_twelve_and_a_half_each(of):
    """By hand: 100/8 = 12.5 m³/h each; 420 + 18.72/12 500 × 1e6 = 1917.6 ppm."""
    found = of("supply", "flow=100 m³/h", "people=8")
    assert found["for each"] * 3600 == pytest.approx(12.5)
    assert round(found["carbon dioxide comes to"]) == 1918


def test_five_cubic_feet_a_minute_each(of):
    """FEMA 453 section 1.7 quoting ASHRAE 62-1981: 5 cfm, 0.25 % ± 0.02; by hand with 0.30 L/min
    over 400, 2519 ppm."""
    found = of("supply", "flow=50 cfm", "people=10", "each=0.30 L/min", "outside=400 ppm")
    assert found["carbon dioxide comes to"] == pytest.approx(2519, abs=1)


def test_four_in_a_closed_room(of):
    """By hand, 4 × 18.72 L/h in 30 m³ is 2496 ppm/h over 400: 5392 after two hours; it comes to
    5000, 30 000 and 40 000 in 1.8429, 11.859 and 15.865 h, 1:50.6, 11:51.5 and 15:51.9."""
    found = of("co2", *ASKED, "after=2 h")
    assert found["at 2.00 h"] == pytest.approx(5392, abs=0.5)
    assert found["in the end"].startswith("it rises")
    assert "5000 ppm, REACHED by then; OSHA" in found["limit, workplace, mean of 8 h"]
    passed = [found[name] for name in ("survival, preferred", "survival, not above",
                                       "dangerous to life at once")]  # fmt: skip
    for text, ppm, when in zip(passed, (5000, 30000, 40000), ("1:51", "11:52", "15:52"),
                               strict=True):  # fmt: skip
        assert f"{ppm} ppm is passed before {when} from the start;" in text


def test_the_same_with_twelve_cubic_metres_an_hour(of):
    """By hand: 74.88/12 000 is 6240 ppm over 400, so 6640 − 6240 e^(−0.8) = 3836 after two hours,
    6640 in the end; 5000 in 3.3407 h, 3:20.4; never 30 000, and then nothing is said of it."""
    found = of("co2", *ASKED, "after=2 h", "flow=12 m³/h")
    assert found["at 2.00 h"] == pytest.approx(3836, abs=1)
    assert found["in the end"] == pytest.approx(6640)
    assert "5000 ppm, PASSED in the end" in found["limit, survival, preferred"]
    assert "is passed before 3:21 from the start" in found["survival, preferred"]
    assert "survival, not above" not in found
    assert "PASSED" not in found["limit, survival, not above"]


def test_the_smallest_room_of_a_published_guide(of):
    """FEMA 453 gives 65 ft³ a person (1.8406 m³); by hand with 0.30 L/min, 9779 ppm/h over 400, so
    10 179 after an hour and 3 % in 3.03 h, 3:01.6."""
    found = of("co2", "people=1", "volume=65 ft³", "each=0.30 L/min", "start=400 ppm", "after=1 h")
    assert found["at 60.0 min"] == pytest.approx(10_179, rel=1e-3)
    assert "before 3:02 from" in found["survival, not above"]


def test_beyond_where_the_sum_can_tell_it_refuses(of):
    with pytest.raises(ValueError, match="50000 ppm"):
        of("co2", *ASKED, "after=24 h")


@pytest.mark.parametrize("flow", ["0 m³/h", "12 m³/h", "100 m³/h"])
def test_no_countdown(flow):
    """The alarm rules. No figure is a span of time; a time stands in one sentence alone, last,
    which says a limit is passed before it; no number of hours leaves by the JSON."""
    one = SUMS["co2"]
    said = read(one, [*ASKED, "after=2 h", f"flow={flow}"])
    figures = one.work(said.given)
    assert not any(figure.of is Dimension.DURATION for figure in figures)
    timed = [n for n, f in enumerate(figures) if re.search(r"\d:\d\d", str(f.value))]
    assert timed == list(range(len(figures) - len(timed), len(figures)))
    for place in timed:
        assert re.fullmatch(
            r"by these figures \d+ ppm is passed before \d+:\d\d from the start; "
            r"a reading and the alarm rule, not this",
            str(figures[place].value),
        )
    numbers = [r["value"] for r in json_form(one, said, figures)["results"]
               if not isinstance(r["value"], str)]  # fmt: skip
    assert len(numbers) == (1 if flow.startswith("0 ") else 2)
    lines = list(words(one, said, figures))
    told = "\n".join(lines[lines.index("RESULT") :]).casefold()
    for never in ("remain", " left", "can stay", "you have", "hours", "minutes", "safe", "until"):
        assert never not in told
    assert "alarm rules" in told.replace("\n          ", " ")
    assert lines[-1].startswith("confirm") and "alarm rule" in lines[-1]


@pytest.mark.parametrize("name", ["supply", "co2", "people-served", "breath"])
def test_an_alarm_has_the_last_word_on_air(name):
    one = SUMS[name]
    assert one.confirm.startswith("A measured reading and the alarm rule.")
    if name != "breath":
        assert "nobody's permission to stay. An alarm rules" in one.caution


@pytest.mark.parametrize("name", ["crank", "crank-hold", "rota"])
def test_who_cranks_is_told_of_the_heart(name):
    assert "strains the heart" in SUMS[name].caution and SUMS[name].confirm


def test_twenty_four_on_a_hundred_by_the_workplace_limit(of):
    """By hand: 18 720/4580 = 4.0873 m³/h each; 100/4.0873 = 24.47; 24 come to 420 + 18 720 ×
    24/100 = 4912.8 ppm. OSHA 29 CFR 1910.1000: 5000 ppm."""
    found = of("people-served", "mode=motor; 100 m³/h", "mode=crank; 4 m³/h")
    assert found["by motor"].startswith("24 people at most, at 4.09 m³/h")
    assert found["by motor"].endswith("bring it to 4913 ppm")
    assert found["by crank"].startswith("0 people at most")


def test_outside_air_above_the_limit_serves_nobody(of):
    with pytest.raises(ValueError, match="not below"):
        of("people-served", "mode=motor; 100 m³/h", "limit=400 ppm")


def test_a_man_of_a_published_example_breathes_out(of):
    """Persily and de Jonge 2017, p. 874: 85 kg, 40 years, BMR 7.73, at 1.5 met 0.0056 L/s at 273 K;
    × 293.15/273.15 at 20 °C."""
    at_freezing = of("breath", "person=m; 40; 85 kg; 1.5", "temperature=273.15 K")
    at_twenty = of("breath", "person=m; 40; 187.4 lb; 1.5")
    assert at_freezing["person 1"] == pytest.approx(0.0056, abs=5e-5)
    assert at_twenty["all of them"] / at_freezing["all of them"] == pytest.approx(
        293.15 / 273.15, rel=1e-3
    )


def test_all_and_mean_of_several(of):
    found = of("breath", "person=m; 40; 85 kg; 1.5", "person=f; 40; 75 kg")
    assert found["all of them"] == pytest.approx(found["person 1"] + found["person 2"])
    assert found["mean of them"] == pytest.approx(found["all of them"] / 2)


def test_twenty_watts_at_the_site_s_crank(of):
    """By hand: 0.027778 × 255/0.35 = 20.24 W; at 45 rev/min 20.24/(2π × 0.75) = 4.295 N·m, 21.5 N
    at 0.20 m."""
    found = of("crank", *shlex.split(SUMS["crank"].example))
    assert found["at the crank"] == pytest.approx(20.24, abs=0.01)
    assert found["torque"] == pytest.approx(4.295, abs=2e-3)
    assert found["at the handle"] == pytest.approx(21.5, abs=0.05)
    assert found["plan"].startswith("within the 50 W")
    assert found["turns"] == "change person every 15 min; each rests 45 min between turns"


def test_a_published_power_at_the_shaft_and_over_the_plan(of):
    """A public specification: 1.5 m³/s against 800 Pa at η 0.4 take 3000 W."""
    found = of("crank", "flow=1.5 m³/s", "pressure=800 Pa", "efficiency=40 %", "turned=1 rev/s",
               "radius=0.2 m", "able=1")  # fmt: skip
    assert found["at the crank"] == pytest.approx(3000)
    assert found["plan"].startswith("OVER the 50 W")
    assert found["turns"].startswith("nobody to change with")


@pytest.mark.parametrize("able", ["0", "2.5"])
def test_people_who_are_not_whole_or_none_do_not_crank(of, able):
    with pytest.raises(ValueError, match=r"people able to crank"):
        of("rota", f"able={able}", "total=2 h")
    with pytest.raises(ValueError, match=r"people able to crank"):
        of("crank", *shlex.split(SUMS["crank"].example)[:-1], f"able={able}")


def test_a_quarter_of_a_horsepower(of):
    """A published sheet, "Man as a power source": 1/4 hp for 12 min; Mengin 1976: legs so for 10 to
    15. By hand from Krendel's line 10^(0.1/0.092) = 12.2."""
    found = of("crank-hold", "power=1/4 hp")
    assert found["fit man of 35"].startswith("12.2 min")
    assert found["legs"].startswith("186 W for 10 to 15 min") and "arms alone" not in found
    assert found["plan"].startswith("OVER")


def test_below_what_was_measured_nothing_is_made_up(of):
    """The line ends at 480 min."""
    found = of("crank-hold", "power=40 W")
    assert found["fit man of 35"].startswith("480 min") and "no longer" in found["fit man of 35"]
    with pytest.raises(ValueError, match="4 min"):
        of("crank-hold", "power=300 W")


def test_turns_of_four_for_two_hours(of):
    """By hand: eight quarters of an hour, two each, three quarters of an hour between."""
    found = of("rota", "able=4", "total=2 h")
    assert found["person 4"] == "0:45 to 1:00, 1:45 to 2:00; 0:30 in all"
    assert found["turns"].endswith("45 min between turns")


def test_the_last_turn_is_cut_short(of):
    """By hand: 100 min in turns of 30 among three are 30, 30, 30 and 10, the last the first's."""
    found = of("rota", "able=3", "total=100 min", "turn=30 min")
    assert found["person 1"] == "0:00 to 0:30, 1:30 to 1:40; 0:40 in all"
    with pytest.raises(ValueError, match="whole minutes"):
        of("rota", "able=3", "total=100.5 min")
