"""Everything that can be refused, as one tree.

    LapwrightError              a sentence for the person, and what to do instead
    ├── BadInput                what was written cannot be used as it stands
    │   ├── NotText             a number or a list stands where text in quotes is wanted
    │   ├── NoUnit              a bare number
    │   ├── UnknownUnit         a number with a unit nobody here knows
    │   ├── DecimalComma        19,05 instead of 19.05
    │   ├── NotFinite           nan, inf
    │   ├── OverZero            a fraction over nothing
    │   ├── StrayCharacter      control characters and other invisible marks
    │   ├── Unreadable          none of the ways in which the thing can be written
    │   ├── OutOfRange          a figure that no engine has
    │   ├── NotOneOf            a word that is not one of the few that may stand here
    │   ├── NoName              a name of nothing, or one too long for a title block
    │   ├── UnknownThread       a screw thread that stands in none of the tables
    │   ├── NotInTable          a size beyond the end of a table
    │   ├── DoesNotFit          two sizes that cannot both be true of one part
    │   ├── OtherFormat         a record of a format not known here
    │   ├── NotAnArchive        a file that is neither an engine's archive nor a record
    │   ├── NotAPhotograph      bytes that are no JPEG, PNG or WebP, or too large a picture
    │   └── FlawedRecord        a record with errors, which are listed in it
    ├── Conflict                two hands at the same thing
    │   ├── RecordChanged       the file is no longer what was read
    │   ├── RecordClash         the same key was changed on both sides
    │   └── LogChanged          an entry of the log book is no longer what was read
    └── Refused                 understood, and not done
        ├── CannotChange        a key of the record that cannot be set this way
        ├── CannotRun           an engine, or what it is to be run on, of which no turn can be worked out
        ├── CannotSave          the file system said no
        ├── CannotServe         the bench cannot listen where it was to
        ├── CannotSweep         many settings that cannot be worked through, or not to the end
        ├── CannotVary          a key of the record that cannot be varied this way
        ├── DamagedLog          a log book that does not pass its check
        ├── NewerLog            a log book written by a later version
        ├── NotAllowed          asked for by somebody who may not
        ├── NotThere            an engine, an entry or a page that does not exist
        └── TooLarge            more than is taken at once

A flawed record is none of these: it is read into a list of problems (`lapwright.record`).
"""

from __future__ import annotations

from collections.abc import Sequence


class LapwrightError(Exception):
    """What all our errors have: a stable code, a sentence, and what to do instead (may be empty)."""

    code = "refused"

    def __init__(self, message: str, instead: str = "") -> None:
        super().__init__(message, instead)
        self.message = message
        self.instead = instead

    def __str__(self) -> str:
        return f"{self.message}: {self.instead}" if self.instead else self.message


class BadInput(LapwrightError):
    """What was written cannot be used as it stands."""

    code = "bad-input"


class Conflict(LapwrightError):
    """Two hands at the same thing; nothing was changed."""

    code = "conflict"


class Refused(LapwrightError):
    """Understood, and not done; nothing was changed."""

    code = "refused"


class NotText(BadInput):
    """Something other than text in quotes where text is wanted."""

    code = "not-text"

    def __init__(self, written: str, example: str) -> None:
        super().__init__(f"{written} is not text in quotes", f'write it as "{example}"')


class NoUnit(BadInput):
    """A bare number, which could be anything."""

    code = "no-unit"

    def __init__(self, written: str, units: tuple[str, ...]) -> None:
        ways = " or ".join(f'"{written} {unit}"' for unit in units)
        super().__init__(f"{written} has no unit", f"write {ways}")


class UnknownUnit(BadInput):
    """A number with a unit that is not one of ours."""

    code = "unknown-unit"

    def __init__(self, written: str, unit: str, units: tuple[str, ...]) -> None:
        super().__init__(f'"{written}": unit "{unit}" is not known here', f"use one of {', '.join(units)}")


class DecimalComma(BadInput):
    """A comma in a number: decimal mark to one reader, thousands to the next."""

    code = "decimal-comma"

    def __init__(self, written: str, better: str = "") -> None:
        better = better or written.replace(",", "" if "." in written else ".")
        super().__init__(f'"{written}" has a comma in the number', f'write the decimals after a point: "{better}"')


