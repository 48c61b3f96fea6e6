"""A site plan in words."""

from collections.abc import Sequence

from manual.drawings.plan import Place, SitePlan, Spot

GRID = "Places are x east, y north, in metres on the site grid."
INTERPOLATED = "Between stations a run is interpolated, not measured."


def plan_words(plan: SitePlan) -> str:
    """The alt text: every outline, landmark, run, point and tie with its numbers."""
    sentences = [
        f"Site plan of {plan.name}. {GRID} {north(plan)}",
        *(f"{o.tag}, {o.name}, has corners at {_places(o.points_m)}." for o in plan.outlines),
        *(f"Landmark {spot_words(spot)}." for spot in plan.landmarks),
        *(f"{r.tag}, {r.name}, runs through {_places(r.points_m)}." for r in plan.routes),
        *((INTERPOLATED,) if plan.routes else ()),
        *(f"{spot_words(spot)}." for spot in plan.spots),
        *(
            f"Tie from {tie.from_tag} to {tie.to_words}: {tie.distance_m:.3f} m."
            for tie in plan.ties
        ),
        *plan.notes,
    ]
    return " ".join(sentences)


def spot_words(spot: Spot) -> str:
    """A spot with its place."""
    return f"{spot.tag} {spot.name} at {place(spot.x_m, spot.y_m)}"


def place(x_m: float, y_m: float) -> str:
    """A place to the centimetre.

    >>> place(24, 6)
    '(24.00, 6.00)'
    """
    return f"({x_m:.2f}, {y_m:.2f})"


def _places(points: Sequence[Place]) -> str:
    return ", ".join(place(x, y) for x, y in points) or "no point recorded"


def north(plan: SitePlan) -> str:
    """Where north is, in words."""
    if plan.north_deg == 0:
        return f"Up is {plan.north_words}."
    return f"The arrow for {plan.north_words} points {plan.north_deg:g} degrees clockwise from up."
