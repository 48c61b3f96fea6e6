"""How the manual looks: one style sheet, one page skeleton, two font families.

The families have names of their own, so that a font of the machine is never taken for them.
Atkinson Hyperlegible Next was drawn to keep 0 and O, 1, l and I apart for tired or weak eyes.
"""

import base64
from dataclasses import dataclass
from importlib.resources import files

TEXT = "Asburied Text"
MARKS = "Asburied Marks"
# For the font-family of a drawing, which may also be looked at by itself. No space after a
# comma: WeasyPrint does not drop it in SVG, and would then miss the second family.
FAMILIES = f"'{TEXT}','{MARKS}','Atkinson Hyperlegible Next','DejaVu Sans',sans-serif"


@dataclass(frozen=True, slots=True)
class Face:
    """One font file, the family it is called by and its weight (CSS scale)."""

    family: str
    weight: int
    file: str


FACES = (
    Face(TEXT, 400, "AtkinsonHyperlegibleNext-Regular.ttf"),
    Face(TEXT, 700, "AtkinsonHyperlegibleNext-Bold.ttf"),
    Face(MARKS, 400, "AsburiedMarks-Regular.ttf"),
    Face(MARKS, 700, "AsburiedMarks-Bold.ttf"),
)


def font_bytes(face: Face) -> bytes:
    """The font file (TrueType) as shipped."""
    return (files(__name__) / "fonts" / face.file).read_bytes()


def font_rules() -> str:
    """CSS that carries the fonts inside itself, as data URIs."""
    return "\n".join(
        f"@font-face{{font-family:'{face.family}';font-weight:{face.weight};font-style:normal;"
        f"src:url(data:font/ttf;base64,{base64.b64encode(font_bytes(face)).decode()})}}"
        for face in FACES
    )


def stylesheet() -> str:
    """The manual's rules for paper and for a screen (CSS), without its fonts."""
    return (files(__name__) / "manual.css").read_text(encoding="utf-8")


def page(body: str, *, title: str, lang: str, style: str = "", policy: str = "") -> str:
    """A whole HTML document around `body`, which is taken as ready HTML.

    `lang` is a language tag such as `en` or `en-US` (BCP 47); `policy` says what a browser lets
    the page do (Content Security Policy Level 3, W3C).
    """
    from jinja2 import Environment
    from markupsafe import Markup

    skeleton = (files(__name__) / "page.html.jinja").read_text(encoding="utf-8")
    template = Environment(autoescape=True, keep_trailing_newline=True).from_string(skeleton)
    return template.render(
        body=Markup(body), title=title, lang=lang, style=Markup(style), policy=policy
    )
