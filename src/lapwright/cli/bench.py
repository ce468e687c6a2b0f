"""`lapwright bench`: the workbench in the browser."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import Annotated

import typer


def run(
    folder: Annotated[
        Path, typer.Argument(help="The workshop: a folder of engine records, with the log book beside them.")
    ] = Path(),
    *,
    port: Annotated[
        int | None, typer.Option(min=0, max=65_535, help="Where it listens; else the first free from 8460 on.")
    ] = None,
    browser: Annotated[bool, typer.Option(help="Open a browser on it.")] = True,
    share: Annotated[
        bool, typer.Option("--share", help="Let one tablet on the same network in, by link and code.")
    ] = False,
    allow_changes: Annotated[
        bool, typer.Option("--allow-changes", help="With --share: the guest may change as well as look.")
    ] = False,
    restore: Annotated[
        bool, typer.Option("--restore", help="Put a damaged log book aside, and bring its newest sound backup back.")
    ] = False,
) -> None:
    """Open the bench in the browser: this machine only, nothing fetched from outside."""
    from lapwright.bench.access import Sharing
    from lapwright.bench.serving import open_bench
    from lapwright.job.shelf.workshop import open_workshop
    from lapwright.job.shelf.workshop_folder import restore_log

    if allow_changes and not share:
        raise typer.BadParameter("--allow-changes goes with --share")
    if restore:
        print(restore_log(folder))
    workshop = open_workshop(folder)
    try:
        sharing = Sharing(allow_changes) if share else None
        # Whoever waits for the address behind a pipe gets it at once.
        open_bench(workshop, port=port, sharing=sharing, browser=browser, tell=partial(print, flush=True))
    finally:
        workshop.close()
