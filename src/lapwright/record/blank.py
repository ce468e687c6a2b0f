"""A record with nothing measured yet: every key in its place, said in a few words, behind a # until it is wanted."""

from __future__ import annotations

from textwrap import fill

from lapwright.record.changing import write_text
from lapwright.record.key import Key
from lapwright.record.keys import TABLES, show_heading

_TOP = """\
# Engine record. Take away the # before a line and put your own figure in; what you cannot measure stays out.
# Every figure has its unit: "19.05 mm", "3/4 in", "25 thou", "112 deg", "30 psi"; and may say how far it may be out:
# "12.7 ± 0.02 mm", "12.7 +0.02 -0.01 mm".
# Head end: the end of the cylinder farthest from the crankshaft. Crank end: the other one.
"""
_SAYINGS = {
    "cylinder": (
        "# A second cylinder: copy all from here down to [target], put it before [target], say its crank_phase.",
    ),
    "cylinder.port_face": (
        "# The face the valve slides on: two steam ports with the exhaust port between them.",
        "# Give the three widths if both ends are alike, or else the six edges.",
    ),
    "cylinder.valve": ("# Give length and cavity if both ends are alike, or else the four edges.",),
    "cylinder.valve_drive": ("# The eccentric, its rod, and how the valve is held on its spindle.",),
    "cylinder.gland": ("# A stuffing box of this cylinder: one such table for each, before the next [[cylinder]].",),
    "target": ("# Only if you want a setting of your own; otherwise the engine's purpose decides.",),
    "running": (
        "# How it runs, for pressures, power and speed. What stays out is taken as usual, and the answers say so.",
    ),
    "bench_test": (
        "# What was measured on the bench: one such table for every test, with the lines that belong to it.",
        '# "lapwright calibrate" works out friction and leaks from them.',
    ),
    "fastener": (
        "# A screw, or several alike, that is worn, will not hold, or was tightened too far: one such table for each.",
    ),
    "pin": ("# A pin on which a fork, a rod or a crosshead turns: one such table for each.",),
    "finish": ("# What is to be painted.",),
}
_EDGES = {
    "cylinder.port_face": ("2.0 mm", "4.0 mm", "6.0 mm", "10.0 mm", "12.0 mm", "14.0 mm"),
    "cylinder.valve": ("0 mm", "3.0 mm", "11.0 mm", "14.0 mm"),
}
_COMMENT_AT = 44
#: Letters of a list of words that still goes on the line, and of a line.
_LONGEST_WORDS, _LINE = 60, 118


def blank_record(name: str) -> str:
    """Write a blank record for an engine, with each key explained.

    Parameters
    ----------
    name: what the engine is called

    Example:
    >>> blank_record("Tern").splitlines()[7]
    'name = "Tern"                               # what the engine is called'
    """
    blocks = [_TOP + "format = 1\n"]
    for table, keys in TABLES.items():
        if table:  # the top of the file is written above
            lines = [*_SAYINGS.get(table, ()), show_heading(table)]
            lines += [_write_key(table, key, what, name=name) for key, what in keys.items()]
            blocks.append("".join(f"{line}\n" for line in lines))
    return "\n".join(blocks)


def _write_key(table: str, key: str, what: Key, *, name: str) -> str:
    words = " | ".join(what.words)
    about = f"{what.about}: {words}" if words and len(words) <= _LONGEST_WORDS else what.about
    if (table, key) == ("engine", "name"):
        return f"name = {write_text(name)}".ljust(_COMMENT_AT - 1) + f" # {about}"
    if what.count:
        return f"# {key} = [{', '.join(write_text(edge) for edge in _EDGES[table])}]\n#     {about}"
    example = what.example if what.is_number else write_text(what.example)
    line = f"# {key} = {example}".ljust(_COMMENT_AT - 1) + f" # {about}"
    return line if about != what.about or not words else f"{line}:\n{_fold(words)}"


def _fold(words: str) -> str:
    """Many words stand on lines of their own."""
    return fill(words, _LINE, initial_indent="#     ", subsequent_indent="#     ")
