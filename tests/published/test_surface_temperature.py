"""Surfaces behind their layers against textbook pipes, an open library, and hand-worked walls."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from record.calc.dew_point import dew_point_c
from record.calc.surface_temperature import (
    RSE,
    RSI,
    Layer,
    Pipe,
    conductivity_of_r_per_inch,
    flat_surface,
    least_pipe_insulation_m,
    least_resistance_m2k_w,
    pipe_surface,
    resistance_m2k_w,
)

STEEL = Layer(0.006, 50)
WALL = RSI["wall"]


@pytest.mark.parametrize(("r", "k"), [(6, 0.02404), (6.5, 0.02219), (7, 0.02060)])
def test_conductivity_of_what_is_sold_by_its_r(r, k):
    """By hand: an inch of R 1 is 0.0254 m over 0.1761102 m²K/W, so k = 0.144228/R."""
    assert conductivity_of_r_per_inch(r) == pytest.approx(k, abs=1e-5)
    assert conductivity_of_r_per_inch(r) == pytest.approx(0.0254 / 0.1761102 / r, rel=1e-6)


def test_two_inches_at_r_six_and_a_half():
    """By hand: R 13 is 13 × 0.1761102 = 2.289 m²K/W, U 0.4368."""
    r = resistance_m2k_w([Layer(2 * 0.0254, conductivity_of_r_per_inch(6.5))])
    assert r == pytest.approx(2.2894, abs=1e-4)
    assert 1 / r == pytest.approx(0.4368, abs=1e-4)


def test_bare_steel_is_wet():
    """psychrolib 2.5.0 for the dew point, the rest by hand: 20 °C at 70 %, 10 °C behind 6 mm of
    steel: U = 1/(0.13 + 0.00012) = 7.685, surface 10.01 °C, below 14.37."""
    surface = flat_surface([STEEL], inside_c=20, outside_c=10, rsi=WALL, rse=0)
    assert surface.temperature_c == pytest.approx(10.01, abs=0.01)
    assert surface.heat / 10 == pytest.approx(7.685, abs=1e-3)
    assert surface.temperature_c < dew_point_c(20, 0.7) == pytest.approx(14.37, abs=0.02)


@pytest.mark.parametrize(
    ("layer", "outside_c", "expected"),
    [(Layer(0.025, 0.0222), 10, 18.97), (Layer(0.050, 0.024), 0, 18.83)],
)
def test_foam_keeps_it_dry(layer, outside_c, expected):
    """Worked apart: with 25 mm at 10 °C and 50 mm at 0 °C."""
    found = flat_surface([layer, STEEL], inside_c=20, outside_c=outside_c, rsi=WALL, rse=0)
    assert found.temperature_c == pytest.approx(expected, abs=0.01)


def test_the_least_foam():
    """Worked apart: 20 °C at 70 % against 8 °C, k 0.024: R 0.1469, 3.53 mm."""
    dew = dew_point_c(20, 0.7)
    least = least_resistance_m2k_w(inside_c=20, outside_c=8, dew_point_c=dew, rsi=WALL, rse=0)
    assert least == pytest.approx(0.1469, abs=3e-4)
    assert least * 0.024 * 1000 == pytest.approx(3.53, abs=0.01)


def test_open_air_outside_helps_a_little():
    """By hand: R = 0.13 × 20/5 − 0.13 − 0.04 = 0.35."""
    least = least_resistance_m2k_w(inside_c=20, outside_c=0, dew_point_c=15, rsi=WALL, rse=0.04)
    assert least == pytest.approx(0.35)


@given(
    st.floats(5, 35), st.floats(-20, 30), st.floats(0.2, 0.99), st.floats(0.1, 0.2),
    st.floats(0, 0.1),
)  # fmt: skip
def test_with_the_least_the_surface_is_at_the_dew_point(inside, outside, humidity, rsi, rse):
    dew = dew_point_c(inside, humidity)
    assume(outside < dew < inside - 1e-3)
    least = least_resistance_m2k_w(
        inside_c=inside, outside_c=outside, dew_point_c=dew, rsi=rsi, rse=rse
    )
    surface = flat_surface(
        [Layer(least, 1.0)], inside_c=inside, outside_c=outside, rsi=rsi, rse=rse
    )
    assert surface.temperature_c >= dew - 1e-9
    if least > 0:
        assert surface.temperature_c == pytest.approx(dew, abs=1e-6)


def test_a_cold_pipe_in_damp_air():
    """psychrolib 2.5.0 for the dew point (25 °C at 80 %: 21.31), the rest worked apart: 114.3 mm at
    10 °C, k 0.035, h 8: 12.19 mm; with 13 mm the surface is at 21.50 °C."""
    cold = Pipe(outside_m=0.1143, inside_c=10, air_c=25, film_w_m2k=8)
    dew = dew_point_c(25, 0.8)
    assert dew == pytest.approx(21.31, abs=0.02)
    assert least_pipe_insulation_m(cold, 0.035, 21.31) * 1000 == pytest.approx(12.19, abs=0.02)
    assert pipe_surface(cold, Layer(0.013, 0.035)).temperature_c == pytest.approx(21.50, abs=0.005)


def test_a_lagged_hot_pipe_of_an_exercise():
    """A Finnish exercise (secondary page): steel 100/106 mm, 50 mm of k 0.033, air at −5 °C with
    h 10, 130 °C inside: 40.2 W/m, +1.21 °C outside. The steel and the water's film, left out here,
    are a thousandth of it."""
    hot = Pipe(outside_m=0.106, inside_c=130, air_c=-5, film_w_m2k=10)
    found = pipe_surface(hot, Layer(0.050, 0.033))
    assert found.heat == pytest.approx(40.2, abs=0.1)
    assert found.temperature_c == pytest.approx(1.21, abs=0.02)


def test_a_layer_round_a_pipe_as_an_open_library_has_it():
    """ht 1.2.0, R_cylinder: 106 to 206 mm with k 0.033 is 3.20450 m K/W. The surface is taken up to
    almost nothing by a very large film."""
    pipe = Pipe(outside_m=0.106, inside_c=1, air_c=0, film_w_m2k=1e12)
    assert 1 / pipe_surface(pipe, Layer(0.050, 0.033)).heat == pytest.approx(3.20450, abs=1e-5)


def test_below_the_critical_radius_more_lets_more_through():
    """By hand: k/h = 0.035/10 = 3.5 mm. A pipe of 2 mm radius loses most with 1.5 mm round it."""
    thin = Pipe(outside_m=0.004, inside_c=60, air_c=20, film_w_m2k=10)
    heats = {mm: pipe_surface(thin, Layer(mm / 1000, 0.035)).heat for mm in (0.5, 1.5, 3.0)}
    assert heats[1.5] > heats[0.5] and heats[1.5] > heats[3.0]


@given(st.floats(0.02, 0.4), st.floats(0, 20), st.floats(21, 35), st.floats(0.001, 0.2))
def test_more_insulation_is_never_colder_outside(outside, inside, air, thickness):
    pipe = Pipe(outside_m=outside, inside_c=inside, air_c=air, film_w_m2k=8)
    one = pipe_surface(pipe, Layer(thickness, 0.035)).temperature_c
    assert one <= pipe_surface(pipe, Layer(thickness + 0.01, 0.035)).temperature_c + 1e-9
    assert inside <= one <= air


def test_a_pipe_that_is_dry_bare_needs_none():
    warm = Pipe(outside_m=0.1, inside_c=20, air_c=22, film_w_m2k=8)
    assert least_pipe_insulation_m(warm, 0.035, 15) == 0
    least = least_resistance_m2k_w(inside_c=20, outside_c=18, dew_point_c=10, rsi=WALL, rse=0)
    assert least == 0


@pytest.mark.parametrize(
    "call",
    [
        lambda: Layer(-0.001, 1),
        lambda: Layer(math.inf, 1),
        lambda: Layer(0.01, 0),
        lambda: flat_surface([], inside_c=1, outside_c=0, rsi=0, rse=0),
        lambda: flat_surface([], inside_c=1, outside_c=0, rsi=0.13, rse=-0.01),
        lambda: least_resistance_m2k_w(inside_c=20, outside_c=0, dew_point_c=20, rsi=0.13, rse=0),
        lambda: Pipe(outside_m=0, inside_c=0, air_c=1, film_w_m2k=8),
        lambda: Pipe(outside_m=0.1, inside_c=0, air_c=1, film_w_m2k=0),
        lambda: least_pipe_insulation_m(
            Pipe(outside_m=0.1, inside_c=0, air_c=20, film_w_m2k=8), 0, 10
        ),
        lambda: least_pipe_insulation_m(
            Pipe(outside_m=0.1, inside_c=0, air_c=20, film_w_m2k=8), 0.035, 20
        ),
        lambda: least_pipe_insulation_m(
            Pipe(outside_m=0.1, inside_c=0, air_c=20, film_w_m2k=8), 0.035, 19.99
        ),
        lambda: conductivity_of_r_per_inch(0),
    ],
)
def test_what_cannot_be_is_refused(call):
    with pytest.raises(ValueError, match=r"not above|negative|not below|up to 2 m"):
        call()


def test_the_resistances_of_still_air():
    """ISO 6946 (from memory): inside 0.13 across, 0.10 up, 0.17 down; outside 0.04."""
    assert RSI == {"wall": 0.13, "up": 0.10, "down": 0.17} and RSE == 0.04


@pytest.mark.parametrize(
    "call",
    [
        lambda: Layer(0.01, math.inf),
        lambda: flat_surface([], inside_c=1, outside_c=0, rsi=math.inf, rse=0),
        lambda: flat_surface([], inside_c=1, outside_c=0, rsi=0.1, rse=math.inf),
        lambda: Pipe(outside_m=math.inf, inside_c=0, air_c=1, film_w_m2k=8),
        lambda: Pipe(outside_m=0.1, inside_c=0, air_c=1, film_w_m2k=math.inf),
        lambda: conductivity_of_r_per_inch(math.inf),
    ],
)
def test_what_has_no_end_is_refused(call):
    with pytest.raises(ValueError, match=r"not above|not a number"):
        call()


def test_small_figures_are_still_figures():
    assert conductivity_of_r_per_inch(0.5) == pytest.approx(0.288456, abs=1e-6)
    gale = Pipe(outside_m=0.1, inside_c=10, air_c=20, film_w_m2k=0.5)
    assert 10 < pipe_surface(gale, Layer(0.01, 0.035)).temperature_c < 20


def test_air_just_at_its_dew_point_is_refused():
    damp = Pipe(outside_m=0.1, inside_c=10, air_c=20, film_w_m2k=8)
    with pytest.raises(ValueError, match="not below the air"):
        least_pipe_insulation_m(damp, 0.035, 20)


def test_no_thickness_up_to_two_metres():
    """Reasoned: what two metres keep dry is found, and just beyond it refused."""
    cold = Pipe(outside_m=0.1, inside_c=0, air_c=20, film_w_m2k=8)
    edge = pipe_surface(cold, Layer(2.0, 0.035)).temperature_c
    assert least_pipe_insulation_m(cold, 0.035, edge - 1e-4) < 2.0
    with pytest.raises(ValueError, match="up to 2 m"):
        least_pipe_insulation_m(cold, 0.035, edge + 1e-4)
