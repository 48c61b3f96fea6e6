"""The least fall: the designer's, or the code's."""

from record.checks import falls_enough as rule
from tests.record.checks.ground import TRENCH, against, changed, the_one


def with_least(text):
    return changed(TRENCH, ("- least fall: 1 %", f"- least fall: {text}"))


def drain(carries="condensate", size="50 mm", **levels):
    """A drain of 12.5 m; its middle station, at 5 m, lies in line."""
    return changed(
        TRENCH,
        ("carries: supply air", f"carries: {carries}"),
        ("size: 150 mm", f"size: {size}"),
        ("- least fall: 1 %\n- least fall from: engineer\n", ""),
        *levels.items(),
    )


def test_two_in_a_hundred_is_enough_where_one_is_asked():
    assert against(rule, TRENCH) == []
    assert against(rule, with_least("1.9 %")) == []


def test_a_flatter_pipe_than_its_designer_asks_is_certainly_too_flat():
    """2 % against 3 %: 100 mm where 150 are asked, and 150 where 225 are; ± 4.2 mm is far less."""
    found = the_one(rule, with_least("3 %"))
    assert (found.sure, found.stops) == ("certain", True)
    assert "drops 100 mm ± 4.2 mm (2.00 %), less than 3 % (engineer)" in found.says


def test_a_pipe_just_at_its_least_fall_is_to_be_looked_at_and_not_held():
    """100 mm where 100 are asked, ± 4.2 mm."""
    found = the_one(rule, with_least("2 %"))
    assert (found.sure, found.stops) == ("cannot be told", False)


def test_a_pipe_just_under_it_is_held_though_it_cannot_be_told():
    """2.02 % asks 101 mm of the first length, which has 100 ± 4.2 mm."""
    found = [one for one in against(rule, with_least("2.02 %")) if one.stops]
    assert [one.sure for one in found] == ["cannot be told"]


def test_one_in_a_hundred_is_short_of_the_code_for_condensate():
    """International Mechanical Code 307.2.1 asks 1/8 in 12 in, which is 1.0417 %: of 5.00 m
    52.1 mm. Laid at 0.80 % it has 40 mm."""
    flat = drain(**{"98.300": "98.360", "98.150": "98.300", "98.400 ± 3 mm": "98.400 ± 1 mm"})
    found = against(rule, flat)
    assert any("International Mechanical Code" in one.says for one in found)
    assert any(one.sure == "certain" and one.stops for one in found)


def test_a_code_met_does_not_stand_in_for_a_figure_nobody_wrote():
    """A blank holds: the designer may have asked more than the code."""
    found = the_one(rule, drain())
    assert (found.sure, found.stops) == ("cannot be told", True)
    assert "held against 1/8 in 12 in (1 %) instead" in found.says
    assert "- least fall: 1/8 in/ft" in found.clears  # as a sheet takes it


def test_an_air_pipe_without_a_figure_has_no_code_to_fall_back_on():
    found = the_one(rule, with_least("not recorded"))
    assert (found.sure, found.stops) == ("cannot be told", True)
    assert "instead" not in found.says


def test_a_pumped_line_stated_to_have_no_least_fall_is_not_held():
    pumped = changed(with_least("n/a, pumped"), ("carries: supply air", "carries: pumped water"))
    assert against(rule, pumped) == []
