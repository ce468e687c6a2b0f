"""Whether the running engine's compiled code is there, or has to be made first, which takes a while."""

from __future__ import annotations

#: The kernel that is compiled last: it calls all others.
_LAST = "march.march-*.nbc"


def needs_preparing() -> bool:
    """Return whether the next run has to compile its code first; once compiled it is kept."""
    from lapwright.medium.compiling import find_folder

    folder = find_folder()
    return folder is None or not any(folder.rglob(_LAST))
