"""Sand that runs and lies: the law of the hopper within its bounds, heaps by hand."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from record.calc.sand_flow import DAMP, Outlet, least_time_s, sand_flow_kg_s
from record.calc.sand_heap import DRY_REPOSE_DEG, DRY_SAND_KG_M3, bulked_m3, cone, fill_m3, wedge

volumes_m3 = st.floats(0.01, 20)
slopes_deg = st.floats(15, 45)


def test_dry_sand_lies_and_weighs_as_published():
    """USBR Hyd-299 (1950): 34 ± 3 degrees. De Vries (1963), porosity 0.40: 1,600 kg/m³, which is
    2,650 × 0.60 = 1,590 to a hundredth."""
    assert pytest.approx(34, abs=3) == DRY_REPOSE_DEG
    assert pytest.approx(2650 * 0.60, rel=0.01) == DRY_SAND_KG_M3


def test_a_cone_by_hand():
    """r 1.0 m at 34°: h 0.6745, V 0.7063 m³, 1,130 kg."""
    heap = cone(0.7063, 34)
    assert heap.run_m == pytest.approx(1.0, abs=1e-4)
    assert heap.height_m == pytest.approx(0.6745, abs=1e-4)
    assert pytest.approx(1130, abs=0.5) == 0.7063 * DRY_SAND_KG_M3


def test_a_cubic_metre_in_a_cone():
    """By hand: r 1.1229, h 0.7574 m."""
    heap = cone(1.0, 34)
    assert (heap.run_m, heap.height_m) == (
        pytest.approx(1.1229, abs=1e-4),
        pytest.approx(0.7574, abs=1e-4),
    )


def test_the_shaft_of_the_demo_by_hand():
    """0.75 × 0.75 × 2.70 = 1.51875 m³, 2,430 kg; between walls 2.70 m apart at 34°: h =
    √(2 × 1.51875 × 0.6745/2.70) = 0.871, run 1.291; 30 % bulked √1.3 times as much."""
    volume = fill_m3(0.75 * 0.75, 46.95, 49.65)
    assert volume == pytest.approx(1.51875)
    assert volume * DRY_SAND_KG_M3 == pytest.approx(2430)
    dry, damp = wedge(volume, 2.70), wedge(bulked_m3(volume), 2.70)
    assert (dry.run_m, dry.height_m) == (
        pytest.approx(1.291, abs=1e-3),
        pytest.approx(0.871, abs=1e-3),
    )
    assert damp.run_m == pytest.approx(1.472, abs=1e-3)
    assert damp.height_m == pytest.approx(0.993, abs=1e-3)
    assert damp.run_m / dry.run_m == pytest.approx(math.sqrt(1.3))


@given(volumes_m3, slopes_deg, st.floats(0.5, 5))
def test_a_heap_holds_what_was_poured(volume, slope, width):
    heap = cone(volume, slope)
    assert math.pi * heap.run_m**2 * heap.height_m / 3 == pytest.approx(volume)
    assert heap.height_m / heap.run_m == pytest.approx(math.tan(math.radians(slope)))
    flat = wedge(volume, width, slope)
    assert width * flat.run_m * flat.height_m / 2 == pytest.approx(volume)
    assert flat.height_m / flat.run_m == pytest.approx(math.tan(math.radians(slope)))


@given(volumes_m3, st.floats(15, 44), st.floats(0.5, 5))
def test_a_flatter_sand_runs_farther(volume, slope, width):
    assert cone(volume, slope).run_m > cone(volume, slope + 1).run_m
    assert wedge(volume, width, slope).run_m > wedge(volume, width, slope + 1).run_m


@pytest.mark.parametrize(
    ("opening_m", "grain_m", "density", "c", "k", "flow"),
    [
        (0.10, 0.0005, 1600, 0.58, 1.4, 9.030),
        (0.10, 0.0005, 1600, 0.55, 1.4, 8.563),
        (0.10, 0.0005, 1600, 0.65, 1.4, 10.120),
        (0.05, 0.0005, 1600, 0.58, 1.4, 1.568),
        (0.02, 0.0025, 1600, 0.58, 1.4, 0.1016),
        (0.15, 0.0008, 1550, 0.58, 1.5, 24.05),
    ],
)
def test_the_law_of_the_hopper(opening_m, grain_m, density, c, k, flow):
    """Beverloo and others (1961), W = C ρb √g (D − k d)^2.5, worked apart from this, to 0.1 %."""
    outlet = Outlet(
        opening_m=opening_m, grain_m=grain_m, shaft_m=0.76, density_kg_m3=density, c=c, k=k
    )
    assert sand_flow_kg_s(outlet) == pytest.approx(flow, rel=1e-3)


def test_the_law_as_first_printed():
    """W[g/min] = 35 ρb √g (D − 1.4 d)^2.5 in cgs, so C = 35/60: 9.082 kg/s, to 0.1 %."""
    outlet = Outlet(opening_m=0.10, grain_m=0.0005, shaft_m=0.76, c=35 / 60)
    assert sand_flow_kg_s(outlet) == pytest.approx(9.082, rel=1e-3)


def test_a_shaft_empties_at_one_rate():
    """Worked apart: 0.76 m across, 3.0 m of sand (2,177.5 kg), opening 0.15 m, grains 0.8 mm:
    24.854 kg/s, 87.6 s, and the last half takes as long as the first: not so for water."""
    outlet = Outlet(opening_m=0.15, grain_m=0.0008, shaft_m=0.76)
    mass = math.pi / 4 * 0.76**2 * 3.0 * 1600
    assert mass == pytest.approx(2177.5, abs=0.5)
    assert sand_flow_kg_s(outlet) == pytest.approx(24.854, rel=1e-3)
    assert least_time_s(outlet, mass) == pytest.approx(87.6, rel=1e-3)
    assert least_time_s(outlet, mass / 2) == pytest.approx(87.6 / 2, rel=1e-3)


def test_a_hatch_as_wide_as_the_shaft_is_outside_the_law():
    """Reasoned: D 0.61 in a shaft of 0.76 would give 840 kg/s; the law is for small openings."""
    with pytest.raises(ValueError, match="opening small beside its shaft"):
        Outlet(opening_m=0.61, grain_m=0.001, shaft_m=0.76)


def test_damp_sand_is_warned_of():
    assert "Damp sand arches" in DAMP and "no promise" in DAMP


@given(st.floats(0.05, 0.3), st.floats(0.0001, 0.002))
def test_a_wider_opening_lets_more_through(opening, grain):
    one = Outlet(opening_m=opening, grain_m=grain, shaft_m=2)
    wider = Outlet(opening_m=opening * 1.1, grain_m=grain, shaft_m=2)
    assert sand_flow_kg_s(wider) > sand_flow_kg_s(one)


USUAL = {"opening_m": 0.1, "grain_m": 0.001, "shaft_m": 1.0}


@pytest.mark.parametrize(
    ("more", "word"),
    [
        ({"grain_m": 0}, "grains"),
        ({"opening_m": 0.00599}, "arch over"),
        ({"shaft_m": 0.2499}, "narrower"),
        ({"opening_m": 0.01, "shaft_m": 0.0299}, "narrower"),
        ({"density_kg_m3": 999}, "sand of"),
        ({"density_kg_m3": 2001}, "sand of"),
        ({"c": 0.54}, "constant C"),
        ({"c": 0.66}, "constant C"),
        ({"k": 1.19}, "constant k"),
        ({"k": 3.01}, "constant k"),
    ],
)
def test_an_outlet_outside_the_law_is_refused(more, word):
    with pytest.raises(ValueError, match=word):
        Outlet(**{**USUAL, **more})


def test_the_edges_of_the_law_are_in_it():
    Outlet(opening_m=0.006, grain_m=0.001, shaft_m=0.030, density_kg_m3=1000, c=0.55, k=1.2)
    Outlet(opening_m=0.1, grain_m=0.001, shaft_m=0.25, density_kg_m3=2000, c=0.65, k=3)


@pytest.mark.parametrize(
    ("call", "word"),
    [
        (lambda: fill_m3(0, 0, 1), "section"),
        (lambda: fill_m3(1, 1, 1), "rise"),
        (lambda: cone(0), "volume"),
        (lambda: cone(1, 14.9), "repose"),
        (lambda: cone(1, 45.1), "repose"),
        (lambda: wedge(1, 0), "width"),
        (lambda: wedge(0, 1), "volume"),
        (lambda: bulked_m3(0), "volume"),
        (lambda: bulked_m3(1, -0.01), "bulking"),
        (lambda: bulked_m3(1, 0.51), "bulking"),
        (lambda: least_time_s(Outlet(**USUAL), -1), "mass"),
        (lambda: least_time_s(Outlet(**USUAL), math.inf), "mass"),
        (lambda: fill_m3(math.inf, 0, 1), "section"),
        (lambda: cone(math.inf), "volume"),
        (lambda: bulked_m3(math.inf), "volume"),
        (lambda: wedge(1, math.inf), "width"),
        (lambda: Outlet(opening_m=0.1, grain_m=math.inf, shaft_m=1), "grains"),
    ],
)
def test_what_cannot_be_is_refused(call, word):
    with pytest.raises(ValueError, match=word):
        call()


def test_the_edges_of_heaps_are_in_them():
    assert cone(1, 15).run_m > cone(1, 45).run_m
    assert bulked_m3(1, 0) == 1 and bulked_m3(1, 0.5) == 1.5
    assert least_time_s(Outlet(**USUAL), 0) == 0
