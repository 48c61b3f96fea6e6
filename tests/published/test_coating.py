"""Coatings: published tables of spread, two of their misprints, and rules for readings."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from record.calc.coating import (
    dry_film_m,
    litres,
    spread_m2_l,
    wet_film_m,
    workable_warning_s,
)
from record.calc.film_readings import FT2_M2, judge, sampling
from record.calc.holiday import CAUTION, holiday_test_v

MIL = 25.4e-6
GAL_L = 3.785411784
HOUR_S = 3600.0

films_m = st.floats(10e-6, 3e-3)
parts = st.floats(0.05, 1)


def feet2_a_gallon(**more):
    return spread_m2_l(**more) * GAL_L / FT2_M2


def test_a_gallon_at_one_mil():
    """231 in³/gal over 144 in²/ft² and 0.001 in: 1,604.17 ft², as a coater's page prints too."""
    assert feet2_a_gallon(dry_film_m=MIL, solids=1) == pytest.approx(231 / 0.144, abs=0.01)
    assert feet2_a_gallon(dry_film_m=10 * MIL, solids=1) == pytest.approx(160.417, abs=1e-3)


@pytest.mark.parametrize(
    ("mils", "solids", "printed", "within"),
    [
        (5, 0.65, 208.52, 0.03),  # printed with 1604 for 1604.17
        (1, 0.35, 561, 1),
        (2, 0.35, 281, 1),
        (3, 0.35, 187, 1),
        (4, 0.35, 140, 1),
        (5, 0.35, 112, 1),
        (3, 0.60, 321, 1),
        (10, 0.80, 128, 1),
        (2, 0.72, 577, 1),
    ],
)
def test_spread_as_a_training_table_prints_it(mils, solids, printed, within):
    """Two coating courses (secondary pages)."""
    found = feet2_a_gallon(dry_film_m=mils * MIL, solids=solids)
    assert found == pytest.approx(printed, abs=within)


def test_misprint_of_that_table():
    """The same table prints 527 ft²/gal for 72 % at 2 mil; its own formula gives 577."""
    found = feet2_a_gallon(dry_film_m=2 * MIL, solids=0.72)
    assert abs(found - 527) > 40 and round(found * 1604 / 1604.1667) == 577


def test_spread_in_metres():
    """The same course: 65 % at 125 µm covers 5.2 m²/L."""
    assert spread_m2_l(dry_film_m=125e-6, solids=0.65) == pytest.approx(5.2, abs=0.01)


def test_solids_and_yield_stand_above_the_line():
    """A page of the trade has them below it, by which a thinner paint would cover more; reasoned:
    less that stays covers less."""
    full = spread_m2_l(dry_film_m=150e-6, solids=1.0, yields=1.0)
    assert spread_m2_l(dry_film_m=150e-6, solids=0.5, yields=1.0) == pytest.approx(full / 2)
    assert spread_m2_l(dry_film_m=150e-6, solids=1.0, yields=0.5) == pytest.approx(full / 2)


def test_the_demo_walls_take_eight_and_a_half_litres():
    """By hand: 47.1 × 150e-6 × 1000/(0.98 × 0.85) = 8.48 L a coat; two coats 16.96."""
    one = litres(area_m2=47.1, dry_film_m=150e-6, solids=0.98, yields=0.85)
    assert one == pytest.approx(8.481, abs=1e-3)


def test_wet_films():
    """A coating course: 2.8 mil dry of 35 % is 8.0 mil wet; thinned 10 % 8.8."""
    assert wet_film_m(dry_film_m=2.8 * MIL, solids=0.35) / MIL == pytest.approx(8.0)
    assert wet_film_m(dry_film_m=2.8 * MIL, solids=0.35, thinner=0.1) / MIL == pytest.approx(8.8)


def test_misprint_of_a_thinned_film():
    """The course prints 2.8 mil dry for 8 mil wet of 35 % thinned 10 %; 8 × 0.35/1.1 = 2.545."""
    found = dry_film_m(wet_film_m=8 * MIL, solids=0.35, thinner=0.1) / MIL
    assert found == pytest.approx(2.545, abs=1e-3)
    assert found != pytest.approx(2.8, abs=0.2)


@given(films_m, parts, st.floats(0, 1))
def test_wet_to_dry_and_back(film, solids, thinner):
    wet = wet_film_m(dry_film_m=film, solids=solids, thinner=thinner)
    if wet <= 0.1:
        assert dry_film_m(wet_film_m=wet, solids=solids, thinner=thinner) == pytest.approx(film)
    assert wet >= film


@given(films_m, parts, parts, st.floats(0, 500))
def test_litres_and_spread_are_one_thing(film, solids, yields, area):
    used = litres(area_m2=area, dry_film_m=film, solids=solids, yields=yields)
    back = used * spread_m2_l(dry_film_m=film, solids=solids, yields=yields)
    assert back == pytest.approx(area)


