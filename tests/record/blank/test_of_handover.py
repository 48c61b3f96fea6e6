"""The form before hand-over: every rule has its help, and what is filled in clears it."""

import re

import pytest

from record.blank import HANDOVER_HELP, Form, of_handover, write
from record.checks import HANDOVER_RULES
from record.log import Log
from record.readers import look
from tests.record.blank.filling import fill
from tests.record.building import day
from tests.record.checks.ground import SITE
from tests.record.checks.shaft import SHAFT
from tests.record.checks.test_boards_coated import board
from tests.record.checks.test_cover_as_designed import POINTS
from tests.record.checks.test_way_out_tied import THIRD
from tests.record.records import post_text

#: Rule → blocks that trip it, and what is then written over its gaps, by regular expression.
CASES = {
    "the manual can say what it must": ("## remark\n\nDry.\n", []),
    "every open item has somebody's name": (
        "## hand-over item HO-1\n\n- what: plug\n- by whom: none\n- state: open\n",
        [],
    ),
    "way out opens inward": (
        SHAFT.replace("opens: lifts out into the room", "opens: outward"),
        [(r"(- opens: )_+", r"\1inward")],
    ),
    "way out about a foot below grade": (
        SHAFT.replace("grade: 0.35 m", "grade: not recorded"),
        [(r"(- top below grade: )_+", r"\1 1 ft")],
    ),
    "way out found from above": (
        SHAFT.replace(THIRD, ""),
        [(r"\| _+ +\|( +middle)", r"| G1 |\1")],
    ),
    "sand fits the room": (
        SHAFT.replace("section across: 0.75 m", "section across: not recorded"),
        [(r"(- section across: )_+", r"\1 0.75 m")],
    ),
    "heap clear of lids and tools": (
        SHAFT.replace("- face: far", "- face: not recorded"),
        [(r"(- face: )_+", r"\1far")],
    ),
    "way out walked through": (
        SHAFT.replace("walked by: ow, without opening", "walked by: none"),
        [],
    ),
    "cover as designed": (
        POINTS.replace("1.280 ±", "1.180 ±"),
        [(r"\| C3 +\| _+", "| C3 | 1.25 m")],
    ),
    "crank turned and timed": (
        "## equipment HC-1\n\n- type: hand crank\n",
        [(r"(- reading: )_+", r"\1 80 m³/h at 45 rev/min")],
    ),
    "procedure for emergency equipment": ("## equipment PU-1\n\n- type: pump\n", []),
    "a drill for every emergency": ("## remark\n\nDry.\n", []),
    "valve can be found and shut": (
        "## valve V-1\n\n- type: ball\n- on run: not recorded\n"
        "\n## landmark L-1\n\n- what: post\n- x: 1 m\n- y: 0 m\n"
        "\n## landmark L-2\n\n- what: post\n- x: 9 m\n- y: 0 m\n",
        [],
    ),
    "panel can be taken off": (board("A-L1", "plywood", 1), []),
    "two coats on cement board, one elsewhere": (board("A-L1", "cement board", 1), []),
    "stores listed": ("## store S-1\n\n- hull: A\n", []),
}


def test_every_handover_rule_has_its_help_and_its_case():
    words = {rule.word for rule in HANDOVER_RULES}
    assert set(HANDOVER_HELP) == words
    assert set(CASES) == words - set(DUG)


#: What only the ground clears.
DUG = ("in its hull",)


@pytest.mark.parametrize(
    "rule", [r for r in HANDOVER_RULES if r.word not in DUG], ids=lambda rule: rule.word
)
def test_what_is_filled_in_clears_the_finding(rule, tmp_path):
    blocks, written = CASES[rule.word]
    with Log.make(tmp_path / "record") as log:
        post_text(log, day("2031-05-13", "ld", SITE))
        post_text(log, day("2031-05-14", "ld", blocks))
        view = look(log.entries())
        found = list(rule.find(view))
        assert found
        form = write(
            Form(
                day="2031-05-15",
                writer="ck",
                part="",
                site=view.built.site,
                zone="America/Denver",
                notes=(),
                blocks=of_handover(view, found),
            )
        )
        for finding in found:
            assert " ".join(finding.says.split()) in " ".join(form.split())
        for gap, value in written:
            form, count = re.subn(gap, value, form)
            assert count, gap
        post_text(log, fill(form, view.built, tmp_path).text, folder=tmp_path)
        assert list(rule.find(look(log.entries()))) == []
