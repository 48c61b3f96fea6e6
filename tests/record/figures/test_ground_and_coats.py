"""Surfaces, frost, levels, tapes, sand and coats, fed from sheets, against sums worked by hand."""

from __future__ import annotations

import math

import pytest

from record.figures import Worked, figures
from tests.record.figures.ground import one, shelter


@pytest.fixture(scope="module")
def found() -> tuple[Worked, ...]:
    return figures(shelter())


def words(worked: Worked) -> str:
    return "; ".join(f"{f.name.strip()}: {f.value}" for f in worked.figures)


EARTH_C = 6.5 - 11.5 * math.exp(-1.294 / 2.240)  # 0.05 °C, at the roof: 50.00 − 48.706
R_M2K_W = 0.090 / 0.025 + 0.012 / 0.25 + 0.006 / 50


def test_the_lining_is_dry_behind_ninety_millimetres_of_foam(found: tuple[Worked, ...]) -> None:
    """Rsi 0.13: 20 − 0.13 × 19.95/(0.13 + 3.648) = 19.31 °C. 20 °C at 70 % has its dew point at
    14.4 (ASHRAE's table)."""
    surface = one(found, "surface", "RM-A")
    cold = 20 - 0.13 * (20 - EARTH_C) / (0.13 + R_M2K_W)
    assert surface.number("inside surface") == pytest.approx(cold, abs=0.01)
    assert surface.number("dew point") == pytest.approx(14.37, abs=0.02)
    assert "dry, by these figures" in words(surface)
    assert any("2 epoxy" in note for note in surface.notes)


def test_a_bare_shell_is_wet() -> None:
    """20 − 0.13 × 19.95/0.1301 = 0.06 °C."""
    bare = "## room RM-A\n\n- build-up: BU-BARE\n\n## build-up BU-BARE\n\n- side: inside\n\n"
    bare += "| layer | material | coats | thickness |\n|---|---|---|---|\n"
    bare += "| 1 shell | steel | 1 | 6 mm |"
    surface = one(figures(shelter(bare)), "surface", "RM-A")
    assert surface.number("inside surface") == pytest.approx(EARTH_C, abs=0.05)
    assert "condenses on it" in words(surface)


def test_eight_millimetres_of_that_foam_are_the_edge(found: tuple[Worked, ...]) -> None:
    """R = 0.13 × 19.95/5.63 − 0.13 = 0.331; × 0.025 = 8.3 mm."""
    least = one(found, "least-insulation", "RM-A")
    assert least.number("least of this") == pytest.approx(0.0083, abs=1e-4)


def test_a_cold_pipe_in_foam_is_dry_in_the_room(found: tuple[Worked, ...]) -> None:
    """January's −5 °C within, 25 mm of 0.035 on 160 mm: ln(105/80)/(2π 0.035) = 1.2366 and
    1/(2π 0.105 × 8) = 0.1895; 20 − 25 × 0.1895/1.4261 = 16.68 °C, the dew point 14.4."""
    pipe = one(found, "pipe-insulation", "AIR-IN", "IN-1")
    assert pipe.number("surface as insulated") == pytest.approx(16.68, abs=0.01)


def test_two_lots_of_one_product_that_differ_are_not_chosen_between() -> None:
    other = "## lot L-FOAM2\n\n- number: F-3\n- product: closed foam\n- conductivity: 0.030 W/mK"
    worked = one(figures(shelter(other)), "surface", "RM-A")
    assert not worked.figures
    assert "L-FOAM, L-FOAM2 differ" in worked.missing[0].words


def test_frost_by_the_soil_stands_beside_the_local_figure(found: tuple[Worked, ...]) -> None:
    """Stefan: 400 K·d at the surface (turf halves 800), L 0.15 × 1600 × 333.7e3 = 80.1e6 J/m³:
    √(2 × 1.35 × 400 × 86 400/80.1e6) = 1.079 m; the modified formula goes less deep."""
    frost = one(found, "frost-depth", "fern-bank")
    assert frost.number("by Stefan") == pytest.approx(1.079, abs=2e-3)
    assert frost.number("frost reaches") < frost.number("by Stefan")
    assert any("goes before it: 1.10 m, local building office" in note for note in frost.notes)


