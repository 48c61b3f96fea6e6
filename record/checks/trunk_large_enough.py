"""A pipe that feeds several, or into which several run, is large enough for all of them."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, Rule
from record.checks.hidden import Hidden
from record.facts.pipes import AIR, DRAINAGE
from record.fold import AsBuilt, Thing
from record.units import metres_said

#: 0.1 in w.g. in 100 ft of duct, as the charts have it; which rate it is hardly matters here.
RATE_PA_M = 24.9089 / 30.48
ROUGHNESS_M = 1.5e-6  # of a smooth pipe
DENSITY_KG_M3, VISCOSITY_PA_S = 1.204, 1.82e-5  # of air at 20 °C at the sea
DRAIN_RULE = "International Plumbing Code 704, from memory: never smaller along the flow"
AIR_RULE = "equal friction, ASHRAE Fundamentals chapter 21"
CARRIED = (*AIR, *DRAINAGE)
TAG = re.compile(r"[A-Za-z][A-Za-z0-9.]*(?:-[A-Za-z0-9.]+)*")


def find(hidden: Hidden) -> Iterator[Finding]:
    """
    Find trunks too narrow for their branches, where one of them is hidden.

    A supply branch comes from its trunk, an exhaust or a drain branch goes to it: as from and to
    of the runs name each other. Air only warns, for a fan may make up for it.
    """
    shown = {run.tag for run in hidden.runs}
    for tag, mine in branches(hidden.built).items():
        trunk = hidden.built.things[tag]
        if not shown & {tag, *(one.tag for one in mine)}:
            continue
        lacks = [one.tag for one in (trunk, *mine) if _inside_m(one) is None]
        if lacks:
            said = "whether it is large enough cannot be told: how wide inside "
            yield _finding(trunk, mine, f"{said}{', '.join(lacks)} is, is not recorded", sure=False)
            continue
        try:
            need_m, rule = _need_m(trunk, [_inside_m(one) or 0.0 for one in mine])
        except ValueError as fault:
            said = f"whether it is large enough cannot be told: {fault}"
            yield _finding(trunk, mine, said, sure=False)
            continue
        has_m = _inside_m(trunk) or 0.0
        if has_m < need_m - 1e-4:
            said = (
                f"it is {metres_said(has_m, 3)} wide inside, and "
                f"{', '.join(one.tag for one in mine)} together ask for "
                f"{metres_said(need_m, 3)} ({rule})"
            )
            yield _finding(trunk, mine, said, sure=True)


def branches(built: AsBuilt) -> dict[str, tuple[Thing, ...]]:
    """Return every trunk with the runs of the same use that branch off it, or run into it."""
    runs = {run.tag: run for run in built.of_kind("run") if run.text("carries") in CARRIED}
    pairs: dict[str, dict[str, Thing]] = {}
    for run in runs.values():
        toward, away = ("from", "to") if run.text("carries") == "supply air" else ("to", "from")
        for trunk in TAG.findall(run.text(toward) or ""):
            pairs.setdefault(trunk, {})[run.tag] = run
        for branch in TAG.findall(run.text(away) or ""):
            if branch in runs:
                pairs.setdefault(run.tag, {})[branch] = runs[branch]
    return {
        tag: tuple(mine)
        for tag in runs
        if (mine := [one for one in pairs.get(tag, {}).values() if _alike(runs[tag], one)])
    }


def _alike(trunk: Thing, branch: Thing) -> bool:
    return trunk.tag != branch.tag and trunk.text("carries") == branch.text("carries")


def _inside_m(run: Thing) -> float | None:
    inside = run.si("inside_diameter")
    inside = run.si("size") if inside is None else inside
    return None if inside is None else float(inside)


def _need_m(trunk: Thing, inside_m: Sequence[float]) -> tuple[float, str]:
    if trunk.text("carries") in DRAINAGE:
        return max(inside_m), DRAIN_RULE
    return air_trunk_m(inside_m), AIR_RULE


def air_trunk_m(inside_m: Sequence[float]) -> float:
    """
    Return how wide a trunk must be to lose no more a metre than its branches do.  [m]

    Examples
    --------
    fluids: branches of 7.475 and 5.776 in want a trunk of 8.696 in, in rougher duct:

    >>> round(air_trunk_m([7.475 * 0.0254, 5.776 * 0.0254]) / 0.0254, 1)
    8.7
    """
    from record.calc.air_curve import rising_root
    from record.calc.air_run import Air
    from record.calc.trunk_size import rate_pa_m, trunk_size

    air = Air(density_kg_m3=DENSITY_KG_M3, viscosity_pa_s=VISCOSITY_PA_S)

    def flow_m3_s(wide_m: float) -> float:
        most = 70 * wide_m**2  # near 90 m/s
        return rising_root(
            lambda flow: rate_pa_m(flow, wide_m, ROUGHNESS_M, air) - RATE_PA_M, 1e-6, most
        )

    flows = [flow_m3_s(wide_m) for wide_m in inside_m]
    return trunk_size(flows, RATE_PA_M, ROUGHNESS_M, air).trunk.exact_m


def _finding(trunk: Thing, mine: Sequence[Thing], said: str, *, sure: bool) -> Finding:
    return RULE.finding(
        trunk.tag,
        said,
        clears=(
            "lay a wider one, or let its designer say that it is meant so and two people waive it;",
            f"what is not recorded: ## run {trunk.tag}, - inside diameter:",
        ),
        entries=(*trunk.entries(), *(entry for one in mine for entry in one.entries())),
        sure=CERTAIN if sure else CANNOT_BE_TOLD,
        stops=trunk.text("carries") in DRAINAGE,
    )


RULE = Rule(
    word="trunk large enough for its branches",
    why=(
        "A trunk as narrow as one of its branches starves the others of air, and a drain that gets "
        "narrower along its flow is where it blocks. Under the fill it stays as it is. What a fan "
        "still moves through it is a measured trial's to say."
    ),
    find=find,
)
