"""Which valve drains the drip leg, before and after the demo's two plates were found swapped.

The answers are those written down beside the demo's plan: known 2022-05-20 it is DV-2, known
2022-05-24 it is DV-1. The record is made of the demo's sheets, by the commands a crew types.
"""

from collections.abc import Callable

PLATES = ("DV-1", "DV-2")


def drains_the_drip_leg(ask: Callable[..., str], known: str) -> list[str]:
    told = {tag: ask("show", tag, "--as-known-at", known) for tag in PLATES}
    return [tag for tag, words in told.items() if "from the drip leg to D-1" in words]


def test_known_on_friday_the_plate_on_the_drain_of_the_drip_leg_is_dv_2(ask) -> None:
    assert drains_the_drip_leg(ask, "2022-05-20T20:00") == ["DV-2"]


def test_known_on_tuesday_it_is_dv_1_and_one_entry_says_why(ask) -> None:
    assert drains_the_drip_leg(ask, "2022-05-24T20:00") == ["DV-1"]
    assert "written of DV-2; the tags were swapped" in ask("show", "DV-1")


def test_how_the_valves_were_left_on_thursday_follows_the_swap(ask) -> None:
    """Left under the wrong plates: the pump's valve open, the drain's shut; so DV-1 was shut."""
    told = ask("history", "DV-1").split("\n  20")  # an entry each, by its day
    thursday = [one for one in told if one.startswith("22-05-19 17:20") and "left as  (" in one]
    assert len(thursday) == 1
    assert "written of DV-2" in thursday[0] and "state: shut" in thursday[0]
