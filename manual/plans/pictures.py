"""``[[draw: long section AIR-IN]]`` → a figure with its drawing, its caption and its words."""

from __future__ import annotations

import html
from collections.abc import Callable

from manual.languages import say, term
from manual.plans.drawn import run_section, site_plan
from manual.plans.reuse import Drawn, drawn_by, panel_answer
from record.facts.hull import FACES
from record.fold import Thing
from record.readers import View

Draw = Callable[[View, str], tuple[Drawn | None, str]]


class PictureFault(Exception):
    """A chapter asked for a drawing that nobody can draw."""


def picture(view: View, request: str) -> str:
    """Return the figure a chapter asked for. Raises PictureFault for a drawing unknown."""
    words = request.strip()
    for name, draw in DRAWINGS.items():
        if words == name or words.startswith(f"{name} "):
            return _figure(*draw(view, words[len(name) :].strip()))
    raise PictureFault(f'there is no drawing "{words}"; there are {", ".join(DRAWINGS)}')


def _figure(drawing: Drawn | None, caption: str) -> str:
    if drawing is None:
        return f'<p class="gap">{html.escape(say("pictures.not_recorded", caption=caption))}</p>'
    return (
        f'<figure aria-label="{html.escape(drawing.alt)}">\n{drawing.svg}\n'
        f"<figcaption>{html.escape(caption)}</figcaption>\n</figure>"
    )


def _thing(view: View, tag: str) -> Thing:
    thing = view.built.thing(tag)
    if thing is None:
        raise PictureFault(f'the record has no "{tag}" to draw')
    return thing


def _long_section(view: View, tag: str) -> tuple[Drawn | None, str]:
    from manual.drawings.long_section import long_section

    section = run_section(view, _thing(view, tag))
    drawn = drawn_by(long_section, section) if section else None
    return drawn, say("pictures.long_section_not_to", tag=tag)


def _site_plan(view: View, _: str) -> tuple[Drawn | None, str]:
    from manual.drawings.site_plan import site_plan as draw_plan

    plan = site_plan(view)
    drawn = drawn_by(draw_plan, plan) if plan else None
    return drawn, say("pictures.site_plan_metres_on")


def _panel(view: View, tag: str) -> tuple[Drawn | None, str]:
    from manual.drawings.panel_elevation import panel_elevation
    from manual.plans.elevations import panel_drawing

    _thing(view, tag)
    seen = panel_drawing(panel_answer(view, tag))
    drawn = drawn_by(panel_elevation, seen) if seen else None
    return drawn, say("pictures.as_you_stand_before", tag=tag)


def _walls(view: View, tag: str) -> tuple[Drawn | None, str]:
    from manual.drawings.walls import walls_drawing
    from manual.plans.walls import walls_of

    walls = walls_of(view, tag)
    drawn = drawn_by(walls_drawing, walls) if walls else None
    return drawn, say("pictures.which_panel_is_where", tag=tag)


def _layers(view: View, tag: str) -> tuple[Drawn | None, str]:
    from manual.drawings.strips import strips_drawing
    from manual.plans.cut_layers import hull_layers

    layers = hull_layers(view, _thing(view, tag).tag)
    drawn = drawn_by(strips_drawing, layers) if layers else None
    return drawn, say("pictures.layers_of", tag=tag)


def _way_section(view: View, tag: str) -> tuple[Drawn | None, str]:
    from manual.drawings.cut_drawing import cut_drawing
    from manual.plans.way_section import way_section

    cut = way_section(view, _thing(view, tag).tag)
    drawn = drawn_by(cut_drawing, cut) if cut else None
    return drawn, say("pictures.way_section", tag=tag)


def _way_plan(view: View, tag: str) -> tuple[Drawn | None, str]:
    from manual.drawings.cut_drawing import cut_drawing
    from manual.plans.way_plan import way_plan

    cut = way_plan(view, _thing(view, tag).tag)
    drawn = drawn_by(cut_drawing, cut) if cut else None
    return drawn, say("pictures.way_plan", tag=tag)


def _face(face: str) -> Draw:
    def draw(view: View, tag: str) -> tuple[Drawn | None, str]:
        from manual.drawings.panel_elevation import panel_elevation
        from manual.plans.faces import face_elevation

        seen = face_elevation(view, _thing(view, tag).tag, face)
        drawn = drawn_by(panel_elevation, seen) if seen else None
        return drawn, say("pictures.whole_face", tag=tag, face=term(face))

    return draw


def _air_flow(view: View, _: str) -> tuple[Drawn | None, str]:
    from manual.drawings.flow_chart import flow_chart
    from manual.plans.flows import air_flow

    flow = air_flow(view)
    drawn = drawn_by(flow_chart, flow) if flow else None
    return drawn, say("pictures.how_the_air_goes")


def _water_flow(view: View, _: str) -> tuple[Drawn | None, str]:
    from manual.drawings.flow_chart import flow_chart
    from manual.plans.flows import water_flow

    flow = water_flow(view)
    drawn = drawn_by(flow_chart, flow) if flow else None
    return drawn, say("pictures.where_water_goes")


def _cross_section(view: View, tag: str) -> tuple[Drawn | None, str]:
    from manual.drawings.cut_drawing import cut_drawing
    from manual.plans.hull_cut import hull_cut

    cut = hull_cut(view, _thing(view, tag).tag)
    drawn = drawn_by(cut_drawing, cut) if cut else None
    return drawn, say("pictures.cut_across", tag=tag)


DRAWINGS: dict[str, Draw] = {
    "long section": _long_section,
    "site plan": _site_plan,
    "panel": _panel,
    "walls": _walls,
    "cross-section": _cross_section,
    "layers": _layers,
    "way out": _way_section,
    **{f"{face} face": _face(face) for face in FACES},
    "way plan": _way_plan,
    "air flow": _air_flow,
    "water flow": _water_flow,
}
