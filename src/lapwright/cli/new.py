"""`lapwright new`: begin a record, blank with every key explained, or by questions."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

if TYPE_CHECKING:
    from collections.abc import Iterator

#: What is asked for, in the order of measuring: record path, question, an example of an answer.
QUESTIONS = (
    ("cylinder.0.bore", "Bore of the cylinder", "3/4 in"),
    ("cylinder.0.stroke", "Stroke (twice the crank throw)", "3/4 in"),
    ("cylinder.0.connecting_rod", "Connecting rod, centre to centre", "45 mm"),
    (
        "cylinder.0.piston_rod",
        "Diameter of the piston rod (none only where the crank end is open to the air)",
        "3.2 mm",
    ),
    ("cylinder.0.port_face.steam_port", "Steam port, width along the valve's travel", "2.0 ± 0.05 mm"),
    ("cylinder.0.port_face.bridge", "Bridge between steam port and exhaust port", "2.0 mm"),
    ("cylinder.0.port_face.exhaust_port", "Exhaust port, width along the valve's travel", "4.0 mm"),
    ("cylinder.0.valve.length", "Valve, length over its outer edges", "14.0 mm"),
    ("cylinder.0.valve.cavity", "Valve, length of the cavity underneath", "8.0 mm"),
    ("cylinder.0.valve_drive.throw", "Throw of the eccentric (half the valve's travel)", "3.0 mm"),
    ("cylinder.0.valve_drive.eccentric_rod", "Eccentric rod, centre to centre", "60 mm"),
    ("cylinder.0.valve_drive.eccentric_angle", "Eccentric ahead of the crank, in the running direction", "90 deg"),
)


def run(
    record: Annotated[Path, typer.Argument(help="The file to write; it must not exist yet.", metavar="RECORD")],
    name: Annotated[str, typer.Option(help="What the engine is called; the file's name where left out.")] = "",
    ask: Annotated[
        bool | None,
        typer.Option("--ask/--blank", help="Ask for the sizes, or write a blank record to fill in with an editor."),
    ] = None,
) -> None:
    """Begin an engine record. Every size may be left out: what is not known stays open."""
    from lapwright.errors import CannotSave
    from lapwright.job.records import blank_record, save_record

    if record.exists():
        raise CannotSave(str(record), "it exists already")
    text = blank_record(name or record.stem or "Engine")
    if sys.stdin.isatty() if ask is None else ask:
        text = _fill_in(text)
    save_record(record, text, expected_digest=None)
    print(f"Written: {record}")
    print(f'Fill in what you can measure, then: lapwright examine "{record}"')


def _fill_in(text: str) -> str:
    """Ask for one size after another; an answer that cannot be read is asked for again."""
    from lapwright.job.records import change_record, read_record

    print("Give each size with its unit, as measured; press Enter for what is not known.")
    for path, question, example in QUESTIONS:
        for answer in _answers(f"{question} (like {example}): "):
            changed = change_record(text, {path: answer})
            wrong = [problem for problem in read_record(changed.encode()).problems if problem.severity == "error"]
            if not wrong:
                text = _take_out_example(changed, path.rpartition(".")[2])
                break
            print(f"  {wrong[0].message}: {wrong[0].instead}")
    return text


def _take_out_example(text: str, key: str) -> str:
    """Take out the commented example of a key that now has a figure of its own."""
    return "".join(line for line in text.splitlines(keepends=True) if not line.startswith(f"# {key} = "))


def _answers(prompt: str) -> Iterator[str]:
    """Yield what is typed until an empty line or the end of input."""
    while True:
        try:
            typed = input(prompt).strip()
        except EOFError:
            return
        if not typed:
            return
        yield typed
