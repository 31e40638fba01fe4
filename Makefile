# One environment in .venv; every target sets it up first.
PYTHON ?= python3
BIN = .venv/bin
export NO_MKDOCS_2_WARNING = 1

.PHONY: serve build test check bench lock clean

serve: .venv/site.ok
	$(BIN)/mkdocs serve

build: .venv/site.ok
	$(BIN)/python -m render.build

test: .venv/checks.ok
	$(BIN)/python -m pytest

check: .venv/checks.ok
	$(BIN)/python -m render.check

bench: .venv/checks.ok
	$(BIN)/python tests/bench.py

lock: .venv/checks.ok
	$(BIN)/python -m render.lock

clean:
	rm -rf .venv .cache site

.venv/site.ok: requirements.txt pyproject.toml
	test -x $(BIN)/python || $(PYTHON) -m venv .venv
	$(BIN)/python -m pip install --quiet --require-hashes -r requirements.txt
	$(BIN)/python -m pip install --quiet --no-deps --no-build-isolation --editable .
	touch $@

.venv/checks.ok: .venv/site.ok tests/requirements.txt
	$(BIN)/python -m pip install --quiet --require-hashes -r tests/requirements.txt
	touch $@
