# Needs Python 3.11 or newer, make and a C library. Everything else goes into .venv.
PYTHON ?= python3
VENV   := .venv
BIN    := $(VENV)/bin
STAMP  := $(VENV)/.installed

.PHONY: demo test test-slow test-all check bench setup setup-all clean

demo: $(STAMP)-run
	$(BIN)/seamwright demo --out demo

test: $(STAMP)-test
	$(BIN)/python -m pytest -n 2 -q

test-slow: $(STAMP)-test
	$(BIN)/python -m pytest -n 2 -q -m slow

test-all: $(STAMP)-test
	$(BIN)/python -m pytest -n 2 -q -m 'slow or not slow'

check: $(STAMP)-check
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/mypy
	$(BIN)/lint-imports

bench: $(STAMP)-bench
	$(BIN)/python benchmarks/run.py

setup: $(STAMP)-run
setup-all: $(STAMP)-test $(STAMP)-check

$(BIN)/python:
	$(PYTHON) -c 'import sys; sys.exit("Seamwright needs Python 3.11 or newer; this is " + sys.version.split()[0] + ". Set PYTHON=python3.11 or newer.") if sys.version_info < (3, 11) else None'
	$(PYTHON) -m venv $(VENV)

$(STAMP)-run: pyproject.toml | $(BIN)/python
	$(BIN)/python -m pip install -q --disable-pip-version-check -e '.[ifc]'
	@touch $@

$(STAMP)-test: pyproject.toml | $(BIN)/python
	$(BIN)/python -m pip install -q --disable-pip-version-check -e '.[test]'
	@touch $@

$(STAMP)-bench: pyproject.toml | $(BIN)/python
	$(BIN)/python -m pip install -q --disable-pip-version-check -e '.[test,bench]'
	@touch $@

$(STAMP)-check: pyproject.toml | $(BIN)/python
	$(BIN)/python -m pip install -q --disable-pip-version-check -e '.[test,check]'
	@touch $@

clean:
	rm -rf $(VENV) demo build dist .pytest_cache .mypy_cache .ruff_cache .hypothesis .import_linter_cache
