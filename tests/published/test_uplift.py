"""What water lifts: worked tanks of public manuals, and limits of the physics."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from record.calc.hold_down import concrete_m3, hold_down_n
from record.calc.uplift import Buried, float_level_m, level_for_ratio_m, uplift
from record.calc.uplift_round import BuriedRound, below_m2, uplift_round

LB_N = 4.4482216
PCF_N_M3 = 157.0875
FT_M = 0.3048
GAL_M3 = 3.785411784e-3
BOX = Buried(
    mass_kg=6500,
    plan_m2=24.44,
    underside_m=46.194,
    top_m=48.706,
    grade_m=50.0,
    moist_kn_m3=18,
    saturated_kn_m3=20,
)
TANK = BuriedRound(
    mass_kg=44_100 / 9.80665,
    diameter_m=2.44,
    length_m=6.10,
    underside_m=0.0,
    grade_m=3.44,
    moist_kn_m3=18,
    saturated_kn_m3=20,
)

boxes = st.builds(
    lambda mass, plan, high, cover, moist, more: Buried(
        mass_kg=mass,
        plan_m2=plan,
        underside_m=0.0,
        top_m=high,
        grade_m=high + cover,
        moist_kn_m3=moist,
        saturated_kn_m3=moist + more,
    ),
    st.floats(500, 20_000),
    st.floats(2, 60),
    st.floats(1.5, 4),
    st.floats(0, 3),
    st.floats(15, 20),
    st.floats(0, 3),
)


def test_a_tank_held_down_as_the_flood_manual_has_it():
    """FEMA P-259, example C7: 250 gal, 62.4 lb/ft³, factor 1.3, 670 lb: 2,048 lb and 23.4 ft³ of
    concrete of 150 lb/ft³. Its 0.134 ft³ a gallon is 0.2 % more than a gallon is: 2,041 lb."""
    as_printed = hold_down_n(
        volume_m3=250 * 0.134 * FT_M**3,
        weight_n=670 * LB_N,
        water_n_m3=62.4 * PCF_N_M3,
        factor=1.3,
    )
    assert as_printed / LB_N == pytest.approx(2047.5, abs=0.3)
    concrete = concrete_m3(as_printed, concrete_n_m3=150 * PCF_N_M3, water_n_m3=62.4 * PCF_N_M3)
    assert concrete / FT_M**3 == pytest.approx(23.37, abs=0.01)
    exact = hold_down_n(
        volume_m3=250 * GAL_M3, weight_n=670 * LB_N, water_n_m3=62.4 * PCF_N_M3, factor=1.3
    )
    assert exact / LB_N == pytest.approx(2041, abs=0.5)


def test_the_sea_lifts_more():
    """By hand from the same example with 64.1 lb/ft³: 33.5 × 64.1 × 1.3 − 670 = 2,121.6 lb."""
    sea = hold_down_n(
        volume_m3=33.5 * FT_M**3, weight_n=670 * LB_N, water_n_m3=64.1 * PCF_N_M3, factor=1.3
    )
    assert sea / LB_N == pytest.approx(2121.6, abs=0.2)


def test_a_buried_tank_of_a_county_sheet():
    """San Joaquin County, a tank sheet: 6.25 ft of 7.83 ft diameter and a sump of 3.5 ft by 3.00 ft
    displace 301 + 29 ft³ and are lifted with 20.58 kips (printed 21)."""
    cubic_feet = math.pi / 4 * (7.83**2 * 6.25 + 3.5**2 * 3.00)
    assert cubic_feet == pytest.approx(301 + 29, abs=0.5)
    lifted = hold_down_n(
        volume_m3=cubic_feet * FT_M**3, weight_n=0, water_n_m3=62.4 * PCF_N_M3, factor=1
    )
    assert lifted / LB_N / 1000 == pytest.approx(20.58, abs=0.02)


def test_one_tank_has_three_factors_by_three_conventions():
    """A public engineers' thread, recomputed: concrete 340 ft³ of 150 lb/ft³, soil 384 ft³ of 110,
    gross volume 980 ft³, inside 256 ft³: 1.523, 3.009, 1.863. One number without its convention
    says nothing, which is why ours is printed."""
    down = 340 * 150 + 384 * 110
    water = 62.4
    gross = down / (980 * water)
    with_soil_submerged = (340 * (150 - water) + 384 * (110 - water)) / (256 * water)
    assert gross == pytest.approx(1.523, abs=0.005)
    assert with_soil_submerged == pytest.approx(3.009, abs=0.005)
    box = Buried(
        mass_kg=340 * 150 * LB_N / 9.80665,
        plan_m2=10.0,
        underside_m=0.0,
        top_m=980 * FT_M**3 / 10.0,
        grade_m=980 * FT_M**3 / 10.0 + 384 * FT_M**3 / 10.0,
        moist_kn_m3=110 * PCF_N_M3 / 1000,
        saturated_kn_m3=110 * PCF_N_M3 / 1000,
    )
    # Water at the top of the box: the earth above counts whole, as in the first convention.
    assert uplift(box, box.top_m).ratio == pytest.approx(1.523, rel=2e-3)


def test_a_cylinder_displaces_its_volume():
    """By hand: 8 ft by 20 ft is 28.467 m³ and is lifted with 279.3 kN, 62,731 lb (γw 9.81)."""
    volume = below_m2(8 * FT_M, 8 * FT_M) * 20 * FT_M
    assert volume == pytest.approx(28.467, abs=1e-3)
    assert volume * 9.81 == pytest.approx(279.3, rel=1e-3)


@pytest.mark.parametrize(
    ("water_m", "earth_kn", "ratio"), [(2.44, 307.6, 1.257), (3.44, 191.4, 0.842)]
)
def test_a_round_tank_with_its_haunches(water_m, earth_kn, ratio):
    """Worked by hand: D 2.44, L 6.10, 44.1 kN, 1.0 m of 18 (20) over the crown. Earth D L (h + D/2)
    − V/2. Water at the crown 1.257; at grade 0.842, it floats: cover enough when dry is not then.
    With water at the crown all the earth over the haunches is submerged."""
    found = uplift_round(TANK, water_m)
    assert found.earth_kn == pytest.approx(earth_kn, abs=0.1)
    assert found.ratio == pytest.approx(ratio, abs=1e-3)


def test_the_demo_hull_by_three_ratios():
    """By hand for 24.44 m² of 6,500 kg (63.74 kN): earth dry 1.294 × 18 × 24.44 = 569.3 kN, and at
    48.706 all of the box is under: lift 2.512 × 9.81 × 24.44 = 602.3; 633.0/602.3 = 1.051. So 1.5
    and 1.2 lie below the top: (46.194 + 633.0/(1.5 × 239.76)) = 47.954, and 48.394 for 1.2. Above
    the top every metre of water takes 24.44 × (18 − 20 + 9.81) = 190.9 kN off: 1.0 at 48.706 +
    30.7/190.9 = 48.867."""
    levels = [level_for_ratio_m(BOX, ratio) for ratio in (1.5, 1.2, 1.0)]
    assert levels == [
        pytest.approx(47.954, abs=2e-3),
        pytest.approx(48.394, abs=2e-3),
        pytest.approx(48.867, abs=2e-3),
    ]
    at_top = uplift(BOX, 48.706)
    assert at_top.own_kn == pytest.approx(63.74, abs=0.01)
    assert at_top.earth_kn == pytest.approx(569.3, abs=0.1)
    assert at_top.lift_kn == pytest.approx(602.3, abs=0.1)


@pytest.mark.parametrize(
    ("mass_kg", "plan_m2", "underside_m", "expected"),
    [(6500, 24.44, 46.194, 46.460), (3300, 11.61, 46.094, 46.378)],
)
def test_the_two_hulls_of_the_demo_in_an_open_pit(mass_kg, plan_m2, underside_m, expected):
    """By hand: 6500/24,440 = 0.266 m over the underside; 3300/11,610 = 0.284 m."""
    found = float_level_m(mass_kg=mass_kg, plan_m2=plan_m2, underside_m=underside_m)
    assert found == pytest.approx(expected, abs=1e-3)


def test_dry_ground_lifts_nothing():
    dry = uplift(BOX, 40.0)
    assert dry.lift_kn == 0 and dry.ratio == math.inf
    assert uplift_round(TANK, -1.0).ratio == math.inf


def test_what_never_comes_down_to_a_ratio():
    heavy = Buried(
        mass_kg=200_000,
        plan_m2=10,
        underside_m=0,
        top_m=2,
        grade_m=4,
        moist_kn_m3=18,
        saturated_kn_m3=20,
    )
    assert level_for_ratio_m(heavy, 1.0) is None


@given(boxes, st.floats(0, 1), st.floats(0, 1))
def test_higher_water_never_holds_better(box, one, other):
    low, high = sorted((box.grade_m * one, box.grade_m * other))
    assert uplift(box, high).ratio <= uplift(box, low).ratio + 1e-9


@given(boxes, st.floats(0.8, 4))
def test_the_level_found_has_the_ratio_asked(box, ratio):
    level = level_for_ratio_m(box, ratio)
    if level is None:
        assert uplift(box, box.grade_m).ratio > ratio
    elif level > box.underside_m + 1e-6:
        assert uplift(box, level).ratio == pytest.approx(ratio, rel=1e-6)


@given(st.floats(0.5, 5), st.floats(0, 1))
def test_a_circle_and_its_mirror_make_the_whole(diameter, part):
    up = below_m2(diameter, part * diameter)
    down = below_m2(diameter, (1 - part) * diameter)
    # Near the poles an arc cosine keeps half its digits.
    assert up + down == pytest.approx(math.pi * diameter**2 / 4, rel=1e-7)


@given(st.floats(0.01, 0.99))
def test_the_earth_on_a_cylinder_is_that_of_strips(part):
    """Reasoned: cut into 4,000 upright strips, water part way up the upper half."""
    water = 1.22 + part * 1.22
    strips, width = 4000, 2.44 / 4000
    weight = 0.0
    for i in range(strips):
        x = -1.22 + (i + 0.5) * width
        top = 1.22 + math.sqrt(1.22**2 - x * x)
        wet = max(0.0, water - top)
        weight += width * (18 * (3.44 - top - wet) + (20 - 9.81) * wet)
    assert uplift_round(TANK, water).earth_kn == pytest.approx(weight * 6.10, rel=1e-3)


BOX_USUAL = {
    "mass_kg": 1000,
    "plan_m2": 10,
    "underside_m": 0,
    "top_m": 2,
    "grade_m": 3,
    "moist_kn_m3": 18,
    "saturated_kn_m3": 20,
}
TANK_USUAL = {
    "mass_kg": 1000,
    "diameter_m": 2,
    "length_m": 5,
    "underside_m": 0,
    "grade_m": 3,
    "moist_kn_m3": 18,
    "saturated_kn_m3": 20,
}


@pytest.mark.parametrize(
    ("call", "word"),
    [
        (lambda: Buried(**{**BOX_USUAL, "mass_kg": 0}), "mass"),
        (lambda: Buried(**{**BOX_USUAL, "plan_m2": 0}), "plan"),
        (lambda: Buried(**{**BOX_USUAL, "top_m": 0}), "one above the other"),
        (lambda: Buried(**{**BOX_USUAL, "grade_m": 1.9}), "one above the other"),
        (lambda: Buried(**{**BOX_USUAL, "moist_kn_m3": 21}), "unit weights"),
        (lambda: BuriedRound(**{**TANK_USUAL, "mass_kg": 0}), "mass"),
        (lambda: BuriedRound(**{**TANK_USUAL, "diameter_m": 0}), "diameter"),
        (lambda: BuriedRound(**{**TANK_USUAL, "length_m": 0}), "length"),
        (lambda: BuriedRound(**{**TANK_USUAL, "grade_m": 1.9}), "above grade"),
        (lambda: BuriedRound(**{**TANK_USUAL, "moist_kn_m3": 21}), "unit weights"),
        (lambda: uplift(BOX, 50.01), "above grade"),
        (lambda: uplift_round(TANK, 3.45), "above grade"),
        (lambda: level_for_ratio_m(BOX, 0), "ratio"),
        (lambda: float_level_m(mass_kg=0, plan_m2=1, underside_m=0), "mass"),
        (lambda: float_level_m(mass_kg=1, plan_m2=0, underside_m=0), "plan"),
        (lambda: hold_down_n(volume_m3=0, weight_n=0, water_n_m3=9802, factor=1), "volume"),
        (lambda: hold_down_n(volume_m3=1, weight_n=-1, water_n_m3=9802, factor=1), "weight"),
        (lambda: hold_down_n(volume_m3=1, weight_n=0, water_n_m3=8999, factor=1), "water"),
        (lambda: hold_down_n(volume_m3=1, weight_n=0, water_n_m3=13001, factor=1), "water"),
        (lambda: hold_down_n(volume_m3=1, weight_n=0, water_n_m3=9802, factor=0.99), "factor"),
        (lambda: concrete_m3(-1, concrete_n_m3=23e3, water_n_m3=9802), "force"),
        (lambda: concrete_m3(1, concrete_n_m3=9802, water_n_m3=9802), "heavier"),
        (lambda: concrete_m3(1, concrete_n_m3=9802, water_n_m3=0), "heavier"),
        (lambda: concrete_m3(1, concrete_n_m3=math.inf, water_n_m3=9802), "heavier"),
        (lambda: concrete_m3(math.inf, concrete_n_m3=23e3, water_n_m3=9802), "force"),
        (lambda: hold_down_n(volume_m3=math.inf, weight_n=0, water_n_m3=9802, factor=1), "volume"),
        (lambda: hold_down_n(volume_m3=1, weight_n=math.inf, water_n_m3=9802, factor=1), "weight"),
        (lambda: hold_down_n(volume_m3=1, weight_n=0, water_n_m3=9802, factor=math.inf), "factor"),
        (lambda: level_for_ratio_m(BOX, math.inf), "ratio"),
        (lambda: Buried(**{**BOX_USUAL, "mass_kg": math.inf}), "mass"),
        (lambda: Buried(**{**BOX_USUAL, "plan_m2": math.inf}), "plan"),
        (lambda: BuriedRound(**{**TANK_USUAL, "length_m": math.inf}), "length"),
        (lambda: float_level_m(mass_kg=math.inf, plan_m2=1, underside_m=0), "mass"),
    ],
)
def test_what_cannot_be_is_refused(call, word):
    with pytest.raises(ValueError, match=word):
        call()


def test_the_edges_of_the_range_are_in_it():
    Buried(**{**BOX_USUAL, "grade_m": 2, "moist_kn_m3": 20})
    assert uplift(BOX, 50.0).ratio < 1
    assert uplift_round(TANK, 3.44).ratio < 1
    hold_down_n(volume_m3=1, weight_n=0, water_n_m3=9000, factor=1)
    hold_down_n(volume_m3=1, weight_n=0, water_n_m3=13000, factor=1)
    assert concrete_m3(0, concrete_n_m3=23e3, water_n_m3=9802) == 0


def test_a_tank_below_its_datum_is_the_same_tank():
    """Reasoned: moved down 5 m with the ground and the water, nothing changes."""
    low = BuriedRound(**{**TANK_USUAL, "underside_m": -5, "grade_m": -2})
    high = BuriedRound(**TANK_USUAL)
    for water in (0.4, 1.7, 2.6):
        assert uplift_round(low, water - 5).lift_kn == pytest.approx(
            uplift_round(high, water).lift_kn
        )


def test_small_things_are_still_things():
    """By hand: half a kilogram on half a square metre floats in a millimetre; half a kilogram
    weighs 4.9 N; a cylinder half a metre long weighs what it is."""
    assert float_level_m(mass_kg=0.5, plan_m2=0.5, underside_m=0) == pytest.approx(0.001)
    small = {**BOX_USUAL, "mass_kg": 0.5, "plan_m2": 0.5}
    assert uplift(Buried(**small), -1).own_kn == pytest.approx(0.0049033, abs=1e-7)
    tank = BuriedRound(**{**TANK_USUAL, "mass_kg": 0.5, "diameter_m": 0.5, "length_m": 0.5})
    assert uplift_round(tank, -1).own_kn == pytest.approx(0.00490332, abs=1e-8)
    assert concrete_m3(1.0, concrete_n_m3=3.0, water_n_m3=0.5) == pytest.approx(0.4)


def test_a_crown_just_at_grade_is_buried():
    assert uplift_round(BuriedRound(**{**TANK_USUAL, "grade_m": 2}), -1).earth_kn > 0
