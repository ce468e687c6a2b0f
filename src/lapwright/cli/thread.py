"""`lapwright thread`: a thread's sizes, what a measured thread may be, and which screw goes into which hole."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Annotated, Any

import typer

from lapwright.cli.options import AsJson

if TYPE_CHECKING:
    from lapwright.job.lookup.sheet import Sheet


def run(
    name: Annotated[
        str | None, typer.Argument(help='A thread as it is written: 4BA, M4, "1/4 x 40", 1/4BSF.', metavar="THREAD")
    ] = None,
    *,
    measured: Annotated[
        str | None,
        typer.Option(help='What is it? A screw over its crests, like "3.55 mm" or "3.55 ± 0.02 mm".', metavar="SIZE"),
    ] = None,
    pitch: Annotated[
        str | None,
        typer.Option(help='Its pitch: "0.66 mm", "38 tpi", "38 ± 2 tpi" or "12 threads in 8 mm".', metavar="PITCH"),
    ] = None,
    hole: Annotated[bool, typer.Option("--hole", help="The bore of a tapped hole was measured instead.")] = False,
    against: Annotated[
        str | None, typer.Option(help="Another thread: does one go into the other?", metavar="THREAD")
    ] = None,
    json: AsJson = False,
) -> None:
    """Tell a thread's sizes, drills and relations, or which thread a measured one is."""
    from lapwright.job.lookup import thread_answer as job
    from lapwright.job.lookup import thread_sheet

    _refuse_mixtures(name, measured, pitch=pitch, hole=hole, against=against)
    if measured is not None:
        found = job.answer_measured(measured, pitch=pitch, is_hole=hole)
        _show(lambda: job.list_measured(found), lambda: thread_sheet.lay_measured(found), json=json)
    elif against is not None:
        pair = job.answer_against(name or "", against)
        _show(lambda: job.list_against(pair), lambda: thread_sheet.lay_against(pair), json=json)
    else:
        answer = job.answer_thread(name or "")
        _show(lambda: job.list_thread(answer), lambda: _add_pointer(thread_sheet.lay_thread(answer)), json=json)


def _show(as_list: Callable[[], dict[str, Any]], as_sheet: Callable[[], Sheet], *, json: bool) -> None:
    if json:
        from lapwright.cli.as_json import print_json

        print_json(as_list())
    else:
        from lapwright.cli.sheet import write_sheet

        print(write_sheet(as_sheet()))


def _add_pointer(sheet: Sheet) -> Sheet:
    """Say how to ask more of a pair, where pairs are told."""
    from dataclasses import replace

    told = any(label == "Not the same" for label, _ in sheet.rows)
    return replace(sheet, notes=(*sheet.notes, "--against NAME tells more of a pair.")) if told else sheet


def _refuse_mixtures(
    name: str | None, measured: str | None, *, pitch: str | None, hole: bool, against: str | None
) -> None:
    from lapwright.errors import DoesNotFit

    if measured is None and (pitch is not None or hole):
        raise DoesNotFit("a pitch alone does not tell a thread", 'give the diameter too: --measured "3.55 mm"')
    if measured is None and name is None:
        raise DoesNotFit(
            "neither a thread nor a measured size is given",
            'write "lapwright thread 4BA" or "lapwright thread --measured SIZE --pitch PITCH"',
        )
    if measured is not None and (name is not None or against is not None):
        raise DoesNotFit("a thread and a measured size are both given", "give one or the other")
