"""Sums about air in pipes: its density, and what a run costs as built."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Decimal
from typing import TYPE_CHECKING, Any

from record.calc.air_cautions import CAUTIONS, MEASURED_TRIAL
from record.calc.air_fittings import FITTINGS, SMOOTH_BEND_90
from record.calc.air_walls import WALLS
from record.reckon.sum import MAKER, Figure, Given, Input, Sum
from record.units import Dimension, in_both
from record.words import tell, term

if TYPE_CHECKING:
    from record.calc.air_run import Air, Length, RunDrop

LENGTH, FLOW, PA = Dimension.LENGTH, Dimension.FLOW, Dimension.PRESSURE
ASHRAE = "ASHRAE Handbook – Fundamentals (2017), chapter 21 (from memory)"
STATED = "as stated"
ALTITUDE = Input(
    key="altitude", says="above the sea", of=LENGTH, usual="0 m", usual_from="sea level"
)
TEMPERATURE = Input(
    key="temperature",
    says="of the air",
    of=Dimension.TEMPERATURE,
    usual="20 °C",
    usual_from="a room",
)
WALL = Input(key="wall", says="what it is made of", words=(*(w.name for w in WALLS), STATED))
ROUGHNESS = Input(
    key="roughness", says=f'of every wall that is "{STATED}"', of=Dimension.FILM, optional=True
)
#: A fitting's name to the K of it, against the velocity in its own length.
KINDS = {
    **{f"smooth bend 90, r/d {radius:g}": k for radius, k in SMOOTH_BEND_90},
    **{name.casefold(): k for name, k, _ in FITTINGS},
}
RUN = (
    Input(
        key="length",
        says="each length of one size, in order",
        columns=(
            Input(key="straight", says="pipe in it", of=LENGTH),
            Input(key="inside", says="diameter", of=LENGTH),
            WALL,
            Input(key="k", says="of all fittings whose loss coefficient is stated", usual="0"),
        ),
    ),
    Input(
        key="fitting",
        says="each kind of fitting by name",
        columns=(
            Input(key="kind", says="its name", words=tuple(KINDS)),
            Input(key="times", says="how many", usual="1"),
            Input(key="in", says="which length, counted from 1", usual="1"),
        ),
        optional=True,
    ),
    ROUGHNESS,
)


def both(value: float, of: Dimension) -> str:
    """Return a number in its dimension's SI unit, said in both systems."""
    return in_both(Decimal(repr(value)), of)


def whole(value: float, what: str) -> int:
    """Return a count. Raises ValueError where it is none."""
    if value != int(value) or value < 0:
        raise ValueError(f"{value:g} {what} cannot be: write a whole number")
    return int(value)


def air_of(given: Given) -> Air:
    from record.calc.air_run import air_at

    return air_at(given["altitude"], given["temperature"])


def rough_m(name: str, given: Given) -> float:
    """Return ε of a wall, by its name or as stated. Raises ValueError where it is not stated."""
    from record.calc.air_walls import wall

    if name != STATED:
        return wall(name).roughness_m
    if "roughness" not in given:
        raise ValueError(f'a wall is "{STATED}" and no roughness=… is given')
    return float(given["roughness"])


def lengths_of(given: Given) -> tuple[Length, ...]:
    """Return the run as its calculation wants it, each fitting in its length."""
    from record.calc.air_run import Length

    rows: Sequence[dict[str, Any]] = given["length"]
    fittings: list[list[float]] = [[row["k"]] for row in rows]
    for row in given["fitting"]:
        place = whole(row["in"], "as the number of a length")
        if not 1 <= place <= len(rows):
            raise ValueError(f"a {row['kind']} is in length {place}, and there are {len(rows)}")
        fittings[place - 1] += [KINDS[row["kind"]]] * whole(
            row["times"], tell("reckon.of", row=row["kind"])
        )
    return tuple(
        Length(
            name=tell("reckon.length", place=place),
            length_m=row["straight"],
            diameter_m=row["inside"],
            roughness_m=rough_m(row["wall"], given),
            coefficients=tuple(ks),
        )
        for place, (row, ks) in enumerate(zip(rows, fittings, strict=True), 1)
    )


def run_figures(run: RunDrop) -> Iterator[Figure]:
    for one in run.lengths:
        yield Figure(one.name, f"{both(one.velocity_m_s, Dimension.VELOCITY)}, {term(one.regime)}")
        yield Figure("  straight pipe", one.straight_pa, PA)
        yield Figure("  fittings", one.fittings_pa, PA)


def _density(given: Given) -> tuple[Figure, ...]:
    from record.calc.air_density import altitude_pressure_pa, standard_temperature_c
    from record.calc.air_system import STANDARD_KG_M3

    air = air_of(given)
    return (
        Figure("density", air.density_kg_m3, Dimension.DENSITY),
        Figure("of standard air", air.density_kg_m3 / STANDARD_KG_M3, Dimension.PERCENT),
        Figure("pressure", altitude_pressure_pa(given["altitude"]), PA),
        Figure("viscosity", air.viscosity_pa_s * 1e6, unit="µPa·s"),
        Figure(
            "standard temperature", standard_temperature_c(given["altitude"]), Dimension.TEMPERATURE
        ),
    )


AIR_DENSITY = Sum(
    name="air-density",
    title="Density, pressure and viscosity of air at an altitude",
    formula="ρ = P/(R T), P = 101325 (T₀(z)/288.15)^5.256; μ = 1.458e-6 T^1.5/(T + 110.4); "
    "standard air is 1.2014 kg/m³ (0.075 lb/ft³)",
    source="U.S. Standard Atmosphere, 1976",
    caution="Weather moves the pressure some 3 %. Dry air: damp air is up to 1 % lighter.",
    inputs=(ALTITUDE, TEMPERATURE),
    work=_density,
    example='altitude="1180 m" temperature="10 °C"',
)


def _drop(given: Given) -> tuple[Figure, ...]:
    from record.calc.air_run import run_drop

    run = run_drop(lengths_of(given), given["flow"], air_of(given))
    return (Figure("run takes", run.total_pa, PA), *run_figures(run))


AIR_DROP = Sum(
    name="air-drop",
    title="Pressure that a flow loses along a run of air pipe, length by length",
    formula="Δp = Σ (f L/D + ΣK) ½ρV²; f = 64/Re up to Re 2300, Colebrook above",
    source=f"Darcy–Weisbach and Colebrook, {ASHRAE}; walls and fittings as tabulated there, by "
    "SMACNA and by Moody",
    caution="Clean, round, dry pipe. Dents, dirt, a wet sag and fittings set close cost more. "
    + CAUTIONS[MEASURED_TRIAL],
    confirm=MAKER,
    inputs=(Input(key="flow", says="through all of it", of=FLOW), *RUN, ALTITUDE, TEMPERATURE),
    work=_drop,
    example='flow="100 m³/h" length="15.20 m; 152 mm; plastic, jointed; 0.5" '
    'fitting="smooth bend 90, r/d 1.5; 2" altitude="1180 m" temperature="10 °C"',
)


SUMS = (AIR_DENSITY, AIR_DROP)
