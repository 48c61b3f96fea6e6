"""How the manual looks: one style sheet, one page skeleton, two font families.

The families have names of their own, so that a font of the machine is never taken for them.
Atkinson Hyperlegible Next was drawn to keep 0 and O, 1, l and I apart for tired or weak eyes.
"""

import base64
import re
from dataclasses import dataclass
from importlib.resources import files
from string import Formatter

from manual.languages import spoken

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
    return _SAY.sub(_content, (files(__name__) / "manual.css").read_text(encoding="utf-8"))


#: Words in a rule: ``say(key, name=function(…), …)``, each name put in where it stands.
_SAY = re.compile(r"\bsay\(([\w.]+)((?:,\s*\w+=[\w-]+\((?:[^()]|\([^()]*\))*\))*)\)")
_PUT = re.compile(r"(\w+)=([\w-]+\((?:[^()]|\([^()]*\))*\))")


def _content(asked: re.Match[str]) -> str:
    """Words as CSS writes them: strings, and between them what is only known on the page."""
    put = dict(_PUT.findall(asked[2]))
    pieces = []
    for words, name, _, _ in Formatter().parse(spoken().words[asked[1]]):
        pieces += [_string(words)] if words else []
        pieces += [put[name]] if name else []
    return " ".join(pieces)


def _string(words: str) -> str:
    kept = words.replace("\\", "\\\\").replace('"', '\\"')
    return f'"{kept}"'


def page(body: str, *, title: str, lang: str, style: str = "", policy: str = "") -> str:
    """A whole HTML document around `body`, which is taken as ready HTML.

    `lang` is a language tag such as `en` or `en-US` (BCP 47); `policy` says what a browser lets
    the page do (Content Security Policy Level 3, W3C).
    """
    from jinja2 import Environment
    from markupsafe import Markup

    from manual.theme.held import held

    skeleton = (files(__name__) / "page.html.jinja").read_text(encoding="utf-8")
    template = Environment(autoescape=True, keep_trailing_newline=True).from_string(skeleton)
    return template.render(
        body=Markup(held(body)), title=title, lang=lang, style=Markup(style), policy=policy
    )
