"""Sums about coatings: how far they go, how thick they are, how long they can be worked."""

from __future__ import annotations

from collections.abc import Iterator

from record.reckon.sum import MAKER, Figure, Given, Input, Sum
from record.units import Dimension
from record.words import tell, term

FILM, VOLUME = Dimension.FILM, Dimension.VOLUME
AREA = Input(key="area", says="to coat", of=Dimension.AREA)
DRY = Input(key="dry", says="dry film asked for", of=FILM)
SOLIDS = Input(key="solids", says="part by volume that stays, as 98 %", of=Dimension.PERCENT)
YIELD = Input(
    key="yield",
    says="part of what is mixed that ends on the wall",
    of=Dimension.PERCENT,
    usual="85 %",
    usual_from="common practice, no source",
)
THINNER = Input(
    key="thinner", says="share added", of=Dimension.PERCENT, usual="0 %", usual_from="none added"
)
FT2_GAL = 0.3785411784 / 0.09290304 * 10  # one m²/L in ft²/gal


def _spread(given: Given) -> tuple[Figure, ...]:
    from record.calc.coating import spread_m2_l

    return tuple(
        _two(spread_m2_l(dry_film_m=given["dry"], solids=given["solids"], yields=given["yield"]))
    )


def _two(spread: float) -> Iterator[Figure]:
    yield Figure("covers", spread, unit="m²/L")
    yield Figure("or", spread * FT2_GAL, unit="ft²/gal")


SPREAD = Sum(
    name="spread",
    title="Area a coating covers",
    formula="solids × yield / dry film (1,604.17 ft²/gal at one mil)",
    source="solid geometry; published tables of spread",
    caution="Rough steel and cement board take more.",
    inputs=(DRY, SOLIDS, YIELD),
    work=_spread,
    example='dry="150 µm" solids="98 %"',
)


def _litres(given: Given) -> tuple[Figure, ...]:
    from record.calc.coating import litres

    needed = litres(
        area_m2=given["area"],
        dry_film_m=given["dry"],
        solids=given["solids"],
        yields=given["yield"],
    )
    found = [Figure("a coat takes", needed / 1000, VOLUME)]
    if "used" in given:
        share = given["used"] * 1000 / needed if needed else 0.0
        found.append(Figure("used of that", share, Dimension.PERCENT))
        if needed and share < 1:
            found.append(Figure("so", "less was used than the film asked for takes: measure it"))
        else:
            found.append(Figure("so", "enough was used; volume cannot prove a film, measure it"))
    return tuple(found)


LITRES = Sum(
    name="litres",
    title="Coating that an area takes, against what was used",
    formula="area × dry film/(solids × yield)",
    source="solid geometry",
    caution="Volume cannot prove a film: where it is thin it is thin.",
    inputs=(
        AREA,
        DRY,
        SOLIDS,
        YIELD,
        Input(key="used", says="mixed and put on", of=VOLUME, optional=True),
    ),
    work=_litres,
    example='area="47.1 m²" dry="150 µm" solids="98 %" used="10 L"',
)


def _wet(given: Given) -> tuple[Figure, ...]:
    from record.calc.coating import dry_film_m, wet_film_m

    found = []
    if "dry" in given:
        wet = wet_film_m(dry_film_m=given["dry"], solids=given["solids"], thinner=given["thinner"])
        found.append(Figure("put on wet", wet, FILM))
    if "wet" in given:
        dry = dry_film_m(wet_film_m=given["wet"], solids=given["solids"], thinner=given["thinner"])
        found.append(Figure("dries to", dry, FILM))
    if not found:
        raise ValueError("give the dry film asked for, or the wet film measured")
    return tuple(found)


WET_FILM = Sum(
    name="wet-film",
    title="Wet film for a dry one, or what a wet one dries to",
    formula="wet = dry × (1 + thinner)/solids",
    source="solid geometry; a published course of coating",
    caution="Only as much thinner as the maker allows.",
    inputs=(
        Input(key="dry", says="dry film asked for", of=FILM, optional=True),
        Input(key="wet", says="wet film measured", of=FILM, optional=True),
        SOLIDS,
        THINNER,
    ),
    work=_wet,
    example='dry="2.8 mil" solids="35 %" thinner="10 %"',
)


