"""Ten thousand mangled records: never an exception, never a hang, always a sentence."""

import random
import re
import time

import pytest

from lapwright.record import read_record
from lapwright.record.problem import OpenedRecord
from tests.unit.record.records import HALF_KNOWN, TESTED

TOKENS = re.compile(r"\s+|[A-Za-z_]+|[0-9.]+|.", re.DOTALL)
VALUES = re.compile(r"[\"']([^\"'\n]*)[\"']")
FIGURES = [*"0123456789.,/+-± %e", "mm", " in", "deg", "BA", " x ", "nan", "1e99", "½", "″", "abs", "turn", "\t", "١"]
SPICE = [
    "[[", "]]", "[", "]", "{", "}", "=", ",", ".", "#", '"', "'", '"""', "'''", "\n", "\r", "\0", "\ufeff", "nan",
    "inf", "-", "1e300", "99999999999999999999", "0x", "1979-05-27", "true", "\\", "\\u0000", "\\ud800", "±", "½",
    '"0"', "mm", "in", "edges", "cylinder", "valve", "name", "\u202e", "é", "[cylinder.valve]\n",
    "[[cylinder]]\n", "a.b.c.d = 1\n",
]  # fmt: skip


def mangle_bytes(data: bytes, chance: random.Random) -> bytes:
    """Flip, drop, double or insert a few bytes."""
    mangled = bytearray(data)
    for _ in range(chance.randint(1, 6)):
        at = chance.randrange(len(mangled) + 1)
        match chance.randrange(4):
            case 0:
                mangled[at:at] = bytes([chance.randrange(256)])
            case 1:
                del mangled[at : at + chance.randint(1, 30)]
            case 2:
                mangled[at : at + 1] = bytes([chance.randrange(256)])
            case _:
                end = at + chance.randint(1, 200)
                mangled[at:at] = mangled[at:end]
    return bytes(mangled)


def mangle_tokens(data: bytes, chance: random.Random) -> bytes:
    """Swap, drop, double or replace a few words and marks."""
    tokens = TOKENS.findall(data.decode())
    for _ in range(chance.randint(1, 8)):
        at, other = chance.randrange(len(tokens)), chance.randrange(len(tokens))
        match chance.randrange(4):
            case 0:
                tokens[at], tokens[other] = tokens[other], tokens[at]
            case 1:
                tokens[at] = ""
            case 2:
                tokens.insert(at, tokens[other])
            case _:
                tokens[at] = chance.choice(SPICE)
    return "".join(tokens).encode()


def mangle_values(data: bytes, chance: random.Random) -> bytes:
    """Mangle only what stands in quotation marks, so that the file stays good TOML."""
    values = [found.span(1) for found in VALUES.finditer(data.decode())]
    text = data.decode()
    for start, end in sorted(chance.sample(values, min(len(values), chance.randint(1, 6))), reverse=True):
        old = list(text[start:end])
        at = chance.randrange(len(old) + 1)
        match chance.randrange(4):
            case 0:
                old[at:at] = [chance.choice(FIGURES)]
            case 1:
                del old[at : at + chance.randint(1, 3)]
            case 2:
                chance.shuffle(old)
            case _:
                old = [chance.choice(FIGURES) for _ in range(chance.randint(0, 5))]
        text = text[:start] + "".join(old) + text[end:]
    return text.encode()


def check_answer(found: OpenedRecord, data: bytes) -> None:
    assert found.engine is not None or any(problem.severity == "error" for problem in found.problems)
    lines = [problem.line for problem in found.problems]
    assert lines == sorted(lines)
    for problem in found.problems:
        assert problem.code
        assert problem.message
        assert (problem.message + problem.instead).isprintable()
        assert problem.line <= data.count(b"\n") + 1


@pytest.mark.parametrize("mangle", [mangle_bytes, mangle_tokens, mangle_values])
@pytest.mark.parametrize("text", [TESTED, HALF_KNOWN])
def test_a_mangled_record_is_read_into_problems(mangle, text) -> None:
    chance = random.Random(f"{mangle.__name__} {len(text)}")
    slowest = 0.0
    for _ in range(2500):
        data = mangle(text.encode(), chance)
        start = time.process_time()
        found = read_record(data)
        slowest = max(slowest, time.process_time() - start)
        check_answer(found, data)
    assert slowest < 5  # not a timing, but the difference between slow and never
