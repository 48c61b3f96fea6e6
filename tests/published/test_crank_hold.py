"""How long a crank was held, and turns shared out, against published figures and by hand."""

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from record.calc.air_cautions import STRAIN
from record.calc.crank_hold import AGE_SHARE, PUBLISHED, crank_hold, krendel_w
from record.calc.crank_rota import TURN_MIN, Turn, crank_rota

HP = 745.69987


def known(watt):
    return [each.who for each in crank_hold(watt).known]


@pytest.mark.parametrize(("minutes", "hp"), [(240, 1 / 8), (12, 1 / 4)])
def test_the_sheet_man_as_a_power_source(minutes, hp):
    """A published sheet, "Man as a power source": 1/8 hp for 240 min, 1/4 hp for 12; 5 %."""
    assert krendel_w(minutes) / HP == pytest.approx(hp, rel=0.05)


@pytest.mark.parametrize(("minutes", "watt"), [(4, 219.7), (30, 159.7), (60, 139.0), (480, 77.1)])
def test_krendels_line(minutes, watt):
    """By hand from hp = 0.35 − 0.092 log10 t (Krendel in Marks' Handbook, from memory). 0.1 W."""
    assert krendel_w(minutes) == pytest.approx(watt, abs=0.1)


def test_a_labourers_shift():
    """Marks' Handbook as cited in an encyclopaedia: about 75 W through 8 h. 10 %."""
    assert krendel_w(480) == pytest.approx(75, rel=0.1)


@pytest.mark.parametrize(("age", "share"), [(20, 1.15), (35, 1.0), (60, 0.80)])
def test_the_young_hold_more_and_the_old_less(age, share):
    """The same sheet: 20 years 15 % more, 60 years 20 % less."""
    assert krendel_w(60, age) == pytest.approx(share * 139.0, abs=0.2)
    assert sorted(AGE_SHARE) == [20, 35, 60]


@given(st.floats(4, 480))
def test_the_line_turned_round_gives_back_the_time(minutes):
    assert crank_hold(krendel_w(minutes)).fit_man_min == pytest.approx(minutes)


def test_below_the_end_of_the_line_nothing_is_made_up():
    """The line ends at 480 min: 40 W may be held longer, and nobody measured how long."""
    found = crank_hold(40)
    assert (found.fit_man_min, found.beyond_range, found.power_w) == (480, True, 40)
    assert not crank_hold(77.2).beyond_range
    assert crank_hold(77.2).fit_man_min < 480
    assert not crank_hold(krendel_w(480)).beyond_range


@pytest.mark.parametrize(
    ("who", "watt", "minutes"),
    [
        ("healthy labourer", (75, 75), (480, 480)),
        ("lifting water", (44.7, 59.7), (300, 300)),
        ("arms alone", (74.6, 74.6), (10, 15)),
        ("legs", (186.4, 186.4), (10, 15)),
    ],
)
def test_what_was_published_stands_as_published(who, watt, minutes):
    """Marks 75 W, 8 h; Allison 1975 0.06–0.08 hp (45–60 W) about 5 h; Mengin 1976 arms 0.10 hp
    (75 W) and legs 0.25 hp (186 W) for 10 to 15 min: a microfiche library on village technology."""
    (found,) = [each for each in PUBLISHED if each.who.startswith(who)]
    assert (found.least_w, found.most_w) == pytest.approx(watt, abs=0.05)
    assert (found.least_min, found.most_min) == minutes
    assert found.source


def test_only_figures_that_reach_the_power_are_named():
    """By hand from the same figures."""
    assert len(known(50)) == 4
    assert len(known(0.08 * HP)) == 4
    assert known(60) == ["healthy labourer, a shift", "arms alone", "legs"]
    assert known(75) == ["healthy labourer, a shift", "legs"]
    assert known(186) == ["legs"]
    assert known(200) == []


def test_more_than_fifty_watts_is_over_what_is_planned():
    assert not crank_hold(50).over_plan
    assert crank_hold(50.1).over_plan
    assert crank_hold(50).caution == STRAIN


