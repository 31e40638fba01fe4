# One environment in .venv; every target sets it up first.
PYTHON ?= python3
BIN = .venv/bin
LOCK = $(BIN)/uv pip compile --upgrade --universal --python-version 3.11 --generate-hashes --no-emit-index-url --no-header --quiet
export NO_MKDOCS_2_WARNING = 1
# A department's own folder, for serve, build and zip: make build DATA=/path
ifdef DATA
export HANDBOOK_DATA = $(DATA)
endif
# The edition's time, where no commit tells it: make build TIME=2026-11-20T08:00Z
TIME_GIVEN = $(if $(TIME),--time $(TIME))

.PHONY: serve build zip test check scores mutate suites bench lock clean

serve: .venv/site.ok
	$(BIN)/mkdocs serve

build: .venv/site.ok
	$(BIN)/python -m lpv_site.build $(TIME_GIVEN)

# The handbook as one file to hand out: handbook.zip opens without a server.
zip: .venv/site.ok
	$(BIN)/python -m lpv_site.build.zip $(TIME_GIVEN)

test: .venv/checks.ok
	$(BIN)/python -m pytest

# All that CI does: style, types, spelling, strict build, links, tests.
check: .venv/checks.ok
	$(BIN)/ruff check .
	$(BIN)/mypy --strict snippets
	$(BIN)/typos
	$(BIN)/python -m lpv_site.build $(TIME_GIVEN)
	cd site && ../$(BIN)/lychee --offline --include-fragments --index-files index.html --no-progress --root-dir "$$PWD" --exclude-path 404.html .
	$(MAKE) test

# All that the outside scores of the validation page are made of; the next build prints them.
scores: mutate suites

# How many small wrong changes the tests notice: a seeded sample of each package, into tests/mutation.json.
mutate: .venv/checks.ok
	$(BIN)/python tests/mutate.py

# The other outside scores of the validation page, into tests/suites.json.
suites: .venv/checks.ok
	PYTHONPATH=tests $(BIN)/python tests/suites.py

bench: .venv/checks.ok
	$(BIN)/python tests/bench.py

lock: .venv/checks.ok
	$(LOCK) pyproject.toml --output-file requirements.txt
	$(LOCK) --extra checks pyproject.toml --output-file tests/requirements.txt

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
