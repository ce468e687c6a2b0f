"""The job card as PDF: blocks set in type, A4 or US Letter."""

from __future__ import annotations

import os
from collections.abc import Iterable
from pathlib import Path

from lapwright.papers.blocks import Block, Cautions, Heading, Paragraph, Pictures, Points, Remark, Steps, Table, Ticks
from lapwright.papers.kinds import KINDS
from lapwright.papers.lettering import LONGEST_WORD, clip_text, soften_text
from lapwright.papers.matter import CardMatter
from lapwright.papers.svg import svg_text
from lapwright.papers.title import list_title
from lapwright.papers.writing import write_whole

#: Width of the sheets and of the margin at each side [mm].
WIDTHS = {"a4": 210.0, "letter": 215.9}
NAMES = {"a4": "a4", "letter": "us-letter"}
MARGIN = 16.0
#: Number of letters for which the title block has room, however wide they are.
TITLE_WORD = 14


def write_card(matter: CardMatter, path: str | os.PathLike[str], *, paper: str = "a4") -> None:
    """Write the job card as PDF, whole or not at all.

    Parameters
    ----------
    matter: what is told
    path: where to write
    paper: "a4" or "letter"

    Raises
    ------
    OSError: the file system says no
    """
    write_whole(path, card_bytes(matter, paper=paper))


def card_bytes(matter: CardMatter, *, paper: str = "a4", kind: str = "card") -> bytes:
    """Return the job card, or another kind of paper, as PDF; the same matter gives the same bytes.

    Parameters
    ----------
    matter: what is told
    paper: "a4" or "letter"
    kind: one of `KINDS`
    """
    return typeset(typst_text(matter, paper=paper, kind=kind), root=Path(__file__).parent)


def typeset(text: str, *, root: Path) -> bytes:
    """Return a text of the typesetter's as PDF; the same text gives the same bytes.

    Parameters
    ----------
    text: frame, calls and quoted words
    root: the folder its pictures lie in; it reads nothing outside
    """
    import font_source_sans_pro
    import typst

    fonts = Path(font_source_sans_pro.__file__).parent / "files"
    typefaces = typst.Fonts(include_system_fonts=False, font_paths=[fonts])
    # Its own root: without one the typesetter asks for the working folder, which may be gone.
    setter = typst.Compiler(text.encode("utf-8"), root=root, font_paths=typefaces)
    made = setter.compile(format="pdf", timestamp=0)
    assert isinstance(made, bytes), "a PDF comes in one piece"
    return made


def typst_text(matter: CardMatter, *, paper: str, kind: str) -> str:
    """Return a paper as it is handed to the typesetter: a frame of ours, and calls with quoted text only."""
    frame = (Path(__file__).parent / "card.typ").read_text(encoding="utf-8")
    what = quote_text(KINDS[kind].title)
    name = quote_text(clip_text(matter.engine.name, 60), TITLE_WORD)
    foot = quote_text(f"{clip_text(matter.record_name, 40)}  ·  {matter.record_digest[:12]}  ·  {matter.date}")
    head = f"#show: sheet.with(paper: {quote_text(NAMES[paper])}, what: {what}, name: {name}, foot: {foot})"
    title = f"#title-block({what}, {name}, {quote_pairs(list_title(matter), TITLE_WORD)})"
    width = WIDTHS[paper] - 2 * MARGIN
    blocks = [set_block(block) for block in KINDS[kind].lay(matter, width)]
    return "\n".join([frame, head, title, *blocks, ""])


def quote_text(words: str, longest: int = LONGEST_WORD) -> str:
    r"""Return words as a typst string, so that nothing in them is read as markup.

    Parameters
    ----------
    words: as they were written
    longest: number of letters that every line has room for; longer runs may be broken

    Example:
    >>> quote_text('#set "x" \\')
    '"#set \\"x\\" \\\\"'
    """
    return '"' + soften_text(words, longest).replace("\\", "\\\\").replace('"', '\\"') + '"'


def _list(words: Iterable[str]) -> str:
    return "(" + "".join(f"{quote_text(each)}, " for each in words) + ")"


def quote_pairs(pairs: Iterable[tuple[str, str]], longest: int = LONGEST_WORD) -> str:
    """Return pairs of words as a typst array.

    Parameters
    ----------
    pairs: a name and what stands beside it
    longest: number of letters of the second for which every line has room
    """
    return "(" + "".join(f"({quote_text(one)}, {quote_text(two, longest)}), " for one, two in pairs) + ")"


def _list_rows(rows: Iterable[Iterable[str]]) -> str:
    return "(" + "".join(f"{_list(row)}, " for row in rows) + ")"


def set_block(block: Block) -> str:
    """Return the call that sets a block in type."""
    match block:
        case Heading():
            fresh = "#pagebreak(weak: true)\n" if block.fresh else ""
            return f"{fresh}#part-{block.level}({quote_text(block.words)})"
        case Paragraph():
            return f"#words({quote_text(block.words)})"
        case Remark():
            return f"#remark({quote_text(block.mark)}, {quote_text(block.title)}, {quote_pairs(block.lines)})"
        case Steps() | Cautions() | Points():
            return f"#{type(block).__name__.lower()}({_list(block.lines)})"
        case Table():
            return f"#figures({_list(block.header)}, {_list_rows(block.rows)}, blanks: {_count(block.blanks)})"
        case Ticks():
            return f"#ticks({quote_text(block.name)}, {_list_rows(block.rows)})"
        case Pictures():
            images = "".join(f"({quote_drawing(svg_text(d))}, {d.width}mm), " for d in block.drawings)
            return f"#pictures(({images}))"


def quote_drawing(svg: str) -> str:
    """Return an SVG as a typst string, byte for byte."""
    return '"' + svg.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n") + '"'


def _count(numbers: Iterable[int]) -> str:
    return "(" + "".join(f"{number}, " for number in numbers) + ")"
