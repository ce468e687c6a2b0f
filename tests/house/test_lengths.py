"""Files and functions stay short enough to be read at one go."""

from __future__ import annotations

import ast

import pytest

from tests.house.reading import MODULES, NAMES, Function, Module

LONGEST_FILE = 400
LONGEST_FUNCTION = 60
SHORT_FUNCTION = 25
POSITIONAL = 3
#: The decorators of compiled kernels.
KERNELS = {"compiled", "lean", "inlined"}


def count_code_lines(function: Function, text: str) -> int:
    """Lines of a function without its docstring, its comments and its empty lines."""
    first = function.body[1:] if ast.get_docstring(function) else function.body
    head = range(function.lineno, function.body[0].lineno)
    body = range(first[0].lineno, (function.end_lineno or function.lineno) + 1) if first else range(0)
    lines = text.splitlines()
    return sum(
        bool(lines[number - 1].strip()) and not lines[number - 1].lstrip().startswith("#") for number in {*head, *body}
    )


def count_positional(function: Function) -> int:
    """Arguments that may be given without their name; a compiled kernel takes its few numbers and arrays by place."""
    if KERNELS & {ast.unparse(decorator) for decorator in function.decorator_list}:
        return 0
    arguments = [*function.args.posonlyargs, *function.args.args]
    return len([argument for argument in arguments if argument.arg not in {"self", "cls"}])


@pytest.mark.parametrize("module", MODULES, ids=NAMES)
def test_no_file_is_too_long(module: Module) -> None:
    assert len(module.text.splitlines()) <= LONGEST_FILE


@pytest.mark.parametrize("module", MODULES, ids=NAMES)
def test_no_function_is_too_long_or_takes_too_many_positional_arguments(module: Module) -> None:
    for name, function in module.functions():
        assert count_code_lines(function, module.text) <= LONGEST_FUNCTION, name
        assert count_positional(function) <= POSITIONAL, name


def test_nine_functions_in_ten_are_short() -> None:
    lengths = [count_code_lines(function, module.text) for module in MODULES for _, function in module.functions()]
    assert sum(length < SHORT_FUNCTION for length in lengths) >= 0.9 * len(lengths)


def test_lines_of_code_are_counted_without_docstring_and_comments() -> None:
    text = 'def cut(\n    length,\n):\n    """Cut.\n\n    More.\n    """\n    # why\n\n    return length\n'
    function = ast.parse(text).body[0]
    assert isinstance(function, ast.FunctionDef)
    assert count_code_lines(function, text) == 4
    assert count_positional(function) == 1
