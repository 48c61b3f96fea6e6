"""What a site plan shows: plain values in metres, x to the east, y to the north."""

from dataclasses import dataclass, field

from manual.languages import say

Place = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """The plan of something large, such as a hull or a house."""

    tag: str
    name: str
    points_m: tuple[Place, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Route:
    """A run by its stations, in order."""

    tag: str
    name: str
    points_m: tuple[Place, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A landmark, or a single thing in the ground."""

    tag: str
    name: str
    x_m: float
    y_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Tie:
    """A distance taped from a landmark to a point."""

    from_tag: str
    to_words: str  # what it was taped to, such as "AIR-IN bend"
    from_m: Place
    to_m: Place
    distance_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SitePlan:
    """The site from above, grid north up."""

    name: str
    outlines: tuple[Outline, ...] = ()
    landmarks: tuple[Spot, ...] = ()
    routes: tuple[Route, ...] = ()
    spots: tuple[Spot, ...] = ()
    ties: tuple[Tie, ...] = ()
    north_deg: float = 0.0  # where the arrow points, clockwise from the top of the paper
    north_words: str = field(default_factory=lambda: say("plan.grid_north"))
    notes: tuple[str, ...] = ()
