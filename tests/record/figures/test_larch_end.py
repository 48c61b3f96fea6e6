"""The figures of the demo site's measures, fed from sheets, against sums worked by hand."""

from __future__ import annotations

import math

import pytest

from record.figures import Worked, figures
from record.reckon import SUMS
from tests.record.figures.ground import one, shelter

EVERY = """
level-run ties fall least-fall drain-frost frost-zone frost-depth ground condensing-season surface
least-insulation pipe-insulation float-level uplift cover cover-load supply co2 people-served
air-density air-drop air-way fan-point trunk crank crank-hold rota far-room door-force trap-seal
intake-distance drinking-water sand heap sand-flow dew-point spread wet-film litres workable-time
film pinhole-voltage
"""
#: Not fed here: there is no sag and no round hull; nobody's age or weight is recorded. A tank
#: under water, and air of one temperature, are asked with numbers of one's own.
NOT_FED = {"pond", "uplift-round", "hold-down", "condensate", "breath"}


@pytest.fixture(scope="module")
def found() -> tuple[Worked, ...]:
    return figures(shelter())


def words(worked: Worked) -> str:
    return "; ".join(f"{f.name.strip()}: {f.value}" for f in worked.figures)


def given(worked: Worked, key: str) -> list[object]:
    return [fed.value for fed in worked.given if fed.key == key]


def test_every_sum_that_the_record_feeds_is_worked(found: tuple[Worked, ...]) -> None:
    assert {worked.name for worked in found} == set(EVERY.split())
    assert all(worked.figures and not worked.refused for worked in found)


def test_every_sum_there_is_can_be_fed_or_it_is_said_why_not(found: tuple[Worked, ...]) -> None:
    assert {worked.name for worked in found} | NOT_FED == set(SUMS)


def test_the_hulls_float_in_the_open_pit(found: tuple[Worked, ...]) -> None:
    """A: 9.012 × 2.712 = 24.4405 m²; 6500/24440.5 = 0.26595 over 46.194. B: 4.812 × 2.412 =
    11.60654; 3300/11606.54 = 0.28432 over 46.094."""
    for hull, level in (("A", 46.460), ("B", 46.378)):
        worked = one(found, "float-level", hull)
        assert worked.number("begins to float at") == pytest.approx(level, abs=5e-4)
    assert given(one(found, "float-level", "A"), "plan") == [pytest.approx(24.440544)]


def test_groundwater_brings_the_hull_down_to_each_ratio(found: tuple[Worked, ...]) -> None:
    """Soil straight above, 18 and 20 kN/m³. Water 47.95: 24.4405 × (9.80665 × 1.756) = 420.9 kN
    lift; 63.743 + 24.4405 × 1.294 × 18 = 633.0 held; 1.504. At 48.39 1.2, at 48.87 1.0: the
    engineer's sheet of the demo site."""
    worked = one(found, "uplift", "A")
    assert given(worked, "water") == [45.96, 47.95]
    ratios = [f.value for f in worked.figures if f.name.strip() == "held / lifted"]
    assert ratios == ["the water is below it", pytest.approx(633.02 / 420.87, abs=1e-3)]
    assert worked.number("comes down to 1.2 at") == pytest.approx(48.39, abs=5e-3)
    assert worked.number("comes down to 1 at") == pytest.approx(48.87, abs=5e-3)
    assert "no friction at the sides" in words(worked)


def test_the_least_cover_is_held_against_the_design(found: tuple[Worked, ...]) -> None:
    worked = one(found, "cover", "A")
    assert worked.number("least point") == 1.280
    assert "the least by 80 mm" in words(worked)


def test_the_earth_weighs_most_where_it_is_deepest(found: tuple[Worked, ...]) -> None:
    """1.300 × 18 = 23.4 kPa."""
    weight = one(found, "cover-load", "A").number("weight of the earth")
    assert weight == pytest.approx(23_400)


def test_both_lengths_of_the_fresh_air_pipe_fall_two_in_a_hundred(
    found: tuple[Worked, ...],
) -> None:
    """√(3² + 4²) = 5.00 and 7.60 m; 0.100/5.00 and 0.152/7.60. The bend was shot on its crown:
    47.906 − 0.156 = 47.750."""
    told = words(one(found, "fall", "AIR-IN"))
    assert "0.00 to 5.00 m: falls: 100.0 mm" in told
    assert "5.00 to 12.60 m: falls: 152.0 mm" in told
    assert told.count("2.000 %") == 2
    assert one(found, "fall", "AIR-IN").number("low point at") == pytest.approx(12.60)


