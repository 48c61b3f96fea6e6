"""Sums about air in pipes against published figures, through their inputs as crews write them."""

import shlex

import pytest

from record.reckon import SUMS

CFM = 4.719474432e-4
MM_WG = 9.80665
SITE = ("altitude=1180 m", "temperature=10 °C")
AIR_IN = "length=15.20 m; 152 mm; plastic, jointed; 0.5"
CHART = "galvanised duct, chart"


def test_air_at_two_thousand_metres(of):
    """U.S. Standard Atmosphere 1976, table: at 2000 m 275.154 K, 79 501 Pa, 1.0066 kg/m³."""
    found = of("air-density", "altitude=2000 m", "temperature=275.154 K")
    assert found["density"] == pytest.approx(1.0066, abs=1e-4)
    assert found["pressure"] == pytest.approx(79_501, abs=1)
    assert found["standard temperature"] == pytest.approx(2.004, abs=2e-3)
    assert found["of standard air"] == pytest.approx(1.0066 / 1.2014, rel=1e-4)


def test_twenty_metres_of_six_inch_with_five_fittings(of):
    """The open library fluids 1.3.1, in air of 1.2014 kg/m³: 20 × 0.6783 + 1.95 × 4.021 = 21.41 Pa;
    1 %, as the air here is of 70 °F at sea level."""
    found = of("air-drop", "flow=100 cfm", f"length=20 m; 6 in; {CHART}; 1.95", "temperature=70 °F")
    assert found["run takes"] == pytest.approx(21.41, rel=0.01)
    assert found["  fittings"] == pytest.approx(1.95 * 4.021, rel=0.01)
    assert "turbulent" in found["length 1"]


def test_the_site_s_intake_takes_next_to_nothing(of):
    """By hand in tests/published/test_air_demo_site.py: 3.61 Pa in 15.2 m (2 %, by Haaland), 1.01
    in an entry of 0.5 and two smooth bends of 0.15."""
    found = of("air-drop", "flow=100 m³/h", AIR_IN, "fitting=smooth bend 90, r/d 1.5; 2", *SITE)
    assert found["  straight pipe"] == pytest.approx(3.61, rel=0.02)
    assert found["  fittings"] == pytest.approx(1.01, rel=0.01)


def test_fittings_by_name_and_by_coefficient_are_one(of):
    """K of a mitred bend 1.20, of an exit 1.0: 2 × 1.20 + 1.0 = 3.4, as in the list of fittings."""
    named = of("air-drop", "flow=100 cfm", "length=0 m; 6 in; concrete",
               "fitting=mitred bend 90; 2", "fitting=exit")  # fmt: skip
    stated = of("air-drop", "flow=100 cfm", "length=0 m; 6 in; concrete; 3.4")
    assert named["run takes"] == pytest.approx(stated["run takes"])
    assert named["run takes"] > 0


def test_a_fitting_is_in_the_length_it_is_said_to_be_in(of):
    lengths = ("length=1 m; 6 in; steel pipe", "length=1 m; 8 in; steel pipe")
    narrow = of("air-drop", "flow=100 cfm", *lengths, "fitting=exit; 1; 1")
    wide = of("air-drop", "flow=100 cfm", *lengths, "fitting=exit; 1; 2")
    assert narrow["run takes"] > wide["run takes"]


def test_a_stated_roughness_goes_for_walls_that_are_as_stated(of):
    """The chart's wall is 0.0003 ft, 3.6 mil."""
    listed = of("air-drop", "flow=100 cfm", f"length=20 m; 6 in; {CHART}")
    stated = of("air-drop", "flow=100 cfm", "length=20 m; 6 in; as stated", "roughness=3.6 mil")
    assert stated["run takes"] == pytest.approx(listed["run takes"])


@pytest.mark.parametrize(
    ("given", "said"),
    [
        (("length=1 m; 6 in; as stated",), "no roughness"),
        (("length=1 m; 6 in; concrete", "fitting=exit; 1; 2"), "there are 1"),
        (("length=1 m; 6 in; concrete", "fitting=exit; 0.5"), "whole number"),
        (("length=1 m; 6 in; concrete", "altitude=20 km"), "outside"),
        (("length=1 m; 1 in; concrete",), "length 1"),
    ],
)
def test_a_run_that_cannot_be_is_refused_with_why(of, given, said):
    with pytest.raises(ValueError, match=said):
        of("air-drop", "flow=100 cfm", *given)