def _workable(given: Given) -> tuple[Figure, ...]:
    from record.calc.coating import workable_warning_s

    least = workable_warning_s(
        stated_s=given["stated"], stated_at_c=given["stated-at"], air_c=given["air"]
    )
    found = [Figure("may be going off after", least, Dimension.DURATION)]
    if "used-after" in given:
        late = given["used-after"] - least
        found.append(Figure("last used", "after that" if late > 0 else "before that"))
    return tuple(found)


WORKABLE_TIME = Sum(
    name="workable-time",
    title="When a mixed batch may be going off in warmer air",
    formula="stated × 2^((stated at − air)/10 °C), never more than stated",
    source="common practice; a maker's published times follow it",
    caution="It only warns. It never extends use: colder than stated, the maker's time stays.",
    confirm=MAKER,
    inputs=(
        Input(key="stated", says="workable time on the maker's sheet", of=Dimension.DURATION),
        Input(key="stated-at", says="at which temperature", of=Dimension.TEMPERATURE),
        Input(key="air", says="temperature of the batch", of=Dimension.TEMPERATURE),
        Input(
            key="used-after",
            says="how long after mixing it was last used",
            of=Dimension.DURATION,
            optional=True,
        ),
    ),
    work=_workable,
    example='stated="90 min" stated-at="20 °C" air="31 °C" used-after="45 min"',
)


def _film(given: Given) -> tuple[Figure, ...]:
    from record.calc.film_readings import judge, sampling

    rows = given["spot"]
    spots = [[row[key] for key in ("one", "two", "three") if key in row] for row in rows]
    verdict = judge(spots, given["least"], given.get("most"))
    found = [Figure("mean", verdict.mean_m, FILM)]
    for place, mean in enumerate(verdict.spots_m, 1):
        word = "THIN" if place - 1 in verdict.thin_spots else ""
        word = "THICK" if place - 1 in verdict.thick_spots else word
        found.append(
            Figure(
                tell("reckon.spot", place=place) + (f", {term(word)}" if word else ""), mean, FILM
            )
        )
    if "area" in given:
        wanted = sampling(given["area"])
        found.append(
            Figure(
                "asked for",
                tell("reckon.areas_spots_three_readings", areas=wanted.areas, spots=wanted.spots),
            )
        )
    if not verdict.enough:
        found.append(Figure("so", "too few: five spots of three readings for every area"))
    else:
        found.append(Figure("so", "accepted by the rule" if verdict.accepted else "NOT accepted"))
    return tuple(found)


FILM_READINGS = Sum(
    name="film",
    title="Readings of a dry film against what was asked for",
    formula="a spot is the mean of its readings, within 80 % of the least and 120 % of the most; "
    "the mean of the spots within least and most",
    source="SSPC-PA 2, restriction level 3",
    caution="The specification's own rule goes before this one.",
    inputs=(
        Input(
            key="spot",
            says="the readings of one spot",
            columns=(
                Input(key="one", says="reading", of=FILM),
                Input(key="two", says="reading", of=FILM, optional=True),
                Input(key="three", says="reading", of=FILM, optional=True),
            ),
        ),
        Input(key="least", says="dry film asked for", of=FILM),
        Input(key="most", says="and at most", of=FILM, optional=True),
        Input(key="area", says="coated in one shift", of=Dimension.AREA, optional=True),
    ),
    work=_film,
    example='spot="8 mil; 9 mil; 8.5 mil" spot="9 mil; 9 mil; 9 mil" spot="7 mil; 8 mil; 8 mil" '
    'spot="9 mil; 10 mil; 9 mil" spot="8 mil; 8 mil; 9 mil" least="8 mil" most="12 mil"',
)


def _pinhole(given: Given) -> tuple[Figure, ...]:
    from record.calc.holiday import holiday_test_v

    return (Figure("voltage", holiday_test_v(given["film"]), Dimension.VOLTAGE),)


PINHOLE = Sum(
    name="pinhole-voltage",
    title="Voltage of a holiday test",
    formula="V = 1250 √mil",
    source="NACE RP0274",
    caution="DANGER: high voltage near solvent vapour ignites it. Dry film and clear air only, "
    "never above what the maker says the film bears.",
    confirm="The coating's maker and a trained inspector must confirm the voltage.",
    inputs=(Input(key="film", says="thickness of the film or tar", of=FILM),),
    work=_pinhole,
    example='film="2.5 mm"',
)

SUMS = (SPREAD, LITRES, WET_FILM, WORKABLE_TIME, FILM_READINGS, PINHOLE)
