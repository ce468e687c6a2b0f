"""From bytes to plain tables; where that fails, one sentence that says how to mend the line."""

from __future__ import annotations

import re
import tomllib
from typing import Any

from lapwright.quantities.figure import show_start
from lapwright.record.keys import LISTS
from lapwright.record.layout import Layout, find_layout
from lapwright.record.problem import Problem

#: A record with pages of notes has some ten thousand bytes.
LARGEST = 1_000_000
_KEY_PART = r"(?:[A-Za-z0-9_-]+|\"[^\"\n]*\"|'[^'\n]*')"
#: A chain no record has, and that would take the reader of TOML very long.
_CHAIN = re.compile(rf"(?<![\w\"'-])(?:{_KEY_PART}[ \t]*\.[ \t]*){{16,}}")
_PLACE = re.compile(r"\(at (?:line (\d+), column \d+|end of document)\)")
_UNQUOTED = re.compile(r"\s*([A-Za-z0-9_.-]+)\s*=\s*([^\"'\[{#\s][^#]*?)\s*(?:#.*)?")
_INCH_MARK = re.compile(r"\s*([A-Za-z0-9_.-]+)\s*=\s*\"([^\"]*\d\")\"\s*(?:#.*)?")
_EMPTY = re.compile(r"\s*([A-Za-z0-9_.-]+)\s*=\s*(?:#.*)?")
_HALF_QUOTED = re.compile(r"\s*([A-Za-z0-9_.-]+)\s*=\s*[\"']?([^\"'\[{#]*)[\"']?\s*(?:#.*)?")
_OPEN = re.compile(r"^Unterminated|character '\\n'|^Expected [\"']")
_NAMED = re.compile(r"\s*\[*\s*([A-Za-z0-9_. -]+)")

#: Words of the TOML reader, and what they mean to a person: code, sentence, what to do.
_MEANINGS = (
    ("Cannot overwrite", "given-twice", "{name} is given twice", "keep one of the two"),
    ("Cannot declare", "given-twice", "the table {name} is given twice", "put the keys of both under one heading"),
    ("Duplicate inline", "given-twice", "a key is given twice in one { }", "keep one of the two"),
    ("Cannot mutate", "given-twice", "{name} is given twice", "put the keys of both under one heading"),
    ("Cannot redefine", "given-twice", "{name} is given twice", "put the keys of both under one heading"),
    ("Expected '='", "no-equals", "an = is missing", 'write {name} = "..."'),
    ("Unterminated", "open-quotes", "quotation marks are opened and not closed", "close them, or take them away"),
    ("character '\\n'", "open-quotes", "quotation marks are not closed on the line", "close them"),
    ("Illegal character", "stray-character", "the line holds a character that cannot be printed", "take it out"),
    ("Found invalid", "stray-character", "the line holds a character that cannot be printed", "take it out"),
    ("Expected newline", "two-values", "more stands behind the value", "put all of it in one pair of quotes"),
    ("Expected \"'", "open-quotes", "quotation marks are opened and not closed", "close them, or take them away"),
    ("Unclosed array", "open-bracket", "a [ is opened and not closed", "close the list with ]"),
    ("Unclosed inline", "open-bracket", "a { is opened and not closed", "close it with }"),
    ("Expected ']", "open-bracket", "the heading is not closed", "close [ with ] and [[ with ]]"),
    ("Unescaped", "backslash", "a backslash stands in the text", "write two, or put the text in single quotes"),
    ("Escaped character", "backslash", "a backslash code in the text is wrong", "put the text in single quotes"),
    ("Invalid hex", "backslash", "a backslash code in the text is wrong", "put the text in single quotes"),
    ("Invalid value", "no-value", "the value cannot be read", 'put it in quotation marks: key = "value"'),
)


def decode_text(data: bytes) -> str | Problem:
    """Read the bytes as UTF-8, or say what else they seem to be."""
    if len(data) > LARGEST:
        return _fail("too-large", "the file is larger than 1 MB", "give an engine record; they are much smaller")
    if data.startswith((b"\xff\xfe", b"\xfe\xff")) or data.count(b"\x00", 0, 64) > 9:
        return _fail("not-utf-8", "the file is not UTF-8 text but looks like UTF-16", "save it again as UTF-8")
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        return _fail("not-utf-8", "the file is not UTF-8 text", "save it again as UTF-8", line=line)
    if not text.strip("\ufeff \t\r\n"):
        return _fail("empty", "the file is empty", 'start one with "lapwright new"')
    return text


def load_tables(text: str) -> tuple[dict[str, Any], Layout] | Problem:
    """Read the text as TOML and find where everything stands in it."""
    chain = _CHAIN.search(text)
    if chain is not None:
        line = text.count("\n", 0, chain.start()) + 1
        return _fail("too-deep", "a key has too many parts", "no key of a record has more than four", line=line)
    try:
        return tomllib.loads(text.removeprefix("\ufeff")), find_layout(text)
    except RecursionError:
        return _fail("too-deep", "lists or tables are nested too deeply", "a record has at most three levels")
    except ValueError as error:
        return _explain(str(error), text)


def _fail(code: str, message: str, instead: str, *, line: int = 0) -> Problem:
    return Problem(code, "error", line, "", message, instead)


def _explain(said: str, text: str) -> Problem:
    lines = text.split("\n")
    place = _PLACE.search(said)
    number = int(place[1]) if place and place[1] else len(lines)
    line = lines[min(number, len(lines)) - 1].rstrip("\r")
    return _explain_quotes(said, line, number) or _explain_rest(said, line, number)


def _explain_quotes(said: str, line: str, number: int) -> Problem | None:
    """Recognise the commonest slips: a value without quotation marks, and an inch mark inside them."""
    if len(line) > 200:
        return None
    inch = _INCH_MARK.fullmatch(line)
    if inch is not None:
        message = f"{inch[1]}: the inch mark ends the text too early"
        return _fail("inch-mark", message, f"write {inch[1]} = '{inch[2]}'", line=number)
    bare = _UNQUOTED.fullmatch(line)
    if bare is not None and bare[1] == "format":
        return _fail("other-format", "format is not a whole number", "write format = 1", line=number)
    if bare is not None and said.startswith(("Invalid value", "Expected newline", "Invalid date")):
        return _fail("no-quotes", f"{bare[1]}: the value has no quotation marks", _write(bare), line=number)
    empty = _EMPTY.fullmatch(line)
    if empty is not None:
        message = f"{empty[1]}: nothing stands behind the ="
        return _fail("no-value", message, "write the figure in quotation marks, or take the line out", line=number)
    half = _HALF_QUOTED.fullmatch(line)
    if half is not None and _OPEN.search(said) and half[2].strip():
        return _fail("open-quotes", f"{half[1]}: the quotation marks are not closed", _write(half), line=number)
    return None


def _write(found: re.Match[str]) -> str:
    value = show_start(found[2].strip())
    return f"write {found[1]} = '{value}'" if '"' in value else f'write {found[1]} = "{value}"'


def _explain_rest(said: str, line: str, number: int) -> Problem:
    named = _NAMED.match(line)
    name = show_start(named[1].split()[0]) if named and named[1].strip() else "this"
    if name in LISTS and said.startswith("Cannot"):
        message = f"{name} is headed with one bracket"
        return _fail("one-bracket", message, f"write [[{name}]] for each", line=number)
    for start, code, message, instead in _MEANINGS:
        if start in said:
            return _fail(code, message.replace("{name}", name), instead.replace("{name}", name), line=number)
    shown = show_start(line.strip())
    return _fail("bad-line", f'"{shown}" cannot be read', 'write [table] or key = "value"', line=number)
