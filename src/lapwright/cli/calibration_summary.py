"""A calibration as it is read in a terminal: one calm page."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lapwright.cli.run_summary import WIDTH, wrap

if TYPE_CHECKING:
    from lapwright.job.run.calibration import CalibrationReport

#: Widths of the table's columns in characters.
_FIRST, _OTHERS = 19, 24


def summarise_calibration(report: CalibrationReport, *, written: str) -> str:
    """Return a calibration as text, at most `WIDTH` columns wide.

    Parameters
    ----------
    report: what was worked out
    written: the record into which it was put; empty where it was not
    """
    count = len(report.tests)
    title = f"{report.name}: friction and leaks from {count} bench test{'s' if count > 1 else ''}"
    parts = [
        f"{title}\n{'=' * min(len(title), WIDTH)}",
        "\n".join(_list_figures(report)),
        "\n".join(_list_tests(report)),
        _list_sentences("What the tests tell", report.told),
        _list_sentences("What to try next", report.tries),
        _tell_lines(report, written),
        wrap(" ".join(report.cautions)),
    ]
    return "\n\n".join(part for part in parts if part)


def _list_figures(report: CalibrationReport) -> Iterator[str]:
    for words, before, after, source in (("", "before the tests", "by the tests", "mostly from"), *report.figures):
        yield f"{words:<{_FIRST}}{before:<{_OTHERS}} {after:<{_OTHERS}} {source}".rstrip()


def _list_tests(report: CalibrationReport) -> Iterator[str]:
    for title, readings in report.tests:
        yield wrap(title)
        yield from (wrap(sentence, indent="  ", bullet="- ") for sentence in readings)


def _list_sentences(title: str, sentences: tuple[str, ...]) -> str:
    return "\n".join([title, *(wrap(sentence, bullet="- ") for sentence in sentences)]) if sentences else ""


def _tell_lines(report: CalibrationReport, written: str) -> str:
    if not report.lines:
        return "Nothing goes into the record" + (" before this is cleared up." if report.has_trouble else ".")
    heading = f"Written into {written}, under [running]:" if written else "To put into the record, under [running]:"
    foot = "" if written else "\n(--write does it)"
    return heading + "\n\n" + "\n".join(f'    {key} = "{text}"' for key, text in report.lines.items()) + foot
