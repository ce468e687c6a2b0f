"""What a page shows is set out for reading; what it is asked for, and what a script reads, stays to the letter."""

from __future__ import annotations

import re

from lapwright.quantities.spacing import space_figures

#: A tag, or a whole element whose text is read again: by a form, by a script, or by a person who copies it.
_LEFT_ALONE = re.compile(
    r"(<(?P<kind>script|style|textarea|select|pre|code|svg|title)\b.*?</(?P=kind)>|<!--.*?-->|<[^>]*>)", re.DOTALL
)


def set_out(page: str) -> str:
    r"""Set the figures in the words of a page, or of a part of one.

    Parameters
    ----------
    page: as HTML

    Example:
    >>> set_out('<p title="-1 mm">-1 mm</p><code>-1 mm</code>') == '<p title="-1 mm">−1\xa0mm</p><code>-1 mm</code>'
    True
    """
    parts, end = [], 0
    for found in _LEFT_ALONE.finditer(page):
        parts += [space_figures(page[end : found.start()]), found[0]]
        end = found.end()
    return "".join((*parts, space_figures(page[end:])))
