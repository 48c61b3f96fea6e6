"""Clean, tar, foam, sealer, foam, wrap, earth: common practice, no source."""

from record.checks import build_up_in_usual_order as rule
from tests.record.checks.ground import SEAM, against, changed, the_one

WRAP = "| 4 wrap | wrap | 1 | n/a, half-lapped | none | none |\n"
TAR = "| 2 tar | hot tar | 1 | 2.5 mm | 2 h | 48 h |\n"
FOAM = "| 3 foam | spray foam | 2 | 70 mm | 15 min | 24 h |\n"


def test_the_usual_layers_with_some_left_out_are_let_be():
    assert against(rule, SEAM) == []


def test_foam_again_over_its_sealer_is_usual():
    more = changed(
        SEAM,
        (
            FOAM,
            FOAM
            + "| 4 sealer | x | 1 | none | none | none |\n"
            + "| 5 foam | x | 1 | none | none | none |\n",
        ),
        ("| 4 wrap", "| 6 wrap"),
    )
    assert against(rule, more) == []


def test_wrap_before_tar_is_asked_about_and_does_not_stop():
    turned = changed(SEAM, (WRAP, ""), (TAR, WRAP.replace("4 ", "2 ") + TAR.replace("2 ", "3 ", 1)))
    turned = changed(turned, (FOAM, FOAM.replace("3 ", "4 ", 1)))
    found = the_one(rule, turned)
    assert (found.about, found.stops) == ("SM", False)
    assert "primer → wrap → tar → foam, where the usual order is clean → tar" in found.says


def test_the_inside_of_a_wall_has_no_usual_order():
    assert (
        against(rule, changed(SEAM, ("side: outside", "side: inside"), ("| 2 tar", "| 2 wrap")))
        == []
    )