def test_a_published_fan_meets_its_system_at_twenty_two(of):
    """boilerfans.in, "System resistance vs fan curve", printed in m³/s and mm of water: its fan
    against 100 mm at 10 m³/s, rising with the square; it reads off about 22 m³/s and 480 mm."""
    printed = ((10, 800), (15, 700), (20, 550), (25, 380), (30, 200))
    found = of(
        "fan-point",
        *(f"point={flow} m³/s; {mm} mm w.g." for flow, mm in printed),
        "length=0 m; 3 m; drawn tube",
        "part=10 m³/s; 100 mm w.g.; opening",
        "temperature=21.3 °C",
    )
    assert found["flow"] == pytest.approx(22, abs=0.4)
    assert found["at"] == pytest.approx(480 * MM_WG, rel=0.02)


def test_the_site_s_crank_comes_to_a_hundred_against_two_hundred_and_fifty_five(of):
    """By hand: pipes 4.6 and valve 60, so 190.4 Pa is left to the filter; a crank that gives 255 Pa
    at 100 m³/h in air of 1.0818 kg/m³ comes to 100, and puts 0.027778 × 255 = 7.08 W in the air."""
    found = of(
        "fan-point",
        "point=0 m³/h; 400 Pa",
        "point=100 m³/h; 255 Pa",
        "point=130 m³/h; 120 Pa",
        "sheet-air=1.0818 kg/m³",
        AIR_IN,
        "fitting=smooth bend 90, r/d 1.5; 2",
        "part=100 m³/h; 190.4 Pa; mat",
        "part=100 m³/h; 0 Pa; opening; 60 Pa",
        *SITE,
    )
    assert found["flow"] * 3600 == pytest.approx(100, abs=0.2)
    assert found["power in the air"] == pytest.approx(7.08, abs=0.02)
    assert "60.0 Pa" in found["part 2"] and "to open" in found["part 2"]


def test_a_fan_too_weak_for_its_way_is_refused_and_not_drawn_on(of):
    with pytest.raises(ValueError, match="too weak"):
        of("fan-point", "point=10 m³/h; 40 Pa", "point=100 m³/h; 30 Pa",
           "length=1 m; 6 in; steel pipe", "part=100 m³/h; 0 Pa; opening; 60 Pa")  # fmt: skip


def test_a_trunk_of_two_branches(of):
    """The open library fluids, in standard air: 200 and 100 cfm at 0.1 in.wg in 100 ft want 7.475
    and 5.776 in, their trunk 8.696."""
    found = of("trunk", "branch=200 cfm", "branch=100 cfm", "loss=0.1 in w.g.",
               f"wall={CHART}", "size=6 in", "size=8 in", "temperature=70 °F")  # fmt: skip
    assert found["  exact inside"] / 0.0254 == pytest.approx(5.776, rel=3e-3)
    assert found["trunk carries"] == pytest.approx(300 * CFM)
    assert found["  take"] == pytest.approx(6 * 0.0254)


def test_the_trunk_itself_and_a_list_without_its_size(of):
    """300 cfm alone is what that trunk carries: 8.696 in by fluids, so 8 in is too narrow."""
    found = of("trunk", "branch=300 cfm", "loss=0.1 in w.g.", f"wall={CHART}", "size=8 in",
               "size=6 in", "temperature=70 °F")  # fmt: skip
    assert found["  exact inside"] / 0.0254 == pytest.approx(8.696, rel=3e-3)
    assert found["  take"].startswith("NONE")


def test_the_whole_way_takes_what_its_runs_its_filter_and_its_valve_take(of):
    """By hand: pipes 3.61 and fittings 1.01 Pa (Haaland, 2 %), the filter 190 at its rated flow,
    the valve 60 to open: 254.6. At half the flow a mat takes half; the opening stays."""
    given = shlex.split(SUMS["air-way"].example)
    found = of("air-way", *given)
    assert found["runs"] == pytest.approx(4.62, rel=0.02)
    assert (found["parts"], found["to open"]) == (pytest.approx(190), 60)
    assert found["way takes"] == pytest.approx(254.6, abs=0.2)
    half = of("air-way", "flow=50 m³/h", *given[1:])
    assert half["parts"] == pytest.approx(95) and half["to open"] == 60


def test_thin_air_takes_less_of_an_opening_and_not_of_a_mat(of):
    """By hand: at 1,180 m and 10 °C air has 1.0818/1.2014 = 0.9005 of the density; an opening of
    100 Pa takes 90.05, a mat 100."""
    air = ("altitude=1180 m", "temperature=10 °C")
    run = "length=1 m; 152 mm; plastic, jointed"
    found = of("air-way", "flow=100 m³/h", run, "part=100 m³/h; 100 Pa; opening", *air)
    assert found["parts"] == pytest.approx(90.05, abs=0.05)
    mat = of("air-way", "flow=100 m³/h", run, "part=100 m³/h; 100 Pa; mat", *air)
    assert mat["parts"] == pytest.approx(100)
