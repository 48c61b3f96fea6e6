"""Sums about falls: which way a pipe falls, where water stands, the least fall by the codes."""

from __future__ import annotations

from collections.abc import Iterator

from record.reckon.sum import Figure, Given, Input, Sum
from record.units import Dimension
from record.words import tell, term

LENGTH = Dimension.LENGTH


def _fall(given: Given) -> tuple[Figure, ...]:
    from record.calc.falls import Level, falls, low_points, sags

    levels = [
        Level(row["chainage"], row["invert"], row.get("tolerance")) for row in given["station"]
    ]
    found: list[Figure] = []
    for one in falls(levels):
        where = tell("reckon.to_m", from_m=f"{one.from_m:.2f}", to_m=f"{one.to_m:.2f}")
        known = (
            ""
            if one.tolerance_m is None
            else tell("reckon.mm", tolerance_m=f"{one.tolerance_m * 1000:.1f}")
        )
        turn = -1 if one.verdict == "rises" else 1  # "rises: 25 mm", and not by −25
        drop = tell(
            "reckon.mm_in_m",
            turn=f"{turn * one.drop_m * 1000:.1f}",
            known=known,
            to_m=f"{one.to_m - one.from_m:.2f}",
        )
        found.append(Figure(where, f"{term(one.verdict)}: {drop}, {turn * one.slope * 100:.3f} %"))
    found += [Figure("low point at", chainage, LENGTH) for chainage in low_points(levels)]
    for sag in sags(levels):
        found.append(Figure("water stands, deepest", sag.depth_m, LENGTH))
        found.append(Figure("  from", sag.from_m, LENGTH))
        found.append(Figure("  to", sag.to_m, LENGTH))
    return tuple(found)


FALL = Sum(
    name="fall",
    title="Fall of a pipe, length by length, its low points and where water stands",
    formula="drop = invert here − invert there; slope = drop / horizontal length; a drop within "
    "√(t₁² + t₂²) cannot be told",
    source="plane geometry; tolerances by JCGM 100:2008 (GUM), 5.1.2",
    caution="Straight between stations: a sag between two of them is not seen. Pour water and see.",
    inputs=(
        Input(
            key="station",
            says="one station",
            columns=(
                Input(key="chainage", says="horizontal, from any point", of=LENGTH),
                Input(key="invert", says="level of the inside bottom", of=LENGTH),
                Input(key="tolerance", says="± of that level", of=LENGTH, optional=True),
            ),
        ),
    ),
    work=_fall,
    example='station="0 m; 47.850 m; 3 mm" station="5 m; 47.906 m; 3 mm" '
    'station="12.6 m; 47.598 m; 3 mm"',
)


def _least(given: Given) -> tuple[Figure, ...]:
    from record.calc.least_fall import least_fall

    rule = least_fall(given["use"], given["size"])
    return (
        Figure("least fall", rule.slope, Dimension.SLOPE),
        Figure("as printed", rule.printed),
        Figure("by", rule.source),
    )


LEAST_FALL = Sum(
    name="least-fall",
    title="The least fall the model codes allow a drain",
    formula="a table: nominal size → least slope",
    source="International Plumbing, Residential and Mechanical Codes, as quoted by cities",
    caution="The code in force locally goes before this.",
    inputs=(
        Input(key="use", says="what it carries", words=("drain", "dwelling drain", "condensate")),
        Input(key="size", says="nominal size of the pipe", of=LENGTH),
    ),
    work=_least,
    example='use=condensate size="3/4 in"',
)


def _pond(given: Given) -> tuple[Figure, ...]:
    for one, other in (("crest", "bottom"), ("poured", "returned")):
        if (one in given) != (other in given):
            raise ValueError(f"{one} and {other} belong together: give both, or neither")
    if "crest" not in given and "poured" not in given:
        raise ValueError("give the levels of crest and bottom, or a pour: poured and returned")
    return tuple(_pond_figures(given))


def _pond_figures(given: Given) -> Iterator[Figure]:
    if "crest" in given:
        depth = given["crest"] - given["bottom"]
        yield Figure("water stands", max(depth, 0.0), LENGTH)
        if depth <= 0:
            yield Figure("so", "the crest is not above the bottom: nothing stands")
    if "poured" in given:
        left = given["poured"] - given["returned"]
        yield Figure("stayed behind", left, Dimension.VOLUME)
        if left < 0:
            yield Figure("so", "more came out than went in: measure again")


POND = Sum(
    name="pond",
    title="Water that stands in a pipe, and what a pour test leaves behind",
    formula="depth = crest downstream − invert at the bottom; left = poured − returned",
    source="plane geometry; common practice, no source",
    caution="How much may stand, the engineer or the code says. One pour proves one day.",
    inputs=(
        Input(
            key="crest",
            says="the invert that holds the water back, downstream",
            of=LENGTH,
            optional=True,
        ),
        Input(key="bottom", says="the lowest invert before it", of=LENGTH, optional=True),
        Input(key="poured", says="what was poured in", of=Dimension.VOLUME, optional=True),
        Input(key="returned", says="what came out", of=Dimension.VOLUME, optional=True),
    ),
    work=_pond,
    example='crest="47.620 m" bottom="47.600 m" poured="5 L" returned="3.6 L"',
)

SUMS = (FALL, LEAST_FALL, POND)
