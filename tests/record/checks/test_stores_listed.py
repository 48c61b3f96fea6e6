"""What the stores hold."""

from record.checks import stores_listed as rule
from tests.record.checks.ground import handed

STORE = "\n## store S-1\n\n- hull: A\n"
ROWS = "\n| item | what | count |\n|---|---|---|\n| 1 masks | masks | 8 |\n| 2 bar | bar | {} |\n"


def test_a_store_with_a_list_is_right():
    assert handed(rule, STORE + ROWS.format(1)) == []
    assert handed(rule, STORE + ROWS.format("none")) == []


def test_one_without_holds_the_signature():
    [found] = handed(rule, STORE)
    assert (found.about, found.stops, found.sure) == ("S-1", True, "cannot be told")


def test_a_line_without_a_count_is_looked_at():
    [found] = handed(rule, STORE + ROWS.format("not recorded"))
    assert (found.stops, found.says) == (False, "how many it holds is not told: bar")


def test_a_reader_who_may_not_know_the_stores_is_told_nothing():
    assert handed(rule, STORE, reader="trade") == []