@pytest.mark.parametrize(("air_c", "hours"), [(33, 2), (43, 1)])
def test_warmer_air_halves_the_time(air_c, hours):
    """A maker's page: 4 h at 23 °C is 2 h at 33 and 1 h at 43."""
    found = workable_warning_s(stated_s=4 * HOUR_S, stated_at_c=23, air_c=air_c)
    assert found == pytest.approx(hours * HOUR_S)


def test_the_rule_of_eighteen_degrees():
    """The same rule in °F: 60 min at 77 °F is 30 at 95 °F. At 59 °F the page says 120; a maker's
    time is never stretched here, so it stays 60."""
    hot, cold = (95 - 32) / 1.8, (59 - 32) / 1.8
    assert workable_warning_s(stated_s=HOUR_S, stated_at_c=25, air_c=hot) == pytest.approx(1800)
    assert workable_warning_s(stated_s=HOUR_S, stated_at_c=25, air_c=cold) == HOUR_S


def test_two_part_wall_coating_is_workable_an_hour_and_a_half():
    """Common practice, no source: about 90 minutes at a usual 20 °C; at 30 °C half of it."""
    assert workable_warning_s(stated_s=90 * 60, stated_at_c=20, air_c=20) / 60 == 90
    assert workable_warning_s(stated_s=90 * 60, stated_at_c=20, air_c=30) / 60 == 45


@given(st.floats(60, 1e5), st.floats(-20, 60), st.floats(-20, 60))
def test_a_makers_time_is_never_stretched(stated, at, air):
    assert 0 < workable_warning_s(stated_s=stated, stated_at_c=at, air_c=air) <= stated


@pytest.mark.parametrize(
    ("feet2", "areas"),
    [
        (250, 3),
        (300, 3),
        (101, 2),
        (100, 1),
        (1000, 3),
        (1001, 4),
        (1500, 4),
        (2000, 4),
        (2001, 5),
    ],
)
def test_how_many_areas(feet2, areas):
    """SSPC-PA 2, as told in two secondary pages: up to 300 ft² all of it, to 1,000 three, then one
    for each further 1,000 or part."""
    assert sampling(feet2 * FT2_M2).areas == areas


def test_a_large_area_and_a_table_of_another():
    """Secondary pages on SSPC-PA 2: 12,500 ft² takes 15 areas, 75 spots, 225 readings; 500 m² takes
    35 spots, which counts by 100 m²: 3 + 4 areas. By 1,000 ft² it is 5,382 ft² and 3 + 5."""
    large = sampling(12_500 * FT2_M2)
    assert (large.areas, large.spots, large.readings) == (15, 75, 225)
    assert sampling(500, by="metres").spots == 35
    assert sampling(500, by="feet").spots == 40
    assert sampling(30, by="metres").areas == 3 == sampling(100, by="metres").areas


def test_the_rule_of_eighty_and_a_hundred_and_twenty():
    """SSPC-PA 2, level 3 (secondary page): asked 8 to 12 mil, a spot may be 6.4 to 14.4 and the
    mean must be 8 to 12."""
    least, most = 8 * MIL, 12 * MIL

    def spots(*mils):
        return [[mil * MIL] * 3 for mil in mils]

    assert judge(spots(6.4, 10, 10, 10, 10), least, most).accepted
    assert judge(spots(14.4, 10, 10, 10, 10), least, most).accepted
    thin = judge(spots(6.39, 10, 10, 10, 10), least, most)
    assert thin.thin_spots == (0,) and not thin.accepted
    thick = judge(spots(10, 10, 14.41, 10, 10), least, most)
    assert thick.thick_spots == (2,) and not thick.accepted
    low = judge(spots(7.9, 7.9, 7.9, 7.9, 7.9), least, most)
    assert not low.mean_right and not low.thin_spots and not low.accepted
    assert judge(spots(8, 8, 8, 8, 8), least, most).accepted
    assert judge(spots(12, 12, 12, 12, 12), least, most).accepted
    assert not judge(spots(12.1, 12.1, 12.1, 12.1, 12.1), least, most).mean_right


def test_a_spot_is_the_mean_of_its_readings():
    found = judge([[100e-6, 200e-6, 300e-6]] * 5, 150e-6, 250e-6)
    assert found.mean_m == pytest.approx(200e-6)
    assert found.spots_m == (pytest.approx(200e-6),) * 5
    assert found.accepted


def test_too_few_readings_accept_nothing():
    assert not judge([[200e-6] * 3] * 4, 150e-6, 250e-6).accepted
    assert not judge([[200e-6] * 2] * 5, 150e-6, 250e-6).accepted
    assert judge([[200e-6] * 3] * 5, 150e-6, None).accepted


def test_the_tar_of_the_demo():
    """NACE RP0274: 1250 √mil; 2.5 mm is 98.43 mil, √ 9.921, 12.4 kV."""
    assert holiday_test_v(2.5e-3) == pytest.approx(12_400, abs=10)
    assert "solvent" in CAUTION


