"""Words and figures as they stand on paper: cleaned text, lengths in mm and inch, angles, events, names of sizes."""

from __future__ import annotations

from collections.abc import Sequence

from lapwright.motion.answers import EventTimes

NOT_KNOWN = "not known"
NEVER = "never"
LONGEST_WORD = 28
EVENT_NAMES = {
    "admission": "admission",
    "cut_off": "cut-off",
    "release": "release",
    "compression": "compression",
}
#: No characters at all, and the orders to turn the direction of whatever follows, which would reach past their words.
_UNPRINTABLE = "\ufffe\uffff\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"
END_NAMES = {"head": "head end", "crank": "crank end"}


def clean_text(words: str) -> str:
    """Return words without control signs and broken code points, on one line, each letter in its own place.

    Example:
    >>> clean_text("Sea" + chr(0) + " Pie" + chr(10) + "II")
    'Sea Pie II'
    """
    spaced = "".join(" " if sign in "\t\n\r\v\f\u2028\u2029" else sign for sign in words)
    printable = "".join(
        sign for sign in spaced if sign >= " " and not "\x7f" <= sign <= "\x9f" and sign not in _UNPRINTABLE
    )
    return printable.encode("utf-8", "replace").decode("utf-8")


def clip_text(words: str, longest: int) -> str:
    """Return words cleaned and, if longer than a number of characters, cut short with a mark of it.

    Example:
    >>> clip_text("Oystercatcher", 7)
    'Oyster…'
    """
    plain = clean_text(words)
    return plain if len(plain) <= longest else plain[: longest - 1] + "…"


def soften_text(words: str, longest: int = LONGEST_WORD) -> str:
    """Return words cleaned, with places to break at inside any run of letters too long for a line.

    Parameters
    ----------
    words: as they were written
    longest: number of letters that every line has room for
    """
    return " ".join(
        "\u200b".join(word[at : at + longest] for at in range(0, len(word), longest))
        for word in clean_text(words).split(" ")
    )


def show_number(value: float, places: int) -> str:
    """Return a number [any unit] with so many decimal places and a true minus sign; never a minus before zero.

    Example:
    >>> show_number(-0.001, 2), show_number(-1.5, 2)
    ('0.00', '−1.50')
    """
    if abs(value) >= 1e6:
        return f"{value:.3g}".replace("-", "−")
    text = f"{value:.{places}f}"
    if not text.strip("-0."):
        text = text.lstrip("-")
    return text.replace("-", "−")


def show_length(mm: float | None, doubt: float | None = None) -> str:
    """Return a length in mm and in inch, for the lathe.

    Parameters
    ----------
    mm: the length [mm], None where it is not known
    doubt: half-width of its 95 % interval [mm], None where there is none

    Example:
    >>> show_length(14.0), show_length(14.0, 0.05)
    ('14.00 mm (0.551 in)', '14.00 ± 0.05 mm (0.551 in)')
    """
    if mm is None:
        return NOT_KNOWN
    about = f" ± {show_doubt(doubt, 2)}" if doubt else ""
    return f"{show_number(mm, 2)}{about} mm ({show_number(mm / 25.4, 3)} in)"


def show_angle(deg: float | None, doubt: float | None = None) -> str:
    """Return an angle [deg] to a tenth of a degree.

    Example:
    >>> show_angle(112.449, 1.26)
    '112.4 ± 1.3°'
    """
    if deg is None:
        return NOT_KNOWN
    about = f" ± {show_doubt(doubt, 1)}" if doubt else ""
    return f"{show_number(deg, 1)}{about}°"


def show_doubt(doubt: float, places: int) -> str:
    """Return a half-width [any unit], never rounded to nothing.

    Example:
    >>> show_doubt(0.001, 2)
    '0.01'
    """
    return show_number(max(doubt, 10.0**-places), places)


def show_event(times: EventTimes, doubt: float | None = None) -> str:
    """Return when an event happens: crank angle ± doubt [deg] and share of the stroke, "never", or "not known".

    Example:
    >>> show_event(EventTimes((112.4,), (71.2,)))
    '112.4°  (71 %)'
    """
    if times.crank_deg is None:
        return NOT_KNOWN
    if not times.crank_deg:
        return NEVER
    shares: Sequence[float | None] = times.stroke_percent or (None,) * len(times.crank_deg)
    return ", then ".join(
        show_angle(deg, doubt) + ("" if share is None else f"  ({show_number(share, 0)} %)")
        for deg, share in zip(times.crank_deg, shares, strict=True)
    )


def join_words(words: Sequence[str]) -> str:
    """Return words as a list in a sentence.

    Example:
    >>> join_words(["A", "B", "C"])
    'A, B and C'
    """
    return " and ".join(part for part in (", ".join(words[:-1]), *words[-1:]) if part)
