"""A check and a figure of the same record tell the same number, and the check says where to look.

The backfall is case 3.8 of a published set: inverts 10.000, 9.940, 9.900, 9.925, 9.880 hold 25 mm.
"""

from __future__ import annotations

import re

import pytest

from record.checks import ready
from record.checks.finding import Finding
from record.checks.rules import RULES
from record.figures import Worked, figures
from record.readers import View
from record.reckon import SUMS
from tests.record.building import day, view_of
from tests.record.checks.ground import SEAM, SITE, TRENCH, changed

#: With the figure worked of the same: which finding's words hold its number.
SAG = """
## run D-9

- carries: condensate
- size: 50 mm
- outside diameter: 54 mm
- inside diameter: 50 mm
- falls to: 5

| station | x [m] | y [m] | invert [m] | ground [m] | how |
|---|---|---|---|---|---|
| 1 | 0.00 | 9.00 | 10.000 ± 1 mm | 10.50 | staff |
| 2 | 3.00 | 9.00 | 9.940 ± 1 mm | 10.50 | staff |
| 3 | 6.00 | 9.00 | 9.900 ± 1 mm | 10.50 | staff |
| 4 | 9.00 | 9.00 | 9.925 ± 1 mm | 10.50 | staff |
| 5 | 12.00 | 9.00 | 9.880 ± 1 mm | 10.50 | staff |

## covering FILL-9

- what: backfill
- hides: D-9
- planned: 2031-05-20
"""


def view(*blocks: str) -> View:
    return view_of(day("2031-05-14", "ld", SITE, *blocks))


def found(seen: View, covering: str, rule: str) -> list[Finding]:
    return [one for one in ready(seen, covering).findings if one.rule == rule]


def figure(seen: View, name: str, about: str) -> Worked:
    [worked] = [one for one in figures(seen) if (one.name, one.about) == (name, about)]
    return worked


def millimetres(words: str) -> list[float]:
    return [float(number) for number in re.findall(r"(\d+(?:\.\d+)?) mm", words)]


def test_a_check_points_only_at_sums_there_are() -> None:
    named = {name for rule in RULES for name in rule.figures}
    assert named <= set(SUMS)
    assert {"fall", "least-fall", "pond", "level-run", "ties", "dew-point"} <= named


def test_the_pond_that_stops_a_fill_is_the_pond_that_is_worked() -> None:
    """9.925 − 9.900 = 25 mm."""
    seen = view(SAG)
    [finding] = found(seen, "FILL-9", "drain at every low point")[:1]
    assert finding.figures == ("fall", "pond")
    pond = figure(seen, "pond", "D-9")
    depth = pond.number("water stands")
    assert depth == pytest.approx(0.025)
    said = " ".join(one.says for one in found(seen, "FILL-9", "drain at every low point"))
    assert 25.0 in millimetres(said)


def test_the_backfall_that_stops_a_fill_is_the_rise_that_is_worked() -> None:
    seen = view(SAG)
    [finding] = found(seen, "FILL-9", "pipe falls the right way")
    told = "; ".join(f"{f.name}: {f.value}" for f in figure(seen, "fall", "D-9").figures)
    assert "6.00 to 9.00 m: rises: 25.0 mm" in told
    assert 25.0 in millimetres(finding.says)


def test_the_least_fall_that_is_held_is_the_one_of_the_figure() -> None:
    seen = view(SAG)
    [said] = [
        one.says for one in found(seen, "FILL-9", "pipe falls enough") if "instead" in one.says
    ]
    least = figure(seen, "least-fall", "D-9")
    assert least.number("least fall") == pytest.approx(1 / 96)
    assert any(isinstance(f.value, str) and f.value in said for f in least.figures)


def test_steel_too_near_the_dew_point_is_so_by_the_figure_too() -> None:
    """Steel 14.0 °C; dew point 12.0 as written. By the sum 20 °C at 60 % have 12.0 (ASHRAE's
    table): 2.0 above it where 3 are asked."""
    damp = changed(SEAM, ("8.6 °C | 2.6 mm", "12.0 °C | 2.6 mm"))
    seen = view(TRENCH, damp)
    near = found(seen, "FILL", "steel 3 °C above dew point")
    assert near and near[0].figures == ("dew-point",)


def test_an_outlet_in_frost_by_the_check_is_in_frost_by_the_figure() -> None:
    """Crown 9.880 + 0.052 under 10.50: 0.568 m of earth in a frost of 1.10."""
    frost = changed(SITE, ("- grid: x east", "- frost depth: 1.10 m\n- grid: x east"))
    seen = view_of(day("2031-05-14", "ld", frost, SAG))
    [finding] = found(seen, "FILL-9", "drain outlet clear of frost")
    zone = figure(seen, "frost-zone", "D-9")
    assert finding.figures == ("frost-zone",)
    assert zone.number("to") == pytest.approx(12.0)
    assert "0.568 m" in finding.says
    assert figure(seen, "drain-frost", "D-9").number("below or above frost") <= 0.568 - 1.10 + 1e-9


def test_a_pour_tells_what_stays_behind_whatever_the_levels_say() -> None:
    """Five litres in and 3.6 out leave 1.4, as later at the demo site."""
    test = (
        "## tested {}\n\n- test: pour\n- result: failed\n- reading: 5.0 L in, 3.6 L out\n"
        "- limit: 0.3 L\n- instrument: jug"
    )
    sag = figure(view(SAG, test.format("D-9")), "pond", "D-9")
    assert sag.number("stayed behind") == pytest.approx(0.0014)
    assert sag.number("water stands") == pytest.approx(0.025)
    [dry] = [w for w in figures(view(TRENCH, test.format("AIR-IN"))) if w.name == "pond"]
    assert (dry.what, dry.number("stayed behind")) == ("by a pour", pytest.approx(0.0014))
    assert dry.notes == ("no sag at the stations; one between them is not seen",)