def test_a_condensate_drain_is_asked_for_the_fall_of_its_code(found: tuple[Worked, ...]) -> None:
    """International Mechanical Code 307.2.1, as quoted: 1/8 in 12 in."""
    assert one(found, "least-fall", "D-1").number("least fall") == pytest.approx(1 / 96)


def test_the_drain_lies_in_frost_from_five_metres_seventy_three(found: tuple[Worked, ...]) -> None:
    """Crowns 47.454 and 47.204 under 49.70 and 47.45: cover 2.246 to 0.246. 1.10 after
    1.146/0.200 = 5.73 m; 4.27 m of it."""
    zone = one(found, "frost-zone", "D-1")
    assert zone.number("in frost from") == pytest.approx(5.73)
    assert zone.number("which is") == pytest.approx(4.27)
    least = one(found, "drain-frost", "D-1")
    assert least.number("below or above frost") == pytest.approx(0.246 - 1.10)
    assert "none of it" in words(one(found, "frost-zone", "AIR-IN"))


def test_the_ground_is_coldest_a_while_after_the_coldest_day(found: tuple[Worked, ...]) -> None:
    """δ = √(0.5e-6 × 365 × 86400/π) = 2.240 m. At 1.524 m: 6.5 − 11.5 e^(−0.6803) = 0.68 °C, and
    20 + 0.6803 × 365/2π = day 59.5."""
    worked = one(found, "ground", "AIR-IN")
    delta = math.sqrt(0.5e-6 * 365 * 86400 / math.pi)
    assert worked.number("coldest there") == pytest.approx(
        6.5 - 11.5 * math.exp(-1.524 / delta), abs=0.01
    )
    assert worked.number("on day of the year") == pytest.approx(59.5, abs=0.1)
    assert [fed.how for fed in worked.given if fed.key == "diffusivity" and fed.usual]


def test_air_wets_the_pipe_in_early_summer(found: tuple[Worked, ...]) -> None:
    """July: 18 °C at 62 % has its dew point at 10.6 °C (ASHRAE's table, 10.6), the ground 9.0."""
    worked = one(found, "condensing-season", "AIR-IN")
    assert "condenses: Jun to Jul" in words(worked)
    assert len(given(worked, "month")) == 12


def test_eight_people_have_twelve_and_a_half_each(found: tuple[Worked, ...]) -> None:
    """100/8 = 12.5 m³/h. 420 + 8 × 0.0052/(100/3.6) × 1e6 = 420 + 1497.6 = 1918 ppm."""
    worked = one(found, "supply", "AU-1", "by its recorded flow")
    assert worked.number("for each") * 3600 == pytest.approx(12.5)
    assert worked.number("carbon dioxide comes to") == pytest.approx(1918, abs=1)
    assert one(found, "supply", "AU-1", "fan flow").number("for each") * 3600 == pytest.approx(13)


def test_cranking_takes_twenty_watts(found: tuple[Worked, ...]) -> None:
    """100/3600 × 255/0.35 = 20.2 W; 20.24/(2π × 0.75) = 4.29 N·m; over 0.200 m 21.5 N."""
    worked = one(found, "crank", "HC-1", "by its sheet")
    assert worked.number("at the crank") == pytest.approx(20.24, abs=0.01)
    assert worked.number("at the handle") == pytest.approx(21.5, abs=0.05)


def test_a_run_loses_to_its_pipe_and_to_its_fittings(found: tuple[Worked, ...]) -> None:
    """K = 0.15 + 1.1; a coupling loses nothing. Fittings: 1.25 × ½ρV², V = 1.531 m/s, ρ at 1,180 m
    and 20 °C 1.045 kg/m³ (standard atmosphere): 1.53 Pa."""
    worked = one(found, "air-drop", "AIR-IN")
    assert worked.number("fittings") == pytest.approx(1.53, abs=0.01)
    assert given(worked, "length")[0]["k"] == pytest.approx(1.25)  # type: ignore[index]
    assert not any("fittings not recorded" in note for note in worked.notes)
    assert any("fittings not recorded" in n for n in one(found, "air-drop", "AIR-OUT").notes)


