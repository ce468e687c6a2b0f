"""`lapwright fit`: the limits of hole and shaft for a size, and how a clearance stands."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from lapwright.cli.options import AsJson

if TYPE_CHECKING:
    from lapwright.job.lookup.fit_answer import FitAnswer


def run(
    size: Annotated[str, typer.Argument(help='The nominal size, like "6 mm" or "1/4 in".', metavar="SIZE")],
    fit: Annotated[str | None, typer.Argument(help="A fit, like H7/g6; left out, all of them.", metavar="FIT")] = None,
    *,
    clearance: Annotated[
        str | None,
        typer.Option(help='A clearance, wanted or measured, like "0.02 mm": which fits give it.', metavar="LENGTH"),
    ] = None,
    pin: Annotated[
        str | None,
        typer.Option(help='A pin as measured, like "3.98 mm"; SIZE is then its hole as measured.', metavar="SIZE"),
    ] = None,
    json: AsJson = False,
) -> None:
    """Tell the limits of hole and shaft for a size, what each fit is for, and how a clearance stands."""
    from lapwright.job.lookup.fit_answer import answer_fit, list_fit

    answer = answer_fit(size, fit, clearance=clearance, pin=pin)
    if json:
        from lapwright.cli.as_json import print_json

        print_json(list_fit(answer))
        return
    print(write_fit(answer))


def write_fit(answer: FitAnswer) -> str:
    """Return the sheet of a size.

    Parameters
    ----------
    answer: what is shown
    """
    from lapwright.cli.sheet import write_sheet
    from lapwright.job.lookup.fit_sheet import lay_fit

    return write_sheet(lay_fit(answer))
