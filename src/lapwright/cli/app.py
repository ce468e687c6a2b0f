"""The program as it is called: its commands, and what becomes of errors."""

from __future__ import annotations

import re
import sys

import typer

from lapwright.cli import (
    bench,
    calibrate,
    check,
    drill,
    examine,
    fit,
    gland,
    new,
    rethread,
    run,
    schema,
    start,
    sweep,
    thread,
    torque,
)
from lapwright.errors import LapwrightError

app = typer.Typer(
    name="lapwright",
    help="From a measured stationary steam engine to what is wrong, what to cut or set, and the job card to work from.",
    no_args_is_help=True,
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
)
app.command("examine")(examine.run)
app.command("run")(run.run)
app.command("start")(start.run)
app.command("calibrate")(calibrate.run)
app.command("bench")(bench.run)
app.command("new")(new.run)
app.command("check")(check.run)
app.command("sweep")(sweep.run)
app.command("schema")(schema.run)
app.command("thread")(thread.run)
app.command("drill")(drill.run)
app.command("torque")(torque.run)
app.command("rethread")(rethread.run)
app.command("fit")(fit.run)
app.command("gland")(gland.run)


#: A figure under nothing is no option: with the printed minus sign it reaches whoever can say what is wrong with it.
_SIGNED = re.compile(r"^-(?=\s*[\d.])")


def main() -> None:
    """Run the program; whatever goes wrong ends in a sentence and an exit status, never in a traceback."""
    try:
        app(args=[_SIGNED.sub("−", word) for word in sys.argv[1:]])
    except LapwrightError as error:
        print(f"lapwright: {error}", file=sys.stderr)
        sys.exit(2)
    except BrokenPipeError:
        # Whoever was reading has enough; closing here keeps Python from complaining at exit.
        sys.stderr.close()
        sys.exit(0)
    except Exception as error:
        # A fault of ours; the person at the bench can do nothing with a traceback.
        print(f"lapwright: a fault of the program's own: {type(error).__name__}: {error}", file=sys.stderr)
        print(
            "    please report it with the record that brought it about; the record itself is untouched",
            file=sys.stderr,
        )
        sys.exit(1)