@pytest.mark.parametrize(
    ("refused", "told"),
    [
        (lambda: krendel_w(3.9), "3.9 min is outside 4 to 480 min"),
        (lambda: krendel_w(481), "481 min is outside 4 to 480 min"),
        (lambda: krendel_w(60, 70), "nothing was published for 70 years: 20, 35 or 60"),
        (lambda: crank_hold(-1), "-1 W is outside 0 to 219.7 W"),
        (lambda: crank_hold(220), "220 W is outside 0 to 219.7 W"),
        (lambda: crank_hold(math.nan), "nan W is outside"),
        (lambda: crank_rota(0, 60), "0 people able to crank is outside 1 to 50"),
        (lambda: crank_rota(51, 60), "51 people able to crank is outside 1 to 50"),
        (lambda: crank_rota(4, 0), "0 minutes in all is outside 1 to 10080"),
        (lambda: crank_rota(4, 10_081), "10081 minutes in all"),
        (lambda: crank_rota(4, 60, 4), "4 minutes in a turn is outside 5 to 60"),
        (lambda: crank_rota(4, 60, 61), "61 minutes in a turn"),
    ],
)
def test_a_number_outside_its_range_is_told_with_the_limit(refused, told):
    with pytest.raises(ValueError, match=told):
        refused()


# Turns


def test_four_people_through_two_hours():
    """By hand: eight quarters of an hour, two each, three quarters of an hour between."""
    rota = crank_rota(4, 120)
    assert [each.person for each in rota.turns] == [1, 2, 3, 4, 1, 2, 3, 4]
    assert rota.turns[4] == Turn(1, 60, 75)
    assert rota.worked_min == (30, 30, 30, 30)
    assert (rota.rest_min, rota.alone, rota.caution) == (45, False, STRAIN)


def test_a_turn_is_a_quarter_of_an_hour():
    """Published for arms alone: 10 to 15 min (Mengin 1976)."""
    assert TURN_MIN == 15


def test_the_last_turn_is_cut_short():
    """By hand: 100 min in turns of 30 are 30, 30, 30 and 10."""
    rota = crank_rota(3, 100, 30)
    assert [each.to_min - each.from_min for each in rota.turns] == [30, 30, 30, 10]
    assert rota.worked_min == (40, 30, 30)
    assert rota.rest_min == 60


def test_one_person_alone_has_nobody_to_change_with():
    rota = crank_rota(1, 60)
    assert (rota.alone, rota.rest_min, rota.worked_min) == (True, 0, (60,))


def test_more_people_than_turns_leave_some_with_none():
    assert crank_rota(5, 20).worked_min == (15, 5, 0, 0, 0)


@given(st.integers(1, 50), st.integers(1, 2000), st.integers(5, 60))
def test_turns_leave_no_gap_and_are_fair(able, total, turn):
    rota = crank_rota(able, total, turn)
    assert rota.turns[0].from_min == 0
    assert rota.turns[-1].to_min == total
    pairs = list(pairwise(rota.turns))
    assert all(one.to_min == two.from_min for one, two in pairs)
    assert able == 1 or all(one.person != two.person for one, two in pairs)
    assert sum(rota.worked_min) == total
    assert max(rota.worked_min) - min(rota.worked_min) <= turn
    of_first = [each for each in rota.turns if each.person == 1]
    for one, two in pairwise(of_first):
        assert two.from_min - one.to_min == rota.rest_min


@given(st.integers(1, 49), st.integers(1, 2000))
def test_one_more_able_person_never_shortens_a_rest(able, total):
    assert crank_rota(able + 1, total).rest_min > crank_rota(able, total).rest_min


def test_the_ends_of_every_range_are_in_it():
    assert len(crank_rota(50, 7 * 24 * 60, 60).turns) == 168
    assert len(crank_rota(1, 1, 5).turns) == 1
    assert crank_hold(0).fit_man_min == 480
    assert crank_hold(krendel_w(4)).fit_man_min == pytest.approx(4)