@given(st.floats(0.25e-3, 5e-3))
def test_four_times_the_film_takes_twice_the_voltage(film):
    assert holiday_test_v(4 * film) == pytest.approx(2 * holiday_test_v(film))


@pytest.mark.parametrize(
    ("call", "word"),
    [
        (lambda: spread_m2_l(dry_film_m=0, solids=1), "film"),
        (lambda: spread_m2_l(dry_film_m=0.11, solids=1), "film"),
        (lambda: spread_m2_l(dry_film_m=1e-4, solids=0), "solids"),
        (lambda: spread_m2_l(dry_film_m=1e-4, solids=1.01), "solids"),
        (lambda: spread_m2_l(dry_film_m=1e-4, solids=1, yields=0), "yield"),
        (lambda: spread_m2_l(dry_film_m=1e-4, solids=1, yields=1.01), "yield"),
        (lambda: litres(area_m2=-1, dry_film_m=1e-4, solids=1), "area"),
        (lambda: wet_film_m(dry_film_m=1e-4, solids=0), "solids"),
        (lambda: wet_film_m(dry_film_m=1e-4, solids=1, thinner=-0.1), "thinner"),
        (lambda: wet_film_m(dry_film_m=1e-4, solids=1, thinner=1.1), "thinner"),
        (lambda: wet_film_m(dry_film_m=0, solids=1), "film"),
        (lambda: dry_film_m(wet_film_m=0, solids=1), "film"),
        (lambda: workable_warning_s(stated_s=0, stated_at_c=20, air_c=20), "workable"),
        (lambda: workable_warning_s(stated_s=1, stated_at_c=-20.1, air_c=20), "outside"),
        (lambda: workable_warning_s(stated_s=1, stated_at_c=20, air_c=60.1), "outside"),
        (lambda: sampling(0), "area"),
        (lambda: sampling(1, by="yards"), "yards"),
        (lambda: judge([], 1e-4, None), "reading"),
        (lambda: judge([[]], 1e-4, None), "reading"),
        (lambda: judge([[-1e-6]], 1e-4, None), "negative"),
        (lambda: judge([[math.inf]], 1e-4, None), "not a number"),
        (lambda: judge([[1e-4]], 0, None), "asked for"),
        (lambda: judge([[1e-4]], 2e-4, 1e-4), "asked for"),
        (lambda: holiday_test_v(0.24e-3), "film"),
        (lambda: litres(area_m2=math.inf, dry_film_m=1e-4, solids=1), "area"),
        (lambda: workable_warning_s(stated_s=math.inf, stated_at_c=20, air_c=20), "workable"),
        (lambda: dry_film_m(wet_film_m=0.1001, solids=1), "film"),
        (lambda: sampling(math.inf), "area"),
        (lambda: judge([[1e-4]], math.inf, None), "asked for"),
        (lambda: judge([[1e-4]], 1e-4, math.inf), "asked for"),
        (lambda: holiday_test_v(20.1e-3), "film"),
    ],
)
def test_what_cannot_be_is_refused(call, word):
    with pytest.raises(ValueError, match=word):
        call()


def test_the_edges_of_the_range_are_in_it():
    assert spread_m2_l(dry_film_m=0.1, solids=1) == pytest.approx(0.01)
    assert litres(area_m2=0, dry_film_m=1e-4, solids=1) == 0
    assert dry_film_m(wet_film_m=0.1, solids=1) == pytest.approx(0.1)
    assert wet_film_m(dry_film_m=1e-4, solids=1, thinner=1) == pytest.approx(2e-4)
    assert workable_warning_s(stated_s=1, stated_at_c=-20, air_c=60) > 0
    assert workable_warning_s(stated_s=1, stated_at_c=60, air_c=-20) == 1
    assert holiday_test_v(0.25e-3) < holiday_test_v(20e-3)


def test_what_is_not_said_of_thinner_is_none_of_it():
    assert dry_film_m(wet_film_m=100e-6, solids=0.5) == pytest.approx(50e-6)
    assert wet_film_m(dry_film_m=50e-6, solids=0.5) == pytest.approx(100e-6)


def test_a_metre_more_than_a_hundred_is_another_area():
    """SSPC-PA 2 by metres: to 30 m² every 10, to 100 m² three, then one for each further 100 or
    part; a reading of nothing is a reading; one film may be asked for exactly."""
    assert [sampling(m2, by="metres").areas for m2 in (10, 11, 30, 31, 100, 101, 200, 201)] == [
        1, 2, 3, 3, 3, 4, 4, 5,
    ]  # fmt: skip
    bare = judge([[0.0, 0.0, 0.0]] * 5, 1e-4, None)
    assert bare.mean_m == 0 and bare.thin_spots == (0, 1, 2, 3, 4)
    assert judge([[1e-4] * 3] * 5, 1e-4, 1e-4).accepted
