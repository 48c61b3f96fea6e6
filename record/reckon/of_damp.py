"""Sums about damp: dew point, what condenses, and when."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from record.reckon.sum import Figure, Given, Input, Sum
from record.units import Dimension, in_both
from record.words import tell, term

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
        found.append(
            Figure(
                "surface",
                tell(
                    "reckon.dew_point_c_by", verdict=term(verdict), margin=f"{abs(margin - 3):.1f}"
                ),
            )
        )
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
    spans = [
        tell("reckon.to_3", months=term(MONTHS[first - 1]), months_2=term(MONTHS[last - 1]))
        for first, last in seasons(year)
    ]
    most = peak(year)
    found = [Figure("condenses", "; ".join(spans) or "in no month, by these normals")]
    if most:
        a_day = in_both(Decimal(repr(most.water_kg_day)), KG)
        found.append(
            Figure("most in", tell("reckon.day", months=term(MONTHS[most.number - 1]), a_day=a_day))
        )
    for month in year:
        dew, ground = (in_both(Decimal(repr(t)), C) for t in (month.dew_point_c, month.ground_c))
        found.append(
            Figure(
                MONTHS[month.number - 1], tell("reckon.dew_point_ground", dew=dew, ground=ground)
            )
        )
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

SUMS = (DEW_POINT, CONDENSATE, GROUND_TEMPERATURE, SEASON)