def test_the_level_run_closes_by_two_of_three_millimetres(found: tuple[Worked, ...]) -> None:
    """50 + 1.432 − 1.018 = 50.414 on 50.412; 12 √0.06 = 2.94 mm."""
    run = one(found, "level-run", "fern-bank")
    assert "misclosure: +2.0 mm, allowed 2.9 mm: closes" in words(run)
    assert "point 3: 47.906 m, fall 0.100" in words(run)
    assert [fed.value for fed in run.given if fed.key == "length"] == [pytest.approx(60)]


def test_a_run_that_never_came_back_has_no_closure() -> None:
    open_end = (
        "## levelled\n\n| point | backsight | foresight |\n|---|---|---|\n"
        "| BM1 | 1.432 m | none |\n| peg | none | 1.000 m |"
    )
    every = [w for w in figures(shelter(open_end)) if w.name == "level-run"]
    [open_run] = [w for w in every if "misclosure" not in words(w)]
    assert "point 2: 50.432 m" in words(open_run)


def test_three_tapes_meet_at_the_bend(found: tuple[Worked, ...]) -> None:
    """(24, 6) from (22, 20): √(4 + 196) = 14.142; from (30.5, 14): √(42.25 + 64) = 10.308."""
    assert "x 24.000 m, y 6.000 m" in words(one(found, "ties", "AIR-IN/2"))


def test_a_tape_misread_by_half_a_metre_is_told_and_no_one_is_blamed() -> None:
    """10.803 for 10.308, as on the demo site: residuals of 0.10 to 0.16 m."""
    wrong = (
        "## position tied AIR-OUT\n\n| landmark | point | distance |\n|---|---|---|\n"
        "| H2 | 2 | 14.142 m |\n| W1 | 2 | 10.803 m |\n| H1 | 2 | 19.799 m |"
    )
    [tied] = [
        w for w in figures(shelter(wrong)) if w.name == "ties" and w.about.startswith("AIR-OUT")
    ]
    assert "they disagree" in words(tied)
    assert any("three cannot say which" in note for note in tied.notes)


def test_sand_runs_at_ninety_kilograms_a_second_at_most(found: tuple[Worked, ...]) -> None:
    """0.58 × 1600 × √9.80665 × (0.25 − 1.4 × 0.0005)^2.5 = 90.2 kg/s."""
    law = 0.58 * 1600 * math.sqrt(9.80665) * (0.25 - 0.0007) ** 2.5
    assert one(found, "sand-flow", "SH-1").number("runs, at most") == pytest.approx(law)


def test_a_hatch_too_wide_for_the_law_is_refused_with_the_limit() -> None:
    """The hatch of the demo site, 0.60 by 0.75 in a shaft of 0.75: the law is for small ones."""
    sheet = "## way out SH-1\n\n- hatch width: 0.60 m\n- hatch height: 0.75 m"
    worked = one(figures(shelter(sheet)), "sand-flow", "SH-1")
    assert not worked.figures and "narrower than 1.5 m" in worked.refused


def test_the_dew_point_of_a_coat_s_air_and_the_steel_against_it(found: tuple[Worked, ...]) -> None:
    """25 °C at 60 %: 16.7 (ASHRAE's table); 3 more is 19.7, the steel is 22.0."""
    dew = one(found, "dew-point", "RM-A")
    assert dew.number("dew point") == pytest.approx(16.7, abs=0.05)
    assert "by 2.3 K" in words(dew)


def test_a_coat_goes_on_wetter_than_it_dries(found: tuple[Worked, ...]) -> None:
    """150/0.98 = 153.06 µm."""
    wet = one(found, "wet-film", "BU-WALL/2").number("put on wet")
    assert wet == pytest.approx(153.06e-6, rel=1e-4)


def test_five_spots_are_accepted_by_the_rule_of_eighty_and_a_hundred_and_twenty(
    found: tuple[Worked, ...],
) -> None:
    """SSPC-PA 2: means 8.5, 9, 7.667, 9.333, 8.333 within 6.4 and 14.4; their mean 8.567 in 8 to
    12."""
    film = one(found, "film", "A")
    assert film.number("mean") / 25.4e-6 == pytest.approx(8.567, abs=1e-3)
    assert "accepted by the rule" in words(film)
