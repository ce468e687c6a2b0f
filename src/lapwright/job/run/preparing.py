"""Whether the running engine's compiled code is there, or has to be made first, which takes a while."""

from __future__ import annotations

from threading import Event, Lock, Thread

#: The kernel that is compiled last: it calls all others.
_LAST = "march.march-*.nbc"
_lock, _under_way, _ready = Lock(), Event(), Event()


def needs_preparing() -> bool:
    """Return whether the next run has to compile its code first; once compiled it is kept."""
    from lapwright.medium.compiling import find_folder

    folder = find_folder()
    return folder is None or not any(folder.rglob(_LAST))


def prepare_beside() -> bool:
    """Return whether a run would have to wait for its code; if so it is compiled beside everything else."""
    if _ready.is_set():
        return False
    with _lock:
        if not needs_preparing():
            _ready.set()
        elif not _under_way.is_set():
            _under_way.set()
            Thread(target=_prepare, daemon=True).start()
        return not _ready.is_set()


def _prepare() -> None:
    from lapwright.cycle.preparing import prepare_kernels

    prepare_kernels()
    _ready.set()
