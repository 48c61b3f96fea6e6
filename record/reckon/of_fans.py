"""Sums about what drives and feeds air: where a fan meets its way of air, and a trunk's size."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from record.calc.air_cautions import CAUTIONS, MEASURED_TRIAL
from record.reckon.of_air import (
    ALTITUDE,
    ASHRAE,
    FLOW,
    LENGTH,
    PA,
    ROUGHNESS,
    RUN,
    TEMPERATURE,
    WALL,
    air_of,
    both,
    lengths_of,
    rough_m,
    run_figures,
)
from record.reckon.sum import MAKER, Figure, Given, Input, Sum
from record.units import Dimension
from record.words import tell

if TYPE_CHECKING:
    from record.calc.air_system import Part, SystemDrop
    from record.calc.trunk_size import Sized


def _parts(given: Given) -> tuple[Part, ...]:
    from record.calc.air_system import Part

    return tuple(
        Part(
            name=tell("reckon.part", place=place),
            rated_m3_s=row["flow"],
            rated_pa=row["pressure"],
            exponent=1.0 if row["like"] == "mat" else 2.0,
            opening_pa=row["opens"],
        )
        for place, row in enumerate(given["part"], 1)
    )


def _fan(given: Given) -> tuple[Figure, ...]:
    from record.calc.fan_curve import FanCurve
    from record.calc.fan_point import fan_point

    curve = FanCurve(
        points=tuple((row["flow"], row["pressure"]) for row in given["point"]),
        density_kg_m3=given["sheet-air"],
    )
    found = fan_point(curve, lengths_of(given), _parts(given), air_of(given), speed=given["speed"])
    return (
        Figure("flow", found.flow_m3_s, FLOW),
        Figure("at", found.fan_pa, PA),
        Figure("power in the air", found.air_w, Dimension.POWER),
        *run_figures(found.system.run),
        *_part_figures(found.system),
    )


PART = Input(
    key="part",
    says="a filter, valve or grille by one point of its sheet",
    columns=(
        Input(key="flow", says="of that point", of=FLOW),
        Input(key="pressure", says="it takes there", of=PA),
        Input(
            key="like",
            says="how it rises with the flow: as it, or as its square",
            words=("mat", "opening"),
            usual="opening",
        ),
        Input(key="opens", says="at which pressure, if a valve", of=PA, usual="0 Pa"),
    ),
    optional=True,
)


def _part_figures(system: SystemDrop) -> Iterator[Figure]:
    for part in system.parts:
        opens = (
            tell("reckon.and_to_open", opening_pa=both(part.opening_pa, PA))
            if part.opening_pa
            else ""
        )
        yield Figure(part.name, f"{both(part.flow_pa, PA)}{opens}")


def _way(given: Given) -> tuple[Figure, ...]:
    from record.calc.air_system import system_drop

    found = system_drop(lengths_of(given), _parts(given), given["flow"], air_of(given))
    return (
        Figure("way takes", found.total_pa, PA),
        Figure("runs", found.run.total_pa, PA),
        Figure("parts", found.parts_pa, PA),
        Figure("to open", found.openings_pa, PA),
        *run_figures(found.run),
        *_part_figures(found),
    )


AIR_WAY = Sum(
    name="air-way",
    title="Pressure that a flow takes along its whole way: runs, filters and valves",
    formula="Δp = runs(Q) + Σ parts Δp₀(Q/Q₀)ⁿ(ρ/ρ₀)ⁿ⁻¹ + openings; runs as in air-drop",
    source=f"system curve, {ASHRAE}; parts by one point of the maker's sheet",
    caution="A dirty filter, a wet sag and a stuck flap take more. " + CAUTIONS[MEASURED_TRIAL],
    confirm=MAKER,
    inputs=(
        Input(key="flow", says="through all of it", of=FLOW),
        *RUN,
        PART,
        ALTITUDE,
        TEMPERATURE,
    ),
    work=_way,
    example='flow="100 m³/h" length="15.20 m; 152 mm; plastic, jointed; 0.8" '
    'part="100 m³/h; 190 Pa; mat" part="100 m³/h; 0 Pa; opening; 60 Pa" altitude="1180 m" '
    'temperature="10 °C"',
)

FAN_POINT = Sum(
    name="fan-point",
    title="Flow at which a fan or a cranked blower meets the resistance of its way of air",
    formula="Q where fan(Q) = runs(Q) + Σ parts Δp₀(Q/Q₀)ⁿ + openings, straight between points; "
    "at another speed Q ~ N, Δp ~ N²ρ",
    source=f"system curve, {ASHRAE}; fan laws, ANSI/AMCA 210 (from memory)",
    caution="Leaks, a dirty filter and a fan set against a bend give less. "
    + CAUTIONS[MEASURED_TRIAL],
    confirm=MAKER,
    inputs=(
        Input(
            key="point",
            says="of the maker's curve, flows rising, right of its peak",
            columns=(
                Input(key="flow", says="of it", of=FLOW),
                Input(key="pressure", says="it gives there", of=PA),
            ),
        ),
        *RUN,
        PART,
        Input(key="speed", says="of that on the sheet", of=Dimension.PERCENT, usual="100 %"),
        Input(
            key="sheet-air",
            says="of the air of the sheet",
            of=Dimension.DENSITY,
            usual="1.2014 kg/m³",
            usual_from="standard air, 0.075 lb/ft³",
        ),
        ALTITUDE,
        TEMPERATURE,
    ),
    work=_fan,
    example='point="0 m³/h; 440 Pa" point="100 m³/h; 283 Pa" point="130 m³/h; 133 Pa" '
    'length="15.20 m; 152 mm; plastic, jointed" fitting="smooth bend 90, r/d 1.5; 2" '
    'part="100 m³/h; 190 Pa; mat" part="100 m³/h; 0 Pa; opening; 60 Pa" altitude="1180 m" '
    'temperature="10 °C"',
)


def _trunk(given: Given) -> tuple[Figure, ...]:
    from record.calc.trunk_size import trunk_size

    if not given["over"] > 0:
        raise ValueError(f"a loss over {given['over']:g} m is over no length")
    found = trunk_size(
        given["branch"],
        given["loss"] / given["over"],
        rough_m(given["wall"], given),
        air_of(given),
        given["size"],
    )
    named = [("trunk", found.trunk)]
    named += [
        (tell("reckon.branch", place=place), one) for place, one in enumerate(found.branches, 1)
    ]
    return tuple(each for name, one in named for each in _sized(name, one, given))


def _sized(name: str, one: Sized, given: Given) -> Iterator[Figure]:
    yield Figure(tell("reckon.carries", name=name), one.flow_m3_s, FLOW)
    yield Figure("  exact inside", one.exact_m, LENGTH)
    if one.in_nominal is not None and one.nominal_m is not None:
        yield Figure("  take", one.nominal_m, LENGTH)
        yield Figure("  where it goes at", one.in_nominal.velocity_m_s, Dimension.VELOCITY)
        yield Figure("  and loses", one.in_nominal.straight_pa * given["over"], PA)
    elif given["size"]:
        yield Figure("  take", "NONE of the sizes given is wide enough")


TRUNK = Sum(
    name="trunk",
    title="Size of a trunk and its branches, all losing alike a metre",
    formula="D at which f/D ½ρV² = loss/over; the trunk carries the sum; the next wider size",
    source=f"equal friction, {ASHRAE}",
    caution="Branches of unequal length do not share the flow so by themselves: dampers do. "
    + CAUTIONS[MEASURED_TRIAL],
    confirm=MAKER,
    inputs=(
        Input(key="branch", says="flow of each", of=FLOW, many=True),
        Input(key="loss", says="that each may have", of=PA),
        Input(
            key="over",
            says="in how much straight pipe",
            of=LENGTH,
            usual="100 ft",
            usual_from="as the charts of ducts have it",
        ),
        WALL,
        ROUGHNESS,
        Input(
            key="size", says="inside diameter that can be had", of=LENGTH, many=True, optional=True
        ),
        ALTITUDE,
        TEMPERATURE,
    ),
    work=_trunk,
    example='branch="200 cfm" branch="100 cfm" loss="0.1 in w.g." wall="galvanised duct, chart" '
    'size="6 in" size="8 in" size="10 in"',
)

SUMS = (AIR_WAY, FAN_POINT, TRUNK)
