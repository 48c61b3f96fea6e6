"""Sums about surfaces that are to stay dry: of a lined wall, and of a cold pipe."""

from __future__ import annotations

from collections.abc import Iterator

from record.reckon.of_damp import AIR, HUMIDITY, C
from record.reckon.sum import Figure, Given, Input, Sum
from record.units import Dimension

RH = Dimension.HUMIDITY
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

SUMS = (SURFACE, LEAST_INSULATION, PIPE_INSULATION)
