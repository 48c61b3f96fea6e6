"""Sums about frost: how deep it goes, and whether it reaches a drain's outlet."""

from __future__ import annotations

from record.reckon.sum import OFFICE, Figure, Given, Input, Sum
from record.units import Dimension

LENGTH = Dimension.LENGTH
SOIL = (
    Input(key="conductivity", says="of the soil", of=Dimension.CONDUCTIVITY),
    Input(key="dry-density", says="of the soil", of=Dimension.DENSITY),
    Input(key="water", says="mass of water over dry soil, as 15 %", of=Dimension.PERCENT),
)


def _frost(given: Given) -> tuple[Figure, ...]:
    from record.calc.frost_depth import SURFACES, Soil, frost_depth

    soil = Soil(
        conductivity_w_mk=given["conductivity"],
        dry_density_kg_m3=given["dry-density"],
        water=given["water"],
    )
    index = given["air-index"] * SURFACES[given["surface"]]
    found = frost_depth(
        soil,
        freezing_index_k_d=index,
        winter_days=given["winter"] / 86400,
        mean_c=given["mean"],
    )
    return (
        Figure("index at the surface", index, Dimension.COLD),
        Figure("by Stefan", found.stefan_m, LENGTH),
        Figure("μ", found.fusion),
        Figure("α", found.thermal_ratio),
        Figure("λ", found.factor),
        Figure("frost reaches", found.depth_m, LENGTH),
    )


FROST_DEPTH = Sum(
    name="frost-depth",
    title="How deep frost goes in one winter",
    formula="X = λ √(2kI/L), λ = γ√(2/μ) with e^(−γ²)/erf γ − α e^(−γ²)/erfc γ = √π γ/μ, "
    "μ = C vs/L, α = mean/vs, vs = I/t",
    source="UFC 3-130-06 (2004), modified Berggren; Neumann's solution solved, not the short form; "
    "surface factors TM 5-852-4, Table 4-1",
    caution="One soil, no snow, no moving water. The depth the local building office gives goes "
    "before it. Nothing is frost-proof.",
    confirm=OFFICE,
    inputs=(
        *SOIL,
        Input(key="air-index", says="degrees of the air below freezing × days", of=Dimension.COLD),
        Input(
            key="surface",
            says="what lies on top",
            words=("snow", "concrete", "asphalt", "bare soil", "shaded", "turf", "trees"),
            usual="bare soil",
        ),
        Input(key="winter", says="how long it freezes, in days", of=Dimension.DURATION),
        Input(key="mean", says="yearly mean of the air", of=Dimension.TEMPERATURE),
    ),
    work=_frost,
    example='conductivity="1.35 W/mK" dry-density="100 pcf" water="15 %" air-index="2500 °F·d" '
    'surface=snow winter="160 days" mean="37.2 °F"',
)


def _drain(given: Given) -> tuple[Figure, ...]:
    cover, frost = given["cover"], given["frost-depth"]
    short = frost - cover
    verdict = (
        "it lies in frost: it can freeze"
        if short > 0
        else "it lies below that depth; a colder winter goes deeper"
    )
    return (Figure("below or above frost", -short, LENGTH), Figure("so", verdict))


DRAIN_FROST = Sum(
    name="drain-frost",
    title="Whether frost reaches a drain or its outlet",
    formula="cover − frost depth; above zero it lies below the frost",
    source="common practice, no source",
    caution="An outlet stands in open air whatever lies over the pipe: cold air goes up an empty "
    "one. Nothing is frost-proof.",
    confirm=OFFICE,
    inputs=(
        Input(key="cover", says="least earth over it", of=LENGTH),
        Input(key="frost-depth", says="as the local office gives it", of=LENGTH),
    ),
    work=_drain,
    example='cover="0.246 m" frost-depth="1.10 m"',
)


def _zone(given: Given) -> tuple[Figure, ...]:
    from record.calc.frost_zone import shallow

    found = shallow(
        [(row["chainage"], row["cover"]) for row in given["station"]], given["frost-depth"]
    )
    if not found:
        return (Figure("so", "none of it, by these stations; a colder winter goes deeper"),)
    return tuple(
        figure
        for one in found
        for figure in (
            Figure("in frost from", one.from_m, LENGTH),
            Figure("  to", one.to_m, LENGTH),
            Figure("  which is", one.length_m, LENGTH),
        )
    )


FROST_ZONE = Sum(
    name="frost-zone",
    title="Which lengths of a pipe frost can reach",
    formula="cover straight between stations; in frost where it is less than the frost depth",
    source="plane geometry; common practice, no source",
    caution="The ground between two stations may dip. An outlet stands in open air whatever lies "
    "over the pipe. Nothing is frost-proof.",
    confirm=OFFICE,
    inputs=(
        Input(
            key="station",
            says="one station, along the pipe",
            columns=(
                Input(key="chainage", says="horizontal, from any point", of=LENGTH),
                Input(key="cover", says="earth over the pipe there", of=LENGTH),
            ),
        ),
        Input(key="frost-depth", says="as the local office gives it", of=LENGTH),
    ),
    work=_zone,
    example='station="0 m; 2.246 m" station="10 m; 0.246 m" frost-depth="1.10 m"',
)

SUMS = (FROST_DEPTH, DRAIN_FROST, FROST_ZONE)