def test_the_door_takes_fifty_newtons_at_the_valves_pressure(found: tuple[Worked, ...]) -> None:
    """0.80 × 1.52 × 60/(2 × 0.73) = 50.0 N."""
    worked = one(found, "door-force", "DR-1")
    assert worked.number("against the pressure") == pytest.approx(50.0, abs=0.05)


def test_the_intake_is_told_from_drive_and_discharge(found: tuple[Worked, ...]) -> None:
    """Drive at x 30.00: 3.00 m, 48 mm under 10 ft (3.048). Discharge: √(19.00² + 14.30²) = 23.78,
    0.40 higher. Code: International Mechanical Code 401.4, as quoted."""
    told = words(one(found, "intake-distance", "AIR-IN"))
    plans = [
        f.value
        for f in one(found, "intake-distance", "AIR-IN").figures
        if f.name.endswith("in plan")
    ]
    assert plans == [pytest.approx(23.78, abs=0.005), pytest.approx(3.0)]
    assert "48 mm UNDER the least distance" in told


def test_water_for_two_weeks_is_not_there(found: tuple[Worked, ...]) -> None:
    """8 × 14 × 3.785 L = 424 L; eight drums of 20 L are 160."""
    worked = one(found, "drinking-water", "fern-bank")
    assert worked.number("to keep") * 1000 == pytest.approx(424, abs=0.1)
    assert worked.number("short by") * 1000 == pytest.approx(264, abs=0.1)


def test_the_sand_of_the_shaft_is_a_cubic_metre_and_a_half(found: tuple[Worked, ...]) -> None:
    """0.75² × 2.70 = 1.519 m³; × 1600 = 2,430 kg. Between walls 2.70 apart at 34°: height
    √(2 × 1.519 × 0.6745/2.70) = 0.871, run 0.871/0.6745 = 1.291; 1.60 m is kept clear."""
    sand = one(found, "sand", "SH-1")
    assert sand.number("volume") == pytest.approx(1.519, abs=5e-4)
    assert sand.number("mass, dry") == pytest.approx(2430)
    heap = one(found, "heap", "SH-1")
    assert heap.number("dry: runs out") == pytest.approx(1.29, abs=0.005)
    assert heap.number("dry: stands high") == pytest.approx(0.87, abs=0.005)
    assert heap.number("damp: runs out") == pytest.approx(1.47, abs=0.005)
    assert "what must stay clear: outside its toe" in words(heap)


def test_a_coat_is_held_against_the_litres_used(found: tuple[Worked, ...]) -> None:
    """(6 + 4) × 2 = 20 m²; 0.15 mm a coat of the 0.30; 20 × 0.15/(0.98 × 0.85) = 3.601 L; 2.0 +
    1.7 were used. Spread: 0.98 × 0.85/0.15 = 5.553 m²/L."""
    worked = one(found, "litres", "RM-A", "epoxy, coat 1")
    assert given(worked, "area") == [pytest.approx(20.0)]
    assert worked.number("a coat takes") * 1000 == pytest.approx(3.601, abs=5e-4)
    assert worked.number("used of that") == pytest.approx(3.7 / 3.6014, abs=1e-3)
    assert one(found, "spread", "BU-WALL/2").number("covers") == pytest.approx(5.553, abs=5e-4)


def test_a_batch_in_warm_air_is_told_as_late(found: tuple[Worked, ...]) -> None:
    """30 min at 30 °C, used at 31 °C: 30 × 2^(−0.1) = 28.0 min; 13:05 to 13:50 is 45."""
    late = one(found, "workable-time", "M-1")
    assert late.number("may be going off after") / 60 == pytest.approx(27.99, abs=0.01)
    assert given(late, "used-after") == [45 * 60]
    assert "last used: after that" in words(late)
    assert "last used: before that" in words(one(found, "workable-time", "M-2"))


def test_the_tar_is_tested_at_twelve_kilovolts(found: tuple[Worked, ...]) -> None:
    """2.5 mm = 98.43 mil; 1250 √98.43 = 12,401 V (NACE RP0274)."""
    worked = one(found, "pinhole-voltage", "BU-SEAM")
    assert worked.number("voltage") == pytest.approx(12_401, abs=1)