class NotFinite(BadInput):
    """Not a number, or no end to it."""

    code = "not-finite"

    def __init__(self, written: str) -> None:
        super().__init__(f'"{written}" is not a figure', "write the size as measured, or leave it out")


class OverZero(BadInput):
    """A fraction over nothing."""

    code = "over-zero"

    def __init__(self, written: str) -> None:
        super().__init__(f'"{written}" divides by zero', "write the fraction again")


class StrayCharacter(BadInput):
    """Control characters and other marks that cannot be seen."""

    code = "stray-character"

    def __init__(self, shown: str) -> None:
        super().__init__(f'"{shown}" holds a character that cannot be printed', "write it again by hand")


class Unreadable(BadInput):
    """None of the ways in which the thing can be written."""

    code = "unreadable"

    def __init__(self, written: str, noun: str, examples: tuple[str, ...]) -> None:
        ways = ", ".join(f'"{example}"' for example in examples)
        super().__init__(f'"{written}" cannot be read as {noun}', f"write it like {ways}")


class OutOfRange(BadInput):
    """A figure that no engine has."""

    code = "out-of-range"

    def __init__(self, written: str, why: str, instead: str = "check the figure and its unit") -> None:
        super().__init__(f'"{written}" {why}', instead)


class NotOneOf(BadInput):
    """A word that is not one of the few that may stand here."""

    code = "not-one-of"

    def __init__(self, written: str, words: tuple[str, ...]) -> None:
        near = words if len(words) <= _MOST_WORDS else _find_nearest(written, words)
        ways = " or ".join(f'"{word}"' for word in near)
        others = "" if near is words else f", or one of the {len(words) - len(near)} others of the reference page"
        super().__init__(f'"{written}" is not a word for this', f"write {ways}{others}")


#: More words than these are not all listed in a message.
_MOST_WORDS = 8


def _find_nearest(written: str, words: tuple[str, ...]) -> tuple[str, ...]:
    # Only a message needs it.
    from difflib import get_close_matches

    by_lower = {word.lower(): word for word in words}
    near = get_close_matches(written.lower()[:60], by_lower, 4, 0.3)
    return tuple(by_lower[word] for word in near) or words[:4]


class NoName(BadInput):
    """A name of nothing, or one too long for a title block."""

    code = "no-name"

    def __init__(self, message: str, longest: int) -> None:
        super().__init__(message, f"write a name of 1 to {longest} letters")


class UnknownThread(BadInput):
    """A screw thread that stands in none of the tables."""

    code = "unknown-thread"

    def __init__(
        self, written: str, near: tuple[str, ...], why: str = "is no thread of the tables", *, lead: str = "the nearest"
    ) -> None:
        names = [f'"{name}"' for name in near]
        few = len(names) <= _FEW_THREADS
        ways = " or ".join(names) if few else f"{', '.join(names[:-1])} or {names[-1]}"
        super().__init__(f'"{written}" {why}', f"{lead}: {ways}" if near else "")


#: More threads than these are told with commas between them.
_FEW_THREADS = 3


class NotInTable(BadInput):
    """A size beyond the end of a table, or between the few that it holds."""

    code = "not-in-table"

    def __init__(self, written: str, table: str, nearest: str) -> None:
        super().__init__(f"{written} is not in the table of {table}", nearest)


class DoesNotFit(BadInput):
    """Two sizes that cannot both be true of one part."""

    code = "does-not-fit"


class OtherFormat(BadInput):
    """A record of a format not known here."""

    code = "other-format"

    def __init__(self, written: str) -> None:
        super().__init__(f"format {written} cannot be read by this program", "write format = 1")


class NotAPhotograph(BadInput):
    """Bytes that are no photograph, or one too large to be opened safely."""

    code = "not-a-photograph"

    def __init__(self, name: str, why: str) -> None:
        super().__init__(f"{name} {why}", "take a JPEG, PNG or WebP picture")


