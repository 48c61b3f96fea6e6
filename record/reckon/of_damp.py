"""Sums about damp: dew point, what condenses, when, and how surfaces are kept dry."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import TYPE_CHECKING

from record.reckon.sum import Figure, Given, Input, Sum
from record.units import Dimension, in_both

if TYPE_CHECKING:
    from record.calc.condensing_season import Month
    from record.calc.ground_temperature import Ground

C, RH, KG = Dimension.TEMPERATURE, Dimension.HUMIDITY, Dimension.MASS
AIR = Input(key="air", says="temperature of the air", of=C)
HUMIDITY = Input(key="humidity", says="of that air", of=RH)
FLOW = Input(key="flow", says="of the air as it enters", of=Dimension.FLOW)
ALTITUDE = Input(
    key="altitude", says="above the sea", of=Dimension.LENGTH, usual="0 m", usual_from="sea level"
)
ASHRAE = "ASHRAE Handbook – Fundamentals (2017), chapter 1"


def pressure_pa(altitude_m: float) -> float:
    from record.calc.air_density import altitude_pressure_pa

    return altitude_pressure_pa(altitude_m)


def _dew(given: Given) -> tuple[Figure, ...]:
    from record.calc.dew_point import dew_point_c

    dew = dew_point_c(given["air"], given["humidity"])
    found = [Figure("dew point", dew, C), Figure("coat at or above", dew + 3.0, C)]
    if "surface" in given:
        margin = given["surface"] - dew
        verdict = "at or above" if margin >= 3.0 else "BELOW"
        found.append(Figure("surface", f"{verdict} dew point + 3 °C, by {abs(margin - 3):.1f} K"))
    return tuple(found)


DEW_POINT = Sum(
    name="dew-point",
    title="Dew point of air, and the steel that may be coated in it",
    formula="the t at which water's saturation pressure is humidity × that of the air; steel to be "
    "coated at least 3 °C (5 °F) above it, common coating practice",
    source=f"{ASHRAE}, eq. 5, 6, 12 and 36",
    caution="3 % more by the meter is 0.9 °C more dew point. The maker's sheet goes first.",
    inputs=(AIR, HUMIDITY, Input(key="surface", says="the steel's", of=C, optional=True)),
    work=_dew,
    example='air="16 °C" humidity="61 %" surface="14.0 °C"',
)


def _condensate(given: Given) -> tuple[Figure, ...]:
    from record.calc.dew_point import condensed_kg_h

    an_hour = condensed_kg_h(
        flow_m3_h=given["flow"] * 3600,
        temperature_c=given["air"],
        relative_humidity=given["humidity"],
        cooled_to_c=given["ground"],
        pressure_pa=pressure_pa(given["altitude"]),
    )
    return (
        Figure("condenses, an hour", an_hour, KG),
        Figure("condenses, a day", an_hour * 24, KG),
        Figure("about", an_hour * 24 / 1000, Dimension.VOLUME),
    )


CONDENSATE = Sum(
    name="condensate",
    title="Water that outside air leaves in a pipe as cool as the ground",
    formula="V/v × (W₁ − W₂), W₂ = the lesser of W₁ and saturation at the ground's temperature",
    source=f"{ASHRAE}, cooling of moist air",
    caution="The most there can be: a pipe is warmed by the air in it, and mist is carried on.",
    inputs=(
        FLOW,
        AIR,
        HUMIDITY,
        Input(key="ground", says="what it is cooled to", of=C),
        ALTITUDE,
    ),
    work=_condensate,
    example='flow="100 m³/h" air="30 °C" humidity="70 %" ground="12 °C"',
)

MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
GROUND = (
    Input(key="mean", says="yearly mean of the place", of=C),
    Input(
        key="amplitude", says="half from the warmest to the coldest day", of=Dimension.DIFFERENCE
    ),
    Input(key="coldest-day", says="day of the year, 20 is 20 January"),
    Input(
        key="diffusivity",
        says="of the soil",
        of=Dimension.DIFFUSIVITY,
        usual="0.5 mm²/s",
        usual_from="a middling soil; 0.1 to 1.2 published (De Vries 1963)",
    ),
)


def _ground_of(given: Given) -> Ground:
    from record.calc.ground_temperature import Ground

    return Ground(
        mean_c=given["mean"],
        amplitude_k=given["amplitude"],
        coldest_day=given["coldest-day"],
        diffusivity_m2_s=given["diffusivity"],
    )


def _ground(given: Given) -> tuple[Figure, ...]:
    from record.calc.ground_temperature import (
        coldest_c,
        coldest_day_at,
        freezing_reaches_m,
        ground_temperature_c,
    )

    soil = _ground_of(given)
    depth = given["depth"]
    found = [
        Figure("coldest there", coldest_c(soil, depth), C),
        Figure("on day of the year", coldest_day_at(soil, depth)),
    ]
    if "day" in given:
        found.insert(0, Figure("that day", ground_temperature_c(soil, depth, given["day"]), C))
    reaches = freezing_reaches_m(soil)
    if reaches is None:
        found.append(Figure("0 °C reaches", "the ground stays frozen below"))
    else:
        found.append(Figure("0 °C reaches", reaches, Dimension.LENGTH))
    return tuple(found)


GROUND_TEMPERATURE = Sum(
    name="ground",
    title="Temperature of the ground by depth and day",
    formula="T = Tm − A e^(−z/δ) cos(2π(t − t₀)/P − z/δ), δ = √(αP/π)",
    source="Kusuda and Achenbach (1965)",
    caution="One soil, no snow, no heated house beside it. The local office's frost depth goes "
    "before it.",
    inputs=(
        *GROUND,
        Input(key="depth", says="below grade", of=Dimension.LENGTH),
        Input(key="day", says="day of the year", optional=True),
    ),
    work=_ground,
    example='mean="6.5 °C" amplitude="11.5 K" coldest-day=20 depth="1.94 m" day=200',
)


def condensing_year(given: Given) -> tuple[Month, ...]:
    """Return the twelve months at the pipe, of what the sum of the season is given."""
    from record.calc.condensing_season import Air, months

    return months(
        [Air(row["air"], row["humidity"]) for row in given["month"]],
        _ground_of(given),
        depth_m=given["depth"],
        flow_m3_h=given["flow"] * 3600,
        pressure_pa=pressure_pa(given["altitude"]),
    )


def _season(given: Given) -> tuple[Figure, ...]:
    from record.calc.condensing_season import peak, seasons

    year = condensing_year(given)
    spans = [f"{MONTHS[first - 1]} to {MONTHS[last - 1]}" for first, last in seasons(year)]
    most = peak(year)
    found = [Figure("condenses", "; ".join(spans) or "in no month, by these normals")]
    if most:
        a_day = in_both(Decimal(repr(most.water_kg_day)), KG)
        found.append(Figure("most in", f"{MONTHS[most.number - 1]}, {a_day} a day"))
    for month in year:
        dew, ground = (in_both(Decimal(repr(t)), C) for t in (month.dew_point_c, month.ground_c))
        found.append(Figure(MONTHS[month.number - 1], f"dew point {dew}, ground {ground}"))
    return tuple(found)


SEASON = Sum(
    name="condensing-season",
    title="Months in which outside air wets a buried pipe, and the month of the peak",
    formula="wet where the dew point of the month's air is above the ground at mid-month; water "
    "as in condensate, ground as in ground",
    source=f"{ASHRAE}; Kusuda and Achenbach (1965)",
    caution="Monthly means: a muggy night in a dry month wets it too. Review every year.",
    inputs=(
        Input(
            key="month",
            says="January first, twelve of them",
            columns=(AIR, HUMIDITY),
        ),
        *GROUND,
        Input(key="depth", says="of the pipe's axis below grade", of=Dimension.LENGTH),
        FLOW,
        ALTITUDE,
    ),
    work=_season,
    example='mean="6.5 °C" amplitude="11.5 K" coldest-day=20 depth="1.94 m" flow="100 m³/h" '
    'month="-5 °C; 80 %" month="-3 °C; 78 %" month="1 °C; 70 %" month="6 °C; 62 %" '
    'month="11 °C; 60 %" month="15 °C; 60 %" month="18 °C; 62 %" month="17 °C; 64 %" '
    'month="12 °C; 66 %" month="6 °C; 70 %" month="0 °C; 76 %" month="-4 °C; 80 %"',
)
INSIDE = (
    Input(key="inside", says="temperature of the room", of=C),
    Input(key="humidity", says="of the room", of=RH),
    Input(key="outside", says="at the outer face: earth, or air", of=C),
)
WAY = Input(
    key="way",
    says="which way the heat goes",
    words=("wall", "up", "down"),
    usual="wall",
)
AGAINST = Input(key="against", says="what is outside", words=("earth", "air"), usual="earth")


def _surfaces(given: Given) -> tuple[float, float]:
    from record.calc.surface_temperature import RSE, RSI

    return RSI[given["way"]], RSE if given["against"] == "air" else 0.0


def _surface(given: Given) -> tuple[Figure, ...]:
    from record.calc.dew_point import dew_point_c
    from record.calc.surface_temperature import Layer, flat_surface

    rsi, rse = _surfaces(given)
    layers = [Layer(row["thickness"], row["conductivity"]) for row in given["layer"]]
    found = flat_surface(
        layers, inside_c=given["inside"], outside_c=given["outside"], rsi=rsi, rse=rse
    )
    dew = dew_point_c(given["inside"], given["humidity"])
    wet = found.temperature_c <= dew
    return (
        Figure("inside surface", found.temperature_c, C),
        Figure("dew point", dew, C),
        Figure("so", "condenses on it" if wet else "dry, by these figures"),
    )


SURFACE = Sum(
    name="surface",
    title="Temperature of an inside surface through its layers, against the dew point",
    formula="Tsi = Ti − Rsi (Ti − Te)/(Rsi + Σ t/k + Rse); dry while above the dew point",
    source="ISO 6946 (surface resistances from memory)",
    caution="Furring, studs, welds and corners are colder than this says.",
    inputs=(
        *INSIDE,
        Input(
            key="layer",
            says="from the room outward",
            columns=(
                Input(key="thickness", says="of the layer", of=Dimension.LENGTH),
                Input(key="conductivity", says="of it", of=Dimension.CONDUCTIVITY),
            ),
        ),
        WAY,
        AGAINST,
    ),
    work=_surface,
    example='inside="20 °C" humidity="70 %" outside="10 °C" layer="25 mm; 0.0222 W/mK" '
    'layer="6 mm; 50 W/mK"',
)


def _least_insulation(given: Given) -> tuple[Figure, ...]:
    from record.calc.dew_point import dew_point_c
    from record.calc.surface_temperature import least_resistance_m2k_w

    rsi, rse = _surfaces(given)
    dew = dew_point_c(given["inside"], given["humidity"])
    least = least_resistance_m2k_w(
        inside_c=given["inside"], outside_c=given["outside"], dew_point_c=dew, rsi=rsi, rse=rse
    )
    return (
        Figure("dew point", dew, C),
        Figure("least resistance", least, unit="m²K/W"),
        Figure("least of this", least * given["conductivity"], Dimension.LENGTH),
    )


LEAST_INSULATION = Sum(
    name="least-insulation",
    title="Insulation at which an inside surface is just at the dew point",
    formula="R = Rsi (Ti − Te)/(Ti − Td) − Rsi − Rse",
    source="ISO 6946 (surface resistances from memory)",
    caution="The edge, without a margin. Spray foam's advertised R is its first year's; aged it is "
    "a seventh less.",
    inputs=(
        *INSIDE,
        Input(key="conductivity", says="of the insulation", of=Dimension.CONDUCTIVITY),
        WAY,
        AGAINST,
    ),
    work=_least_insulation,
    example='inside="20 °C" humidity="70 %" outside="8 °C" conductivity="0.024 W/mK"',
)


def _pipe_insulation(given: Given) -> tuple[Figure, ...]:
    from record.calc.dew_point import dew_point_c
    from record.calc.surface_temperature import Layer, Pipe, least_pipe_insulation_m, pipe_surface

    dew = dew_point_c(given["air"], given["humidity"])
    pipe = Pipe(
        outside_m=given["outside-diameter"],
        inside_c=given["pipe"],
        air_c=given["air"],
        film_w_m2k=given["film"],
    )
    return tuple(
        _pipe_figures(
            dew,
            least_pipe_insulation_m(pipe, given["conductivity"], dew),
            None
            if "thickness" not in given
            else pipe_surface(pipe, Layer(given["thickness"], given["conductivity"])).temperature_c,
        )
    )


def _pipe_figures(dew: float, least: float, surface: float | None) -> Iterator[Figure]:
    yield Figure("dew point", dew, C)
    yield Figure("least thickness", least, Dimension.LENGTH)
    if surface is not None:
        yield Figure("surface as insulated", surface, C)
        yield Figure("so", "condenses on it" if surface <= dew else "dry, by these figures")


PIPE_INSULATION = Sum(
    name="pipe-insulation",
    title="Insulation that keeps the outside of a cold pipe dry",
    formula="R' = ln(r₂/r₁)/(2πk) + 1/(2πr₂h); dry while its surface is above the dew point",
    source="conduction in a cylinder, as in any heat transfer text",
    caution="The edge, without a margin. Joints, valves and hangers are what drips.",
    inputs=(
        Input(key="outside-diameter", says="of the bare pipe", of=Dimension.LENGTH),
        Input(key="pipe", says="temperature of what it carries", of=C),
        AIR,
        HUMIDITY,
        Input(key="conductivity", says="of the insulation", of=Dimension.CONDUCTIVITY),
        Input(key="thickness", says="as insulated", of=Dimension.LENGTH, optional=True),
        Input(key="film", says="of still air, W/m²K", usual="8", usual_from="still air"),
    ),
    work=_pipe_insulation,
    example='outside-diameter="114.3 mm" pipe="10 °C" air="25 °C" humidity="80 %" '
    'conductivity="0.035 W/mK"',
)

SUMS = (
    DEW_POINT,
    CONDENSATE,
    GROUND_TEMPERATURE,
    SEASON,
    SURFACE,
    LEAST_INSULATION,
    PIPE_INSULATION,
)
