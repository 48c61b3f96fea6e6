"""Schedules the chapters print: a run with its levels and falls, a panel with what is behind."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from markupsafe import Markup

from manual.asks.asking import Answer
from manual.asks.tables import ThingRow, along_told
from manual.languages import say, term
from manual.plans.drawn import fall_words
from manual.plans.reuse import panel_answer
from manual.plans.walls import anchor
from record.calc.falls import sags
from record.fold import Thing
from record.place import PlacedStation, stations
from record.place.shots import falls_to, label, levelled, levels, said_not_to_fall, stretches
from record.readers import View

if TYPE_CHECKING:
    from record.answers.behind_values import Behind, Item, Layer


@dataclass(frozen=True, slots=True)
class FallRow:
    """One length of pipe: between which stations, how long, how it falls, and the verdict."""

    words: str
    length_m: float
    drop_m: float
    tolerance_m: float | None
    fall: str
    verdict: str


@dataclass(frozen=True, slots=True)
class PondRow:
    at_m: float
    depth_m: float
    length_m: float


@dataclass(frozen=True, slots=True)
class RunTold:
    """A run for its chapter: stations as placed, lengths with their falls, ponds, fittings."""

    answer: Answer
    tag: str
    stations: tuple[PlacedStation, ...]
    falls: tuple[FallRow, ...]
    ponds: tuple[PondRow, ...]
    valves: tuple[Answer, ...]
    drains: tuple[Answer, ...]
    drawn: bool
    along: tuple[ThingRow, ...] = ()


def run_told(view: View, run: Thing) -> RunTold:
    """Return a run as its chapter prints it."""
    placed = stations(run, view.hulls)
    shots = levelled(placed)
    low_end = falls_to(run, placed)
    worked = levels(shots)
    flat = said_not_to_fall(run)
    return RunTold(
        answer=Answer(run),
        tag=run.tag,
        stations=placed,
        falls=tuple(
            FallRow(
                one.words,
                one.length_m,
                one.drop_m,
                one.fall.tolerance_m,
                fall_words(one.slope, one.drop_m),
                say("schedules.need_not_fall") if flat else term(one.verdict),
            )
            for one in stretches(placed, low_end)
        ),
        ponds=tuple(
            PondRow(s.chainage_m, s.depth_m, s.length_m)
            for s in (sags(worked) if len(worked) > 1 else ())
        ),
        valves=tuple(Answer(v) for v in view.built.of_kind("valve") if run.tag in v.tags("on_run")),
        drains=tuple(Answer(d) for d in view.built.of_kind("drain") if run.tag in d.tags("serves")),
        drawn=len(shots) >= 2,
        along=along_told(view, run.tag),
    )


@dataclass(frozen=True, slots=True)
class ItemRow:
    """One thing that may lie behind a panel, in short: metres across, up and deep."""

    tag: str
    words: str
    across: str
    up: str
    deep: str
    tolerance: str
    sure: str
    entries: str
    kind: str
    near: bool  # recorded outside the space behind the panel, and there by its tolerance alone


@dataclass(frozen=True, slots=True)
class PanelTold:
    """A panel for the directory: how it comes off, what lies or may lie behind it."""

    answer: Answer
    tag: str
    looked_at: str
    anchor: Markup
    zones: tuple[str, ...]
    items: tuple[ItemRow, ...]
    reserved: bool
    unplaced: bool
    drawn: bool


@dataclass(frozen=True, slots=True)
class FaceTold:
    """A face of a hull: the layers its panels share, and the panels."""

    hull: str
    face: str
    layers: tuple[tuple[str, tuple[str, ...]], ...]  # tags of panels, and their layers
    panels: tuple[PanelTold, ...]


def faces_told(view: View) -> Iterator[FaceTold]:
    """Yield every face that has panels, each panel with its answer to "what is behind it?"."""
    by_face: dict[tuple[str, str], list[Behind]] = {}
    for panel in view.built.of_kind("panel"):
        answer = panel_answer(view, panel.tag)
        by_face.setdefault((answer.hull, answer.face), []).append(answer)
    for (hull, face), answers in by_face.items():
        by_layers: dict[tuple[str, ...], list[str]] = {}
        for answer in answers:
            by_layers.setdefault(tuple(map(_layer, answer.layers)), []).append(answer.tag)
        yield FaceTold(
            hull,
            face,
            tuple((", ".join(tags), layers) for layers, tags in by_layers.items()),
            tuple(_panel(view, answer) for answer in answers),
        )


def _layer(layer: Layer) -> str:
    """A layer without the entries it rests on: those stand in the chapter of sources."""
    from record.answers.words_behind import layer_line

    return layer_line(replace(layer, entries=()))


def _panel(view: View, answer: Behind) -> PanelTold:
    from manual.plans.elevations import drawn_items
    from record.answers.words_behind import zone_line

    return PanelTold(
        Answer(view.built.things[answer.tag]),
        answer.tag,
        term(answer.looked_at.state),
        Markup(anchor(answer.tag)),
        tuple(zone_line(zone, answer.width_m, answer.height_m) for zone in answer.zones),
        tuple(map(_item, answer.items)),
        answer.reserved,
        bool(answer.not_measured),
        any(True for _ in drawn_items(answer)),
    )


def _item(item: Item) -> ItemRow:
    from record.answers.behind_values import NEAR

    tolerance = max(item.tolerance_across_m, item.tolerance_upward_m, item.tolerance_depth_m)
    sure = [term(item.basis), term(item.cover)]
    if item.missing:
        sure.append(
            say("schedules.filled_out_not_recorded", missing=", ".join(map(term, item.missing)))
        )
    return ItemRow(
        item.tag,
        item.words,
        say("schedules.to", start=f"{item.across.from_m:.2f}", to=f"{item.across.to_m:.2f}"),
        say("schedules.to", start=f"{item.upward.from_m:.2f}", to=f"{item.upward.to_m:.2f}"),
        say("schedules.to", start=f"{item.depth.from_m:.3f}", to=f"{item.depth.to_m:.3f}"),
        f"± {tolerance:.3f}" + (say("schedules.assumed") if item.assumed else ""),
        "; ".join(sure),
        ", ".join(item.entries),
        item.kind,
        item.lies == NEAR,
    )


__all__ = ["FaceTold", "FallRow", "PondRow", "RunTold", "faces_told", "label", "run_told"]
