"""Sums about the crank: what turning it takes, what was published of holding that, and turns."""

from __future__ import annotations

from record.calc.air_cautions import CAUTIONS, STRAIN
from record.reckon.of_air import both, whole
from record.reckon.sum import MAKER, Figure, Given, Input, Sum
from record.units import Dimension
from record.words import tell, term

POWER = Dimension.POWER
STRAINS = CAUTIONS[STRAIN]
ABLE = "people able to crank: not children, the sick or the pregnant"


def _plan(over: bool) -> Figure:
    from record.calc.crank_power import PLAN_W

    word = "OVER" if over else "within"
    return Figure("plan", tell("reckon.w_to_plan_with", word=term(word), plan_w=f"{PLAN_W:.0f}"))


def _crank(given: Given) -> tuple[Figure, ...]:
    from record.calc.crank_power import crank_load
    from record.calc.crank_rota import TURN_MIN, crank_rota

    load = crank_load(
        flow_m3_s=given["flow"],
        pressure_pa=given["pressure"],
        efficiency=given["efficiency"],
        rate_rev_s=given["turned"],
        radius_m=given["radius"],
    )
    found = [
        Figure("in the air", load.air_w, POWER),
        Figure("at the crank", load.shaft_w, POWER),
        _plan(load.over_plan),
        Figure("torque", load.torque_nm, Dimension.TORQUE),
        Figure("at the handle", load.handle_n, Dimension.FORCE),
        Figure("handle goes at", load.handle_m_s, Dimension.VELOCITY),
    ]
    if "able" in given:
        able = whole(given["able"], "people able to crank")
        rota = crank_rota(able, max(able, 1) * TURN_MIN)
        found.append(Figure("turns", _turns(rota.alone, TURN_MIN, rota.rest_min)))
    return tuple(found)


def _turns(alone: bool, turn_min: int, rest_min: int) -> str:
    if alone:
        return "nobody to change with: one person alone is no plan"
    return tell("reckon.change_person_every_min", turn_min=turn_min, rest_min=rest_min)


CRANK = Sum(
    name="crank",
    title="Power, torque and pull that cranking a flow against a pressure takes",
    formula="P = QΔp/η; T = P/(2πn); F = T/r; plan with at most 50 W for one person",
    source="mechanics; fan power as in ASHRAE Handbook – HVAC Systems and Equipment (from memory)",
    caution="The mean of a turn; starting, and a gear stiff with cold, take more. " + STRAINS,
    confirm=MAKER,
    inputs=(
        Input(key="flow", says="at this altitude", of=Dimension.FLOW),
        Input(key="pressure", says="at this altitude", of=Dimension.PRESSURE),
        Input(key="turned", says="how fast", of=Dimension.ROTATION),
        Input(key="radius", says="from axle to handle", of=Dimension.LENGTH),
        Input(
            key="efficiency",
            says="of blower and gear together",
            of=Dimension.PERCENT,
            usual="35 %",
            usual_from="hand blowers come to 30 to 40 %",
        ),
        Input(key="able", says=ABLE, optional=True),
    ),
    work=_crank,
    example='flow="100 m³/h" pressure="255 Pa" turned="45 rev/min" radius="200 mm" able=4',
)


def _hold(given: Given) -> tuple[Figure, ...]:
    from record.calc.crank_hold import AGE_SHARE, crank_hold, krendel_w

    found = crank_hold(given["power"])
    more = "; it was measured no longer" if found.beyond_range else ""
    hour = "; ".join(f"{age}: {krendel_w(60, age):.0f} W" for age in AGE_SHARE)
    return (
        _plan(found.over_plan),
        Figure(
            "fit man of 35",
            tell(
                "reckon.min_with_his_whole", fit_man_min=f"{found.fit_man_min:.3g}", more=term(more)
            ),
        ),
        Figure("for an hour, by age", hour),
        *(
            Figure(
                one.who,
                tell(
                    "reckon.w_for_min",
                    least_w=_span(one.least_w, one.most_w),
                    least_min=_span(one.least_min, one.most_min),
                    source=term(one.source),
                ),
            )
            for one in found.known
        ),
    )


def _span(least: float, most: float) -> str:
    return (
        f"{least:.0f}"
        if least == most
        else tell("reckon.to", least=f"{least:.0f}", most=f"{most:.0f}")
    )


CRANK_HOLD = Sum(
    name="crank-hold",
    title="What was published of holding a power at a crank",
    formula="hp = 0.35 − 0.092 log₁₀ t, t in minutes from 4 to 480, turned round",
    source="Krendel, in Marks' Standard Handbook for Mechanical Engineers (from memory); others",
    caution="Figures of fit men; no promise about anyone. " + STRAINS,
    confirm=MAKER,
    inputs=(Input(key="power", says="at the crank", of=POWER),),
    work=_hold,
    example='power="50 W"',
)


def _minutes(seconds: float, what: str) -> int:
    minutes = round(seconds / 60)
    if abs(seconds / 60 - minutes) > 1e-6:
        raise ValueError(f"{what} of {both(seconds, Dimension.DURATION)} is no whole minutes")
    return minutes


def _rota(given: Given) -> tuple[Figure, ...]:
    from record.calc.crank_rota import crank_rota

    turn = _minutes(given["turn"], "a turn")
    rota = crank_rota(
        whole(given["able"], "people able to crank"), _minutes(given["total"], "a total"), turn
    )
    found = [Figure("turns", _turns(rota.alone, turn, rota.rest_min))]
    for person, worked in enumerate(rota.worked_min, 1):
        own = [each for each in rota.turns if each.person == person]
        spans = ", ".join(
            tell("reckon.to_2", from_min=_clock(each.from_min), to_min=_clock(each.to_min))
            for each in own
        )
        found.append(
            Figure(
                tell("reckon.person", person=person),
                tell("reckon.in_all", what=spans or term("no turn"), worked=_clock(worked)),
            )
        )
    return tuple(found)


def _clock(minutes: int) -> str:
    return f"{minutes // 60}:{minutes % 60:02d}"


ROTA = Sum(
    name="rota",
    title="Turns at the crank, shared out among those who are able",
    formula="round and round in one order, each turn as long as the last",
    source="common practice, no source",
    caution="Sleep is not in it. Whoever is tired is left out, and the rota made anew. " + STRAINS,
    confirm=MAKER,
    inputs=(
        Input(key="able", says=ABLE),
        Input(key="total", says="how long the crank is to go", of=Dimension.DURATION),
        Input(
            key="turn",
            says="how long a turn is",
            of=Dimension.DURATION,
            usual="15 min",
            usual_from="as an emergency page has it",
        ),
    ),
    work=_rota,
    example='able=4 total="2 h"',
)

SUMS = (CRANK, CRANK_HOLD, ROTA)
