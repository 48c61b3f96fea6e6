"""A site plan in words."""

from collections.abc import Sequence

from manual.drawings.both import both
from manual.drawings.plan import Place, SitePlan, Spot
from manual.languages import say


def interpolated() -> str:
    return say("plan.between_stations_a_run")


def grid() -> str:
    return say("plan.places_are_x_east")


def plan_words(plan: SitePlan) -> str:
    """The alt text: every outline, landmark, run, point and tie with its numbers."""
    sentences = [
        say("plan.site_plan_of", name=plan.name, grid=grid(), plan=north(plan)),
        *(
            say("plan.has_corners_at", tag=o.tag, name=o.name, points=_places(o.points_m))
            for o in plan.outlines
        ),
        *(say("plan.landmark", spot=spot_words(spot)) for spot in plan.landmarks),
        *(
            say("plan.runs_through", tag=r.tag, name=r.name, points=_places(r.points_m))
            for r in plan.routes
        ),
        *((interpolated(),) if plan.routes else ()),
        *(f"{spot_words(spot)}." for spot in plan.spots),
        *(
            say(
                "plan.tie_from_to_m",
                from_tag=tie.from_tag,
                to_words=tie.to_words,
                distance=both(tie.distance_m),
            )
            for tie in plan.ties
        ),
        *plan.notes,
    ]
    return " ".join(sentences)


def spot_words(spot: Spot) -> str:
    """A spot with its place."""
    return say("plan.at", tag=spot.tag, name=spot.name, x=place(spot.x_m, spot.y_m))


def place(x_m: float, y_m: float) -> str:
    """A place to the centimetre.

    >>> place(24, 6)
    '(24.00, 6.00)'
    """
    return f"({x_m:.2f}, {y_m:.2f})"


def _places(points: Sequence[Place]) -> str:
    return ", ".join(place(x, y) for x, y in points) or say("plan.no_point_recorded")


def north(plan: SitePlan) -> str:
    """Where north is, in words."""
    if plan.north_deg == 0:
        return say("plan.up_is", north_words=plan.north_words)
    return say(
        "plan.the_arrow_for_points", north_words=plan.north_words, north_deg=f"{plan.north_deg:g}"
    )
