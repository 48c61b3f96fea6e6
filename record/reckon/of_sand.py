"""Sums about the sand of a filled shaft."""

from __future__ import annotations

from record.reckon.sum import Figure, Given, Input, Sum
from record.units import Dimension

LENGTH, VOLUME, MASS = Dimension.LENGTH, Dimension.VOLUME, Dimension.MASS
NEVER = (
    "DANGER: running sand buries. The trade never opens a filled shaft from below. This says "
    "nothing about whether a hatch may be opened."
)
BUILDER = "The builder's approved page, and a trained person on the spot, go before this figure."
REPOSE = Input(
    key="repose",
    says="angle of repose",
    of=Dimension.ANGLE,
    usual="34°",
    usual_from="dry sand, 34 ± 3 (USBR Hyd-299)",
)
DENSITY = Input(
    key="density",
    says="of the sand as it lies",
    of=Dimension.DENSITY,
    usual="1600 kg/m³",
    usual_from="dry, porosity 0.40 (De Vries 1963)",
)
BULKING = Input(
    key="bulking",
    says="how much damp sand swells, as 30 %",
    of=Dimension.PERCENT,
    usual="30 %",
    usual_from="20 to 40 % at 5 to 8 % water",
)


def _sand(given: Given) -> tuple[Figure, ...]:
    from record.calc.sand_heap import fill_m3

    volume = fill_m3(given["along"] * given["across"], given["from"], given["to"])
    return (Figure("volume", volume, VOLUME), Figure("mass, dry", volume * given["density"], MASS))


SAND = Sum(
    name="sand",
    title="Sand that fills a shaft",
    formula="along × across × (to − from); mass = volume × density",
    source="solid geometry",
    caution="Damp sand weighs more, and lies looser.",
    inputs=(
        Input(key="along", says="section of the shaft", of=LENGTH),
        Input(key="across", says="section of the shaft", of=LENGTH),
        Input(key="from", says="level the sand begins at", of=LENGTH),
        Input(key="to", says="level it ends at", of=LENGTH),
        DENSITY,
    ),
    work=_sand,
    example='along="0.75 m" across="0.75 m" from="46.95 m" to="49.65 m"',
)


def _heap(given: Given) -> tuple[Figure, ...]:
    from record.calc.sand_heap import bulked_m3, cone, wedge

    damp = bulked_m3(given["volume"], given["bulking"])
    found = []
    for name, volume in (("dry", given["volume"]), ("damp", damp)):
        heap = (
            wedge(volume, given["width"], given["repose"])
            if "width" in given
            else cone(volume, given["repose"])
        )
        found.append(Figure(f"{name}: runs out", heap.run_m, LENGTH))
        found.append(Figure(f"{name}: stands high", heap.height_m, LENGTH))
        if "clear" in given:
            short = heap.run_m - given["clear"]
            word = "BURIED" if short > 0 else "outside its toe"
            found.append(Figure(f"{name}: what must stay clear", word))
    return tuple(found)


HEAP = Sum(
    name="heap",
    title="How the sand of a shaft lies on the floor that receives it",
    formula="between walls h = √(2V tan θ/w), run h/tan θ; on an open floor a cone V = πr²h/3",
    source="solid geometry; angle of repose as given",
    caution=NEVER,
    confirm=BUILDER,
    inputs=(
        Input(key="volume", says="of the sand, dry", of=VOLUME),
        Input(key="width", says="of the floor, wall to wall", of=LENGTH, optional=True),
        REPOSE,
        BULKING,
        Input(
            key="clear",
            says="how far from where it comes in something must stay clear",
            of=LENGTH,
            optional=True,
        ),
    ),
    work=_heap,
    example='volume="1.519 m³" width="2.70 m" clear="1.60 m"',
)


def _flow(given: Given) -> tuple[Figure, ...]:
    from record.calc.sand_flow import Outlet, least_time_s, sand_flow_kg_s

    outlet = Outlet(
        opening_m=given["opening"],
        grain_m=given["grain"],
        shaft_m=given["shaft"],
        density_kg_m3=given["density"],
    )
    found = [Figure("runs, at most", sand_flow_kg_s(outlet), unit="kg/s")]
    if "mass" in given:
        least = least_time_s(outlet, given["mass"])
        found.append(Figure("all of it, at the quickest", least, Dimension.DURATION))
    return tuple(found)


SAND_FLOW = Sum(
    name="sand-flow",
    title="How fast dry sand can run out of a small opening",
    formula="W = C ρb √g (D − k d)^2.5, C 0.58, k 1.4",
    source="Beverloo and others, Chem. Eng. Sci. 15 (1961) 260 (from memory)",
    caution="Dry sand only, at its quickest. Damp sand arches, sticks, and lets go all at once. "
    + NEVER,
    confirm=BUILDER,
    inputs=(
        Input(key="opening", says="its diameter", of=LENGTH),
        Input(key="grain", says="diameter of the grains", of=Dimension.FILM),
        Input(key="shaft", says="least width of the shaft", of=LENGTH),
        DENSITY,
        Input(key="mass", says="of the sand", of=MASS, optional=True),
    ),
    work=_flow,
    example='opening="150 mm" grain="0.8 mm" shaft="0.76 m" mass="2177 kg"',
)

SUMS = (SAND, HEAP, SAND_FLOW)
