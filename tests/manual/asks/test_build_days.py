"""The build record on paper keeps every word; lists of changes point to it."""

from manual.asks.build_days import LONG, Told
from tests.manual.books import body_of, entries

LAST = "and the last word stands here"
REMARK = f"## remark AU-1\n\n- text: {'the belt slipped on the pulley, ' * 12}{LAST}"


def test_a_long_remark_stands_whole_in_the_build_day_by_day():
    body = body_of(entries(REMARK))
    chapter = body.partition("The build, day by day</h1>")[2].partition("<h1")[0]
    assert LAST in chapter


def test_in_a_list_of_changes_it_is_cut_between_two_words_and_shows_it():
    (one,) = [Told(each) for each in entries(REMARK) if each.content.about == "AU-1"][-1:]
    assert len(one.words) > 2 * LONG and one.words.endswith(LAST)
    assert len(one.in_short) <= LONG + 1 and one.in_short.endswith(" …")
    assert one.words.startswith(one.in_short.removesuffix(" …") + " ")
