# The one list of commands. On a fresh machine: `make demo` runs the main job, `make test` the tests.
# Wanted: Python 3.11 or newer with pip, and make. Nothing is installed outside this folder.

SHELL := /bin/sh
PYTHON ?= python3
# The interpreter itself, also when a virtual environment is active or a version switcher stands in front.
BASE := $(shell $(PYTHON) -c 'import sys; print(sys._base_executable)')
# One environment per lock, interpreter and place: a stale one is built anew.
KEY := $(shell { $(BASE) -c 'import sys; print(sys.executable, sys.version)'; pwd; cat requirements.lock; } | cksum | tr ' ' '-')
READY := .venv/ready-$(KEY)
BIN := .venv/bin

.PHONY: help demo test check format bench docs lock setup kernels clean

help:           ## say what can be made
	@sed -n 's/^\([a-z]*\):[^#]*## /\1\t/p' Makefile | expand -t 12

demo: kernels   ## command one: examine a demo engine, write its job card, and lay out the demo workshop
	@mkdir -p out/workshop
	@for record in examples/*.toml; do test -e out/workshop/$${record##*/} || cp $$record out/workshop/; done
	@$(BIN)/lapwright examine examples/tern.toml --card out/tern-card.pdf
	@echo "The bench, in your browser, on the demo workshop: $(BIN)/lapwright bench out/workshop"

test: check kernels ## command two: every check, then every test
	@$(BIN)/python -m pytest -n auto --maxprocesses 4

check: setup    ## style, layout and types, without the tests
	@$(BIN)/ruff check
	@$(BIN)/ruff format --check
	@$(BIN)/mypy --strict src

format: setup   ## lay the code out and mend what can be mended by itself
	@$(BIN)/ruff check --fix
	@$(BIN)/ruff format

bench: kernels  ## measure speed and size, as ratios
	@$(BIN)/python -m benchmarks

docs: setup     ## write the generated pages of docs/ anew
	@$(BIN)/python -m docs.make_reference
	@$(BIN)/python -m tests.published docs/reference/agreement.md

setup: $(READY) ## the environment alone

kernels: setup  ## compile the running engine ahead of its first use (quick where that is done)
	@$(BIN)/python -c 'from lapwright.cycle.preparing import prepare_kernels; prepare_kernels()'

$(READY):
	@$(BASE) -c 'import sys; sys.exit(sys.version_info < (3, 11) and "lapwright wants Python 3.11 or newer: make PYTHON=python3.11 ...")'
	@$(BASE) -c 'import venv' 2>/dev/null || { echo "Python came without its venv module: apt install python3-venv"; exit 1; }
	@$(BASE) -m pip --version >/dev/null 2>&1 || { echo "Python came without pip: apt install python3-pip"; exit 1; }
	@echo "Setting up .venv (once) ..."
	@rm -rf .venv
	@$(BASE) -m venv --without-pip .venv
	@$(BASE) -m pip --python $(BIN)/python install -qq --disable-pip-version-check --require-hashes -r requirements.lock
	@$(BASE) -m pip --python $(BIN)/python install -qq --disable-pip-version-check --no-deps --no-build-isolation -e .
	@$(BIN)/python -m compileall -q src
	@touch $@

lock:           ## pin everything anew, with hashes and without addresses (wants the network)
	@rm -rf out/lock && $(BASE) -m venv out/lock && out/lock/bin/pip install --quiet uv==0.13.9
	@out/lock/bin/uv pip compile --quiet --universal --python-version 3.11 --generate-hashes --no-header \
	  --no-annotate --all-extras --group dev pyproject.toml -o requirements.lock
	@rm -rf out/lock

clean:          ## take away all that was made
	@rm -rf .venv out dist build .mypy_cache .pytest_cache .ruff_cache .hypothesis .benchmarks
	@find src tests -name __pycache__ -type d -prune -exec rm -rf {} +
