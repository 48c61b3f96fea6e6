"""Sums about earth and groundwater: load, float level, uplift, hold-down, cover."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import TYPE_CHECKING

from record.reckon.sum import ENGINEER, Figure, Given, Input, Sum
from record.units import Dimension
from record.words import tell

if TYPE_CHECKING:
    from record.calc.uplift import Uplift

LENGTH, FORCE = Dimension.LENGTH, Dimension.FORCE
PA = Dimension.PRESSURE
MOIST = Input(key="moist", says="unit weight above the water", of=Dimension.UNIT_WEIGHT)
SATURATED = Input(key="saturated", says="unit weight below it", of=Dimension.UNIT_WEIGHT)
MASS = Input(key="mass", says="the least it can weigh", of=Dimension.MASS)
UNDERSIDE = Input(key="underside", says="level of its underside", of=LENGTH)
GRADE = Input(key="grade", says="level of finished grade", of=LENGTH)
WATER = Input(key="water", says="level of the groundwater", of=LENGTH, many=True)


def _load(given: Given) -> tuple[Figure, ...]:
    from record.calc.earth_load import Soil, earth_load

    layers = [
        Soil(row["thickness"], row["moist"] / 1000, row.get("saturated", row["moist"]) / 1000)
        for row in given["layer"]
    ]
    load = earth_load(layers, given.get("water-depth"))
    found = [Figure("weight of the earth", load.total_kpa * 1000, PA)]
    if load.water_kpa:
        found.append(Figure("of it water", load.water_kpa * 1000, PA))
        found.append(Figure("on the grains", load.effective_kpa * 1000, PA))
    return tuple(found)


COVER_LOAD = Sum(
    name="cover-load",
    title="Weight of the earth above",
    formula="σ = Σ γ h, saturated below the water; u = γw × depth below it",
    source="total and effective stress, as in any soil mechanics text",
    caution="Earth alone: no traffic, no snow, no arching. It says nothing of what can carry it.",
    confirm=ENGINEER,
    inputs=(
        Input(
            key="layer",
            says="from grade down",
            columns=(
                Input(key="thickness", says="of the layer", of=LENGTH),
                Input(key="moist", says="unit weight", of=Dimension.UNIT_WEIGHT),
                Input(
                    key="saturated",
                    says="unit weight below water",
                    of=Dimension.UNIT_WEIGHT,
                    optional=True,
                ),
            ),
        ),
        Input(key="water-depth", says="groundwater below grade", of=LENGTH, optional=True),
    ),
    work=_load,
    example='layer="1.2 m; 19 kN/m³"',
)


def _cover(given: Given) -> tuple[Figure, ...]:
    least = min(given["point"])
    short = given["design"] - least
    words = (
        tell("reckon.least_point_mm_short", short=f"{short * 1000:.0f}")
        if short > 0
        else tell("reckon.every_point_at_or", what=f"{-short * 1000:.0f}")
    )
    return (Figure("least point", least, LENGTH), Figure("so", words))


COVER = Sum(
    name="cover",
    title="Measured cover against the design cover somebody signed for",
    formula="least of the points − design; never the mean",
    source="common practice, no source",
    caution="More earth is more load: whether more is right, the engineer says.",
    confirm=ENGINEER,
    inputs=(
        Input(key="point", says="measured cover", of=LENGTH, many=True),
        Input(key="design", says="least cover of the design", of=LENGTH),
    ),
    work=_cover,
    example='point="1.30 m" point="1.17 m" design="1.20 m"',
)


def _float(given: Given) -> tuple[Figure, ...]:
    from record.calc.uplift import float_level_m

    level = float_level_m(
        mass_kg=given["mass"], plan_m2=given["plan"], underside_m=given["underside"]
    )
    return (
        Figure("begins to float at", level, LENGTH),
        Figure("above its underside", level - given["underside"], LENGTH),
    )


FLOAT_LEVEL = Sum(
    name="float-level",
    title="Water level in the open pit at which an empty hull begins to float",
    formula="h = mass/(ρw × plan area), above the underside",
    source="Archimedes; 1,000 kg/m³",
    caution="A mark for the wall of the pit, not a promise: below it suction, mud, rain and a low "
    "corner still move a hull. Pump before, and keep people out.",
    confirm=ENGINEER,
    inputs=(MASS, Input(key="plan", says="outside plan", of=Dimension.AREA), UNDERSIDE),
    work=_float,
    example='mass="6500 kg" plan="24.44 m²" underside="46.194 m"',
)


def _said(found: Uplift) -> Iterator[Figure]:
    yield Figure("water at", found.water_m, LENGTH)
    yield Figure("  own weight", found.own_kn * 1000, FORCE)
    yield Figure("  earth", found.earth_kn * 1000, FORCE)
    yield Figure("  lift", found.lift_kn * 1000, FORCE)
    ratio = found.ratio
    yield Figure("  held / lifted", ratio if math.isfinite(ratio) else "the water is below it")


def _uplift(given: Given) -> tuple[Figure, ...]:
    from record.calc.uplift import CONVENTION, Buried, level_for_ratio_m, uplift

    box = Buried(
        mass_kg=given["mass"],
        plan_m2=given["plan"],
        underside_m=given["underside"],
        top_m=given["top"],
        grade_m=given["grade"],
        moist_kn_m3=given["moist"] / 1000,
        saturated_kn_m3=given["saturated"] / 1000,
    )
    found = [Figure("convention", CONVENTION)]
    for level in given["water"]:
        found += _said(uplift(box, level))
    for ratio in given["ratio"]:
        level_m = level_for_ratio_m(box, ratio)
        name = tell("reckon.comes_down_to_at", ratio=f"{ratio:g}")
        found.append(
            Figure(name, "not with water up to grade")
            if level_m is None
            else Figure(name, level_m, LENGTH)
        )
    return tuple(found)


UPLIFT = Sum(
    name="uplift",
    title="What lifts a buried box, and what holds it down, by groundwater level",
    formula="(own weight + earth straight above)/(γw × plan × height under water)",
    source="as FEMA P-259, with the convention printed",
    caution="One convention of several. Which ratio is enough, and at which level to act, is for "
    "the engineer of record. It is no verdict on structure.",
    confirm=ENGINEER,
    inputs=(
        MASS,
        Input(key="plan", says="outside plan", of=Dimension.AREA),
        UNDERSIDE,
        Input(key="top", says="level of its outside top", of=LENGTH),
        GRADE,
        MOIST,
        SATURATED,
        Input(key="water", says="level of the groundwater", of=LENGTH, many=True, optional=True),
        Input(
            key="ratio",
            says="held over lifted, to find the level of",
            many=True,
            usual="1.0",
            usual_from="where it begins to lift",
        ),
    ),
    work=_uplift,
    example='mass="6500 kg" plan="24.44 m²" underside="46.194 m" top="48.706 m" grade="50.00 m" '
    'moist="18 kN/m³" saturated="20 kN/m³" ratio=1.5 ratio=1.2 ratio=1.0',
)


def _uplift_round(given: Given) -> tuple[Figure, ...]:
    from record.calc.uplift_round import CONVENTION, BuriedRound, uplift_round

    tank = BuriedRound(
        mass_kg=given["mass"],
        diameter_m=given["diameter"],
        length_m=given["length"],
        underside_m=given["underside"],
        grade_m=given["grade"],
        moist_kn_m3=given["moist"] / 1000,
        saturated_kn_m3=given["saturated"] / 1000,
    )
    found = [Figure("convention", CONVENTION)]
    for level in given["water"]:
        found += _said(uplift_round(tank, level))
    return tuple(found)


UPLIFT_ROUND = Sum(
    name="uplift-round",
    title="What lifts a buried cylinder lying on its side, and what holds it down",
    formula="(own weight + earth over the upper half)/(γw × segment under water × length)",
    source="as FEMA P-259, with the convention printed",
    caution=UPLIFT.caution,
    confirm=ENGINEER,
    inputs=(
        MASS,
        Input(key="diameter", says="outside", of=LENGTH),
        Input(key="length", says="outside", of=LENGTH),
        UNDERSIDE,
        GRADE,
        MOIST,
        SATURATED,
        WATER,
    ),
    work=_uplift_round,
    example='mass="4497 kg" diameter="2.44 m" length="6.10 m" underside="0 m" grade="3.44 m" '
    'moist="18 kN/m³" saturated="20 kN/m³" water="2.44 m"',
)


def _hold_down(given: Given) -> tuple[Figure, ...]:
    from record.calc.hold_down import concrete_m3, hold_down_n

    force = hold_down_n(
        volume_m3=given["volume"],
        weight_n=given["mass"] * 9.80665,
        water_n_m3=given["water-weight"],
        factor=given["factor"],
    )
    if force <= 0:
        return (Figure("hold-down", "none by this: its own weight is more"),)
    concrete = concrete_m3(
        force, concrete_n_m3=given["concrete-weight"], water_n_m3=given["water-weight"]
    )
    return (Figure("hold-down", force, FORCE), Figure("or concrete", concrete, Dimension.VOLUME))


HOLD_DOWN = Sum(
    name="hold-down",
    title="Force that must hold an empty tank under water",
    formula="F = V γw FS − W; concrete F/(γc − γw)",
    source="FEMA P-259, example C7",
    caution="The factor is somebody's choice: 1.2, 1.3 and 1.5 are all in use. Say whose.",
    confirm=ENGINEER,
    inputs=(
        Input(key="volume", says="what it displaces", of=Dimension.VOLUME),
        MASS,
        Input(key="factor", says="on the lift, and say whose"),
        Input(
            key="water-weight",
            says="of the water",
            of=Dimension.UNIT_WEIGHT,
            usual="62.4 pcf",
            usual_from="fresh water",
        ),
        Input(
            key="concrete-weight",
            says="of the concrete",
            of=Dimension.UNIT_WEIGHT,
            usual="150 pcf",
            usual_from="FEMA P-259",
        ),
    ),
    work=_hold_down,
    example='volume="250 gal" mass="670 lb" factor=1.3',
)

SUMS = (COVER_LOAD, COVER, FLOAT_LEVEL, UPLIFT, UPLIFT_ROUND, HOLD_DOWN)
