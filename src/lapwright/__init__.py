"""From a measured stationary steam engine to what is wrong, what to cut or set, and the job card to work from.

The public names are found on first use, so importing the package costs next to nothing.
"""

from importlib import import_module

__version__ = "0.1.0"

# Read by type checkers only: to them the names are simply imported.
TYPE_CHECKING = False
if TYPE_CHECKING:
    from lapwright.cures import find_cures as find_cures
    from lapwright.findings import find_faults as find_faults
    from lapwright.job.visit import examine as examine
    from lapwright.motion.answers import describe_motion as describe_motion
    from lapwright.motion.many import EngineArrays as EngineArrays
    from lapwright.motion.many import find_events_of_many as find_events_of_many
    from lapwright.record import open_record as open_record
    from lapwright.record import read_record as read_record

_ROOM_OF = {
    "EngineArrays": "lapwright.motion.many",
    "describe_motion": "lapwright.motion.answers",
    "examine": "lapwright.job.visit",
    "find_cures": "lapwright.cures",
    "find_events_of_many": "lapwright.motion.many",
    "find_faults": "lapwright.findings",
    "open_record": "lapwright.record",
    "read_record": "lapwright.record",
}

__all__ = ["__version__", *_ROOM_OF]  # noqa: PLE0604 - a literal list would say every name twice


def __getattr__(name: str) -> object:
    """Fetch a public name from the room it lives in, and keep it for the next time."""
    room = _ROOM_OF.get(name)
    if room is None:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    value: object = getattr(import_module(room), name)
    globals()[name] = value
    return value


def __dir__() -> list[str]:
    """List the public names whether or not they have been used yet."""
    return sorted({*globals(), *_ROOM_OF})
