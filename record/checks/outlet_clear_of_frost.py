"""The outlet of a drain lies below the frost, or something keeps it from freezing shut."""

from __future__ import annotations

from collections.abc import Iterator

from record.checks.check_valve_at_low_end import inside, low_end
from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, Rule
from record.checks.hidden import Hidden
from record.facts.pipes import DRAINAGE
from record.facts.values import Absent, Why
from record.fold import Thing
from record.place import PlacedStation
from record.place.shots import label
from record.units import metres_said


def find(hidden: Hidden) -> Iterator[Finding]:
    """
    Find outlets in the frost, or of unknown depth, of which no protection is stated.

    What guards a drain, in the crew's words or as "n/a" with its reason, is taken as it is said.
    """
    for drain in (*hidden.drains, *hidden.runs):
        if drain.kind.word == "run" and drain.text("carries") not in DRAINAGE:
            continue
        guard = drain.value("freeze_protection")
        if not isinstance(guard, Absent) or guard.why is Why.NOT_APPLICABLE:
            continue
        at = outlet(hidden, drain)
        if at is None or at[2] is not True:
            yield from _at(hidden, drain, at[:2] if at else None)


def outlet(hidden: Hidden, drain: Thing) -> tuple[Thing, PlacedStation, bool | None] | None:
    """
    Return where a drain lets go: a run, its station, and whether that is inside a hull.

    That is the low end of a run that carries water off or that the drain goes through, else the
    station of the run it drains. None where there is no such station.
    """
    tags = drain.tags("through") or drain.tags("serves")
    run = drain if drain.kind.word == "run" else hidden.built.thing(next(iter(tags), None))
    if run is None:
        return None
    placed = hidden.placed(run)
    if drain.kind.word == "run" or drain.tags("through"):
        at = low_end(run, placed)
    else:
        said = (drain.text("at_station") or "").casefold()
        named = (one for one in placed if said in (one.key.casefold(), label(one).casefold()))
        at = next(named, None)
    return None if at is None else (run, at, _within(hidden, drain, run, placed, at))


def _within(
    hidden: Hidden, drain: Thing, run: Thing, placed: tuple[PlacedStation, ...], at: PlacedStation
) -> bool | None:
    if drain.kind.word == "drain" and not drain.tags("through") and drain.text("hull"):
        return True
    return inside(hidden, run, placed, at)


def _at(hidden: Hidden, drain: Thing, at: tuple[Thing, PlacedStation] | None) -> Iterator[Finding]:
    site = hidden.built.site_thing()
    frost = site.si("frost_depth") if site else None
    cover = at[1].cover_m if at else None
    where = f"its outlet, {at[0].tag} station {label(at[1])}" if at else "its outlet"
    if frost is not None and cover is not None:
        if cover >= float(frost):
            return
        said = (
            f"{where}, lies under {metres_said(cover, 3)} of earth, within the frost "
            f"depth of {metres_said(float(frost), 3)}"
        )
    else:
        lacks = "frost depth of the site" if frost is None else "cover"
        said = f"whether {where}, lies below the frost cannot be told: {lacks} not recorded"
    known = frost is not None and cover is not None
    guard = drain.words("freeze_protection")
    yield RULE.finding(
        drain.tag,
        f"{said}; freeze protection {guard}",
        clears=(
            f"## {drain.kind.word} {drain.tag}",
            '- freeze protection: what keeps it open, or "n/a, " and why it cannot freeze',
        ),
        entries=(
            *drain.entries(),
            *(at[1].thing.entries() if at else ()),
            *(held.entry for held in (site.held("frost_depth") if site else ())),
        ),
        sure=CERTAIN if known else CANNOT_BE_TOLD,
    )


RULE = Rule(
    word="drain outlet clear of frost",
    why=(
        "An outlet in the frost zone freezes shut in the month when most water gathers, and the "
        "pipe behind it fills. Lower, steeper or warmed is decided while the trench is open. The "
        "frost depth is that of the local building office. (Common practice, no source.)"
    ),
    figures=("frost-zone",),
    find=find,
)
