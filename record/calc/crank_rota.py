"""Turns at the crank, shared out among those who are able.

Round and round in one order, each turn as long as the last (common practice, no source): nobody
works more than one turn longer than another, and each rests while all the others work.
"""

from __future__ import annotations

from dataclasses import dataclass

from record.calc.air_cautions import STRAIN

TURN_MIN = 15  # as the pages for a lost supply have it: change person every 15 minutes
SHORTEST_MIN, LONGEST_MIN = 5, 60  # of a turn; our own limits
MOST_PEOPLE = 50
MOST_MIN = 7 * 24 * 60


@dataclass(frozen=True, slots=True)
class Turn:
    """One turn: whose, counted from 1, and from when to when after the start. [min]"""

    person: int
    from_min: int
    to_min: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Rota:
    """
    Turns from one end to the other without a gap.

    Attributes
    ----------
    turns : tuple of Turn
    worked_min : tuple of int
        Of each person, in all. [min]
    rest_min : int
        Between two turns of one person; 0 where there is nobody to change with. [min]
    alone : bool
        Whether there is nobody to change with: then nothing is shared, and nothing said of how
        long it goes on.
    caution : str
        Key of the sentence that goes with it.
    """

    turns: tuple[Turn, ...]
    worked_min: tuple[int, ...]
    rest_min: int
    alone: bool
    caution: str = STRAIN


def crank_rota(able: int, total_min: int, turn_min: int = TURN_MIN) -> Rota:
    """
    Return the turns of a number of able people.

    Parameters
    ----------
    able : int
        People able to turn the crank, 1 to 50. Children, the sick and the pregnant are not.
    total_min : int
        How long the crank is to go, up to a week; the last turn may be cut short. [min]
    turn_min : int
        How long a turn is, 5 to 60. [min]

    Raises
    ------
    ValueError
        If a number is outside its range.

    Notes
    -----
    Sleep is not in it: four people at quarters of an hour rest 45 min, which is no night. Whoever
    is tired is left out, and the rota made anew.

    Examples
    --------
    Four people for two hours, by hand: two turns each, 45 min between them.

    >>> rota = crank_rota(4, 120)
    >>> rota.worked_min, rota.rest_min, rota.turns[-1]
    ((30, 30, 30, 30), 45, Turn(person=4, from_min=105, to_min=120))
    """
    for what, number, least, most in (
        ("people able to crank", able, 1, MOST_PEOPLE),
        ("minutes in all", total_min, 1, MOST_MIN),
        ("minutes in a turn", turn_min, SHORTEST_MIN, LONGEST_MIN),
    ):
        if not least <= number <= most:
            raise ValueError(f"{number} {what} is outside {least} to {most}")
    turns = tuple(
        Turn(place % able + 1, start, min(start + turn_min, total_min))
        for place, start in enumerate(range(0, total_min, turn_min))
    )
    worked = [0] * able
    for turn in turns:
        worked[turn.person - 1] += turn.to_min - turn.from_min
    return Rota(
        turns=turns,
        worked_min=tuple(worked),
        rest_min=(able - 1) * turn_min,
        alone=able == 1,
    )
