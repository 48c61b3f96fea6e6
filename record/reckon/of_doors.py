"""Sums about pressure at doors, in the far room and in traps, and about an intake's distance."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from record.calc.air_cautions import CAUTIONS, CODE_OFFICIAL, DRY_TRAP, LOCAL_CODE, MEASURED_TRIAL
from record.reckon.of_air import ALTITUDE, TEMPERATURE, air_of, both
from record.reckon.sum import MAKER, OFFICE, Figure, Given, Input, Sum
from record.units import Dimension
from record.words import tell, term

if TYPE_CHECKING:
    from record.calc.air_far_room import Leak
    from record.calc.air_intake import Apart

LENGTH, FLOW, PA, FORCE = Dimension.LENGTH, Dimension.FLOW, Dimension.PRESSURE, Dimension.FORCE


def _one(given: Given, key: str) -> dict[str, Any] | None:
    """Return the only row of an input. Raises ValueError where there are more."""
    rows = given[key]
    if len(rows) > 1:
        raise ValueError(f"{key} is given {len(rows)} times: one holds for the whole room")
    return dict(rows[0]) if rows else None


def _leak(given: Given, key: str) -> Leak:
    from record.calc.air_far_room import Leak

    row = _one(given, key) or {}
    return Leak(flow_m3_s=row["flow"], at_pa=row["tested-at"], exponent=row["exponent"])


def _rooms(given: Given) -> tuple[Figure, ...]:
    from record.calc.air_far_room import Relief, two_rooms

    row = _one(given, "relief")
    found = two_rooms(
        given["supply"],
        near_leak=_leak(given, "near-leak"),
        far_leak=_leak(given, "far-leak"),
        relief=None
        if row is None
        else Relief(opens_pa=row["opens"], flow_m3_s=row["flow"], over_pa=row["over"]),
        opening_m2=given["opening"],
        density_kg_m3=air_of(given).density_kg_m3,
    )
    return (
        Figure("near room", found.near_pa, PA),
        Figure("far room", found.far_pa, PA),
        Figure("lost between them", found.between_pa, PA),
        Figure("reaches the far room", found.through_m3_s, FLOW),
        Figure("leaks from the near", found.near_leak_m3_s, FLOW),
        Figure("leaks from the far", found.far_leak_m3_s, FLOW),
        *(() if row is None else (Figure("by the relief valve", found.valve_m3_s, FLOW),)),
        Figure("relief valve", "open" if found.valve_open else "SHUT, or none given"),
    )


LEAK = (
    Input(key="flow", says="lost in a tightness test", of=FLOW),
    Input(key="tested-at", says="pressure of the test", of=PA),
    Input(key="exponent", says="0.5 a hole, 1 a long crack", usual="0.65", usual_from="usual"),
)
FAR_ROOM = Sum(
    name="far-room",
    title="Pressure that a supply holds in a room, and in the room behind it",
    formula="leak Q₀(Δp/Δp₀)ⁿ; opening Δp = ½ρ(Q/(0.6 A))²; valve Δp = opens + over (Q/Q valve)²",
    source="power law of tightness tests, ASTM E779; sharp orifice, any hydraulics text",
    caution="Wind, and warm air standing in a shaft, move it by tens of pascals. "
    + CAUTIONS[MEASURED_TRIAL],
    confirm=MAKER,
    inputs=(
        Input(key="supply", says="into the near room, measured", of=FLOW),
        Input(key="near-leak", says="of the near room", columns=LEAK),
        Input(key="far-leak", says="of the far room", columns=LEAK),
        Input(key="opening", says="free area between them", of=Dimension.AREA),
        Input(
            key="relief",
            says="the valve in the far room",
            columns=(
                Input(key="opens", says="at which pressure", of=PA),
                Input(key="flow", says="that passes", of=FLOW),
                Input(key="over", says="at how much over that", of=PA),
            ),
            optional=True,
        ),
        ALTITUDE,
        TEMPERATURE,
    ),
    work=_rooms,
    example='supply="100 m³/h" near-leak="9 m³/h; 60 Pa" far-leak="12 m³/h; 60 Pa" '
    'opening="0.05 m²" relief="60 Pa; 108 m³/h; 20 Pa"',
)


def _door(given: Given) -> tuple[Figure, ...]:
    from record.calc.door_force import SET_IN_MOTION_N, Door, door_force, door_pressure_pa

    door = Door(width_m=given["width"], height_m=given["height"], handle_m=given["handle"])
    closer = given.get("closer")
    force = door_force(door, given["pressure"], closer)
    word = "OVER" if force.total_n > SET_IN_MOTION_N else "not over"
    found = [
        Figure("against the pressure", force.pressure_n, FORCE),
        Figure("in all", force.total_n, FORCE),
        Figure(
            "so", tell("reckon.code", word=term(word), set_in_motion_n=both(SET_IN_MOTION_N, FORCE))
        ),
    ]
    if closer is None:
        found.append(Figure("the closer", "not measured, and not in it"))
    if (closer or 0.0) <= SET_IN_MOTION_N:
        at = door_pressure_pa(door, SET_IN_MOTION_N, closer or 0.0)
        found.append(Figure("comes to that at", at, PA))
    return tuple(found)


DOOR_FORCE = Sum(
    name="door-force",
    title="Pull at the handle that sets a door in motion against air pressure",
    formula="F = F closer + W A Δp/(2(W − d))",
    source="International Building Code 909.6.2, equation 9-1; 1010.1.3, 30 lb (as quoted)",
    caution="Seals that stick, rust and a sagging leaf take more. Opened with the pressure, it is "
    "thrown. " + CAUTIONS[CODE_OFFICIAL],
    confirm=OFFICE,
    inputs=(
        Input(key="width", says="of the leaf", of=LENGTH),
        Input(key="height", says="of the leaf", of=LENGTH),
        Input(key="handle", says="from the handle to the latch edge", of=LENGTH),
        Input(key="pressure", says="across it, against the opening", of=PA),
        Input(
            key="closer", says="alone, at the handle, by a spring scale", of=FORCE, optional=True
        ),
    ),
    work=_door,
    example='width="0.80 m" height="1.90 m" handle="70 mm" pressure="60 Pa"',
)


def _intake(given: Given) -> tuple[Figure, ...]:
    from record.calc.air_intake import intake_apart

    at = _one(given, "intake") or {}
    found: list[Figure] = []
    for place, row in enumerate(given["source"], 1):
        apart = intake_apart(_point(at), _point(row), given["least"])
        found += _apart(
            tell("reckon.source", place=place) if len(given["source"]) > 1 else term("source"),
            apart,
        )
    return tuple(found)


def _point(row: dict[str, Any]) -> tuple[float, float, float]:
    return row["east"], row["north"], row["level"]


def _apart(name: str, apart: Apart) -> Iterator[Figure]:
    yield Figure(tell("reckon.in_plan", name=name), apart.horizontal_m, LENGTH)
    if apart.under:
        yield Figure(
            "  so", tell("reckon.mm_under_least_distance", short_m=f"{apart.short_m * 1000:.0f}")
        )
        word = "3 ft or more below it" if apart.low_enough else "NOT 3 ft below it"
        yield Figure("  and the intake is", word)
    else:
        yield Figure("  so", "not under the least distance")
    yield Figure("  straight", apart.straight_m, LENGTH)


POINT = tuple(
    Input(key=key, says="of its nearest edge", of=LENGTH) for key in ("east", "north", "level")
)
INTAKE_DISTANCE = Sum(
    name="intake-distance",
    title="Distance of an air intake from what must not be drawn in",
    formula="√(Δeast² + Δnorth²) against the least; nearer, 3 ft or more below the source",
    source="International Mechanical Code 401.4, items 2 and 3, as quoted from 2009",
    caution="Wind, hedges and pits that hold fumes are not in it. " + CAUTIONS[LOCAL_CODE],
    confirm=OFFICE,
    inputs=(
        Input(key="intake", says="the opening", columns=POINT),
        Input(key="source", says="each drive, vent, flue or street", columns=POINT),
        Input(
            key="least",
            says="that holds here",
            of=LENGTH,
            usual="10 ft",
            usual_from="International Mechanical Code",
        ),
    ),
    work=_intake,
    example='intake="27.00 m; 2.00 m; 50.45 m" source="30.00 m; 2.00 m; 49.45 m"',
)


def _trap(given: Given) -> tuple[Figure, ...]:
    from record.calc.air_trap_seal import seal_holds_pa, trap_seal

    found = trap_seal(given["pressure"], given["margin"] * 1000)
    figures = [
        Figure("stands against it", found.column_mm / 1000, LENGTH),
        Figure("seal needed", found.needed_mm / 1000, LENGTH),
    ]
    if "seal" in given:
        short = found.needed_mm - given["seal"] * 1000
        word = (
            tell("reckon.mm_short", short=f"{short:.0f}")
            if short > 1e-6
            else "deep enough while it is full"
        )
        figures.append(Figure("so", word))
        figures.append(Figure("is blown out at", seal_holds_pa(given["seal"] * 1000), PA))
    return tuple(figures)


TRAP_SEAL = Sum(
    name="trap-seal",
    title="Depth of a water seal that the pressure in a room must not blow out",
    formula="h = Δp/(ρg) + margin; a millimetre stands against 9.80665 Pa",
    source="hydrostatics; conventional water column, 1000 kg/m³",
    caution=CAUTIONS[DRY_TRAP],
    confirm=MAKER,
    inputs=(
        Input(key="pressure", says="the highest the room can come to", of=PA),
        Input(key="margin", says="the engineer's or maker's, for drying and swaying", of=LENGTH),
        Input(key="seal", says="depth of it as fitted", of=LENGTH, optional=True),
    ),
    work=_trap,
    example='pressure="60 Pa" margin="25 mm" seal="50 mm"',
)

SUMS = (FAR_ROOM, DOOR_FORCE, INTAKE_DISTANCE, TRAP_SEAL)
