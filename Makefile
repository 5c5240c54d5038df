# Needs Python 3.11 or newer, make and a C library. Everything else goes into .venv.
PYTHON ?= python3
VENV   := .venv
BIN    := $(VENV)/bin
STAMP  := $(VENV)/.installed
# Compiles the hourly runs once, so that no command has to.
WARM   := $(BIN)/python -c 'from seamwright.moisture.transient.run import warm; warm()'

.PHONY: demo serve pages check-pages test test-slow test-all check bench setup setup-all clean

demo: $(STAMP)-run
	$(BIN)/seamwright demo --out demo

# The pages of the desk. Node from the system where it is new enough, else from a Python wheel.
PAGES  := src/seamwright/app/pages/index.html
SOURCE := $(shell find web -path web/node_modules -prune -o -type f -print 2>/dev/null)
NPM    := $(BIN)/python web/tools/npm.py

pages: $(PAGES)

$(PAGES): web/node_modules/.installed $(SOURCE)
	$(NPM) run build
	@touch $@

web/node_modules/.installed: web/package-lock.json | $(BIN)/python
	$(NPM) ci
	@touch $@

check-pages: web/node_modules/.installed
	$(NPM) run lint
	$(NPM) test

serve: $(STAMP)-desk $(PAGES)
	$(BIN)/seamwright serve --open

test: $(STAMP)-test
	$(BIN)/python -m pytest -n 2 -q

test-slow: $(STAMP)-test $(PAGES)
	$(BIN)/python -m pytest -n 2 -q -m slow

test-all: $(STAMP)-test $(PAGES)
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
	$(BIN)/python -m pip install -q --disable-pip-version-check -e '.[dryness,ifc]'
	$(WARM)
	@touch $@

$(STAMP)-desk: pyproject.toml | $(BIN)/python
	$(BIN)/python -m pip install -q --disable-pip-version-check -e '.[days,desk,dryness,ifc]'
	$(WARM)
	@touch $@

$(STAMP)-test: pyproject.toml | $(BIN)/python
	$(BIN)/python -m pip install -q --disable-pip-version-check -e '.[test]'
	$(WARM)
	@touch $@

$(STAMP)-bench: pyproject.toml | $(BIN)/python
	$(BIN)/python -m pip install -q --disable-pip-version-check -e '.[test,bench]'
	@touch $@

$(STAMP)-check: pyproject.toml | $(BIN)/python
	$(BIN)/python -m pip install -q --disable-pip-version-check -e '.[test,check]'
	@touch $@

clean:
	rm -rf $(VENV) demo build dist web/node_modules src/seamwright/app/pages .pytest_cache .mypy_cache .ruff_cache .hypothesis .import_linter_cache
