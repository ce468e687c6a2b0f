"""The job card as one web page that needs nothing else: inline pictures and styles, no script."""

from __future__ import annotations

import os
from collections.abc import Iterable
from html import escape
from pathlib import Path

from lapwright.papers.blocks import Block, Cautions, Heading, Paragraph, Pictures, Points, Remark, Steps, Table, Ticks
from lapwright.papers.drawing import Drawing
from lapwright.papers.kinds import KINDS
from lapwright.papers.lettering import clean_text, clip_text
from lapwright.papers.matter import CardMatter
from lapwright.papers.svg import svg_text
from lapwright.papers.title import list_title
from lapwright.papers.writing import write_whole
from lapwright.quantities.spacing import space_figures

#: Room for pictures from edge to edge of the text [mm].
WIDTH = 178.0


def write_page(matter: CardMatter, path: str | os.PathLike[str]) -> None:
    """Write the job card as one HTML file, whole or not at all.

    Raises
    ------
    OSError: the file system says no
    """
    write_whole(path, page_text(matter).encode("utf-8"))


def page_text(matter: CardMatter, *, kind: str = "card") -> str:
    """Return the job card, or another kind of paper, as one HTML page with everything it needs inside.

    Parameters
    ----------
    matter: what is told
    kind: one of `KINDS`
    """
    what = KINDS[kind].title
    name = clip_text(matter.engine.name, 60)
    rows = "".join(f"<div><dt>{_words(one)}</dt><dd>{_words(two)}</dd></div>" for one, two in list_title(matter))
    body = "\n".join(_set_block(block) for block in KINDS[kind].lay(matter, WIDTH))
    head = f'<header class="title"><p>{what}</p><h1>{_words(name)}</h1><dl>{rows}</dl></header>'
    return _frame(f"{what}: {name}", style=page_style(), body=f"{head}\n<main>\n{body}\n</main>\n")


def page_style() -> str:
    """Return the look of every such page, as it stands between its style tags."""
    return _read_style("page.css")


def sheet_page(sheet: Drawing) -> str:
    """Return a drawing on a sheet of its own as one HTML page, which prints edge to edge.

    Parameters
    ----------
    sheet: the drawing, rule and title strip with it
    """
    return _frame(sheet.about, style=sheet_style(), body=svg_text(sheet))


def sheet_style() -> str:
    """Return the look of a page that is one drawing, as it stands between its style tags."""
    return _read_style("sheet.css")


def _read_style(name: str) -> str:
    return "\n" + (Path(__file__).parent / name).read_text(encoding="utf-8")


def _frame(title: str, *, style: str, body: str) -> str:
    return (
        '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">\n"
        f"<title>{escape(clean_text(title))}</title>\n<style>{style}</style>\n</head>\n<body>\n{body}</body>\n</html>\n"
    )


def _words(words: str) -> str:
    return escape(space_figures(clean_text(words)))


def _items(lines: Iterable[str]) -> str:
    return "".join(f"<li>{_words(line)}</li>" for line in lines)


def _set_block(block: Block) -> str:
    match block:
        case Heading():
            fresh = ' class="fresh"' if block.fresh else ""
            return f"<h{block.level + 1}{fresh}>{_words(block.words)}</h{block.level + 1}>"
        case Paragraph():
            return f"<p>{_words(block.words)}</p>"
        case Remark():
            strong = " strong" if block.mark.endswith(" IT") else ""
            lines = "".join(f"<dt>{_words(one)}</dt><dd>{_words(two)}</dd>" for one, two in block.lines)
            mark = f'<span class="mark{strong}">{_words(block.mark)}</span>'
            return f'<section class="remark"><h3>{mark} {_words(block.title)}</h3><dl>{lines}</dl></section>'
        case Steps():
            return f'<ol class="steps">{_items(block.lines)}</ol>'
        case Cautions():
            return f'<aside class="caution"><strong>Caution</strong><ul>{_items(block.lines)}</ul></aside>'
        case Points():
            return f"<ul>{_items(block.lines)}</ul>"
        case Table() | Ticks():
            return _set_table(block) if isinstance(block, Table) else _set_ticks(block)
        case Pictures():
            return '<div class="pictures">' + "".join(svg_text(drawing) for drawing in block.drawings) + "</div>"


def _set_table(table: Table) -> str:
    header = "".join(f'<th scope="col">{_words(words)}</th>' for words in table.header)
    rows = "".join(
        f'<tr><th scope="row">{_words(row[0])}</th>' + "".join(f"<td>{_words(cell)}</td>" for cell in row[1:]) + "</tr>"
        for row in table.rows
    )
    return f'<div class="table"><table><thead><tr>{header}</tr></thead><tbody>{rows}</tbody></table></div>'


def _set_ticks(ticks: Ticks) -> str:
    rows = "".join(
        f"<li>{_words(what)} <b>{_words(much)}</b> <small>{_words(use)}</small></li>" for what, much, use in ticks.rows
    )
    return f'<section class="ticks"><h3>{_words(ticks.name)}</h3><ul>{rows}</ul></section>'