class NotAnArchive(BadInput):
    """A file that is neither an engine's archive nor a record, or one that is damaged."""

    code = "not-an-archive"

    def __init__(self, name: str, why: str, instead: str = "take an archive that a shelf made, or a record") -> None:
        super().__init__(f"{name} cannot be brought in: {why}", instead)


class FlawedRecord(BadInput):
    """A record that has to be mended before anything can be said; it carries the problems found."""

    code = "flawed-record"

    def __init__(self, source: str, problems: Sequence[object]) -> None:
        count = "1 problem" if len(problems) == 1 else f"{len(problems)} problems"
        super().__init__(f"{source or 'the record'} has {count}", "mend what is listed and try again")
        self.problems = problems


class RecordChanged(Conflict):
    """The file on the disk is not the one that was read."""

    code = "record-changed"

    def __init__(self, path: str) -> None:
        super().__init__(f"{path} has changed since it was read", "read it again, then make the change once more")


class RecordClash(Conflict):
    """The same key of a record was changed here and in the file; all three texts are told.

    `base` is what stood there when it was read, `yours` what you want, `theirs` what the file says now, as written;
    None where the key does not stand there. `digest` is that of the file as it is now.
    """

    code = "record-clash"

    def __init__(self, key: str, *, base: str | None, yours: str | None, theirs: str | None, digest: str = "") -> None:
        super().__init__(f"{key} was changed in the file as well", "choose which of the two is to stand")
        self.key, self.base, self.yours, self.theirs, self.digest = key, base, yours, theirs, digest


class LogChanged(Conflict):
    """An entry of the log book is not the one that was read."""

    code = "log-changed"

    def __init__(self) -> None:
        super().__init__("the entry has changed since it was read", "read it again, then make the change once more")


class CannotChange(Refused):
    """A key of the record that cannot be set this way."""

    code = "cannot-change"

    def __init__(self, key: str, why: str, instead: str) -> None:
        super().__init__(f"{key} cannot be set: {why}", instead)
        self.key = key


class CannotRun(Refused):
    """An engine, or what it is to be run on, of which no turn can be worked out."""

    code = "cannot-run"

    def __init__(self, what: str, why: str, instead: str = "") -> None:
        super().__init__(f"{what} cannot be run: {why}", instead)


class CannotSave(Refused):
    """The file system said no."""

    code = "cannot-save"

    def __init__(self, path: str, why: str) -> None:
        super().__init__(f"{path} cannot be written ({why})", "choose another name or place, or mend the permission")


class CannotServe(Refused):
    """The bench cannot listen where it was to."""

    code = "cannot-serve"

    def __init__(self, why: str, instead: str) -> None:
        super().__init__(f"the bench cannot be opened: {why}", instead)


class CannotSweep(Refused):
    """Many settings that cannot be worked through, or not to the end."""

    code = "cannot-sweep"

    def __init__(self, why: str, instead: str = "") -> None:
        super().__init__(f"the settings cannot be worked through: {why}", instead)


class CannotVary(Refused):
    """A key of the record that cannot be varied this way."""

    code = "cannot-vary"

    def __init__(self, key: str, why: str, instead: str = "") -> None:
        super().__init__(f"{key} cannot be varied: {why}", instead)
        self.key = key


class DamagedLog(Refused):
    """A log book that does not pass its check; nothing in it was touched."""

    code = "damaged-log"

    def __init__(self, path: str, why: str, way_back: str) -> None:
        super().__init__(f"{path} is damaged ({why})", way_back)


class NewerLog(Refused):
    """A log book written by a later version of the program."""

    code = "newer-log"

    def __init__(self, path: str) -> None:
        super().__init__(f"{path} was written by a later version of lapwright", "use that version, or another folder")


class NotThere(Refused):
    """Something that does not exist."""

    code = "not-there"

    def __init__(self, what: str, instead: str = "") -> None:
        super().__init__(f"there is no {what}", instead)


class NotAllowed(Refused):
    """Asked for by somebody who may not."""

    code = "not-allowed"

    def __init__(self, why: str, instead: str = "") -> None:
        super().__init__(why, instead)


class TooLarge(Refused):
    """More than is taken at once."""

    code = "too-large"

    def __init__(self, what: str, most: str) -> None:
        super().__init__(f"{what} is larger than {most}", "send less at once")
