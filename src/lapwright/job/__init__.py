"""One engine's visit: opens a record, computes on demand; the one front door for every way of using the program."""

from lapwright.job.results import list_results
from lapwright.job.visit import Visit, examine, examine_opened

__all__ = ["Visit", "examine", "examine_opened", "list_results"]
