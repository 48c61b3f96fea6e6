"""Sums about the air of people: each one's share, carbon dioxide, and what a person breathes out.

None of them says how long anybody may stay.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import TYPE_CHECKING

from record.calc.air_cautions import ALARM_RULES, CAUTIONS
from record.reckon.of_air import ALTITUDE, both, whole
from record.reckon.sum import ALARM, Figure, Given, Input, Sum
from record.units import Dimension
from record.words import tell, term

if TYPE_CHECKING:
    from record.calc.people_limits import Limit, Room

FLOW, PPM = Dimension.FLOW, Dimension.CONCENTRATION
PEOPLE = Input(key="people", says="how many")
EACH = Input(
    key="each",
    says="carbon dioxide that one breathes out",
    of=FLOW,
    usual="0.0052 L/s",
    usual_from="an adult sitting; work, fear and warmth make it more",
)
OUTSIDE = Input(
    key="outside", says="in the open air", of=PPM, usual="420 ppm", usual_from="near today's"
)
MODES = ("motor", "crank", "motor and crank", "other")
WELL_MIXED = CAUTIONS[ALARM_RULES]


def _supply(given: Given) -> tuple[Figure, ...]:
    from record.calc.people_air import Mode, shares

    (found,) = shares(
        [Mode("supply", given["flow"] * 3600)],
        whole(given["people"], "people"),
        each_l_s=given["each"] * 1000,
        outside_ppm=given["outside"] * 1e6,
    )
    return (
        Figure("for each", found.each_m3_h / 3600, FLOW),
        Figure("carbon dioxide comes to", found.steady_ppm, unit="ppm"),
    )


SUPPLY = Sum(
    name="supply",
    title="Each person's share of the air, and the carbon dioxide it comes to",
    formula="Q/n; C = C outside + n G/Q, in the end",
    source="ASHRAE Standard 62.1, informative appendix (from memory)",
    caution=WELL_MIXED,
    confirm=ALARM,
    inputs=(
        Input(key="flow", says="of outside air, measured", of=FLOW),
        PEOPLE,
        EACH,
        OUTSIDE,
    ),
    work=_supply,
    example='flow="100 m³/h" people=8',
)


def _co2(given: Given) -> tuple[Figure, ...]:
    from record.calc.people_limits import LIMITS, Room

    room = Room(
        volume_m3=given["volume"],
        generation_l_s=given["each"] * 1000 * whole(given["people"], "people"),
        start_ppm=given["start"] * 1e6,
        outside_ppm=given["outside"] * 1e6,
        flow_m3_h=given["flow"] * 3600,
    )
    then, steady = _then_ppm(room, given["after"] / 3600), _steady_ppm(room)
    found = [
        Figure(tell("reckon.at", given=both(given["after"], Dimension.DURATION)), then, unit="ppm")
    ]
    if math.isfinite(steady):
        found.append(Figure("in the end", steady, unit="ppm"))
    else:
        found.append(Figure("in the end", "it rises as long as people breathe"))
    found += [
        Figure(
            tell("reckon.limit", words=term(one.words)),
            tell(
                "reckon.ppm",
                ppm=f"{one.ppm:.0f}",
                reached=term(_reached(one, then, steady)),
                source=term(one.source),
            ),
        )
        for one in LIMITS
    ]
    return (*found, *_passed(room))


def _then_ppm(room: Room, elapsed_h: float) -> float:
    from record.calc.room_air import closed_co2_ppm, ventilated_co2_ppm

    if not room.flow_m3_h:
        return closed_co2_ppm(
            start_ppm=room.start_ppm,
            generation_l_s=room.generation_l_s,
            volume_m3=room.volume_m3,
            elapsed_h=elapsed_h,
        )
    return ventilated_co2_ppm(
        start_ppm=room.start_ppm,
        outside_ppm=room.outside_ppm,
        generation_l_s=room.generation_l_s,
        flow_m3_h=room.flow_m3_h,
        volume_m3=room.volume_m3,
        elapsed_h=elapsed_h,
    )


def _steady_ppm(room: Room) -> float:
    from record.calc.room_air import steady_co2_ppm

    if not room.flow_m3_h:
        return math.inf
    return steady_co2_ppm(
        outside_ppm=room.outside_ppm,
        generation_l_s=room.generation_l_s,
        flow_m3_h=room.flow_m3_h,
    )


def _reached(limit: Limit, then: float, steady: float) -> str:
    if then >= limit.ppm:
        return ", REACHED by then"
    return ", PASSED in the end" if steady > limit.ppm else ""


def _passed(room: Room) -> Iterator[Figure]:
    """Yield, last, each limit that the sum passes; a limit it does not pass is not said to hold."""
    from record.calc.people_limits import crossings

    for one in crossings(room):
        if one.crosses_h is None:
            continue
        hours, minutes = divmod(math.floor(one.crosses_h * 60 + 1e-6) + 1, 60)
        when = (
            tell("reckon.before_from_start", hours=hours, minutes=f"{minutes:02d}")
            if one.crosses_h
            else "at the start"
        )
        yield Figure(
            one.limit.words,
            tell("reckon.by_these_figures_ppm", ppm=f"{one.limit.ppm:.0f}", when=term(when)),
        )


CO2 = Sum(
    name="co2",
    title="Carbon dioxide in a room with people in it, at a stated time, beside the limits",
    formula="closed C = C₀ + G t/V; ventilated C = Cs + (C₀ − Cs) e^(−Q t/V), Cs = C outside + G/Q",
    source="ASTM D6245, mass balance of one well-mixed zone (from memory)",
    caution=WELL_MIXED,
    confirm=ALARM,
    inputs=(
        Input(key="volume", says="of the air, less what fills the room", of=Dimension.VOLUME),
        PEOPLE,
        Input(key="after", says="the time asked about", of=Dimension.DURATION),
        Input(
            key="flow",
            says="of outside air, measured",
            of=FLOW,
            usual="0 m³/h",
            usual_from="closed",
        ),
        EACH,
        Input(
            key="start",
            says="in the room at first",
            of=PPM,
            usual="420 ppm",
            usual_from="aired through",
        ),
        OUTSIDE,
    ),
    work=_co2,
    example='volume="60.8 m³" people=8 after="2 h"',
)


def _served(given: Given) -> tuple[Figure, ...]:
    from record.calc.people_air import Mode, served
    from record.calc.people_limits import Limit

    found = served(
        [Mode(row["by"], row["flow"] * 3600) for row in given["mode"]],
        Limit("as given", given["limit"] * 1e6, "as given"),
        each_l_s=given["each"] * 1000,
        outside_ppm=given["outside"] * 1e6,
    )
    return tuple(
        Figure(
            tell("reckon.by", name=term(one.mode.name)),
            tell(
                "reckon.people_at_most_at",
                people=one.people,
                needed_m3_h=both(one.needed_m3_h / 3600, FLOW),
                steady_ppm=f"{one.steady_ppm:.0f}",
            ),
        )
        for one in found
    )


SERVED = Sum(
    name="people-served",
    title="For how many people a supply is enough by a limit, mode by mode",
    formula="n = Q (C limit − C outside)/G, rounded down",
    source="ASHRAE Standard 62.1, informative appendix, turned round (from memory); OSHA 29 CFR "
    "1910.1000 table Z-1 for the usual limit",
    caution="The air of a far room, heat and damp want fewer. " + WELL_MIXED,
    confirm=ALARM,
    inputs=(
        Input(
            key="mode",
            says="each way the air is driven",
            columns=(
                Input(key="by", says="what drives it", words=MODES),
                Input(key="flow", says="of outside air, measured so", of=FLOW),
            ),
        ),
        Input(
            key="limit",
            says="of carbon dioxide",
            of=PPM,
            usual="5000 ppm",
            usual_from="workplace, mean of 8 h (OSHA); a maker's or engineer's goes before it",
        ),
        EACH,
        OUTSIDE,
    ),
    work=_served,
    example='mode="motor; 150 m³/h" mode="crank; 100 m³/h" limit="2500 ppm"',
)


def _breath(given: Given) -> tuple[Figure, ...]:
    from record.calc.air_density import altitude_pressure_pa
    from record.calc.people_breath import basal_mj_d, co2_l_s

    pressure = altitude_pressure_pa(given["altitude"])
    rates = [
        co2_l_s(
            basal_mj_d(row["sex"], row["age"], row["mass"]),
            row["activity"],
            temperature_c=given["temperature"],
            pressure_pa=pressure,
        )
        for row in given["person"]
    ]
    return (
        *(
            Figure(tell("reckon.person_2", n=n), rate, unit="L/s")
            for n, rate in enumerate(rates, 1)
        ),
        Figure("all of them", math.fsum(rates), unit="L/s"),
        Figure("mean of them", math.fsum(rates) / len(rates), unit="L/s"),
    )


BREATH = Sum(
    name="breath",
    title="Carbon dioxide that people breathe out, by sex, age, mass and what they do",
    formula="V = 0.85 × basal rate × activity × T/P × 0.000211 L/s, T in K, P in kPa",
    source="Persily and de Jonge, Indoor Air 27 (2017) 868; basal rates by Schofield (1985)",
    caution="A mean of many: one person is easily 15 % off. Fear, fever and warmth make it more.",
    confirm=ALARM,
    inputs=(
        Input(
            key="person",
            says="each one",
            columns=(
                Input(key="sex", says="as the equations have it", words=("m", "f")),
                Input(key="age", says="years, from 3"),
                Input(key="mass", says="of the body", of=Dimension.MASS),
                Input(
                    key="activity",
                    says="in met: 1 lying, 1.2 sitting, 1.4 standing, 2 to 4 working",
                    usual="1.2",
                    usual_from="sitting",
                ),
            ),
        ),
        Input(key="temperature", says="of the room", of=Dimension.TEMPERATURE, usual="20 °C"),
        ALTITUDE,
    ),
    work=_breath,
    example='person="m; 40; 85 kg; 1.2" person="f; 40; 75 kg; 1.2" person="m; 8; 31.9 kg; 1.4"',
)

SUMS = (SUPPLY, CO2, SERVED, BREATH)
