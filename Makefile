# Threeview. On a fresh machine with Python 3.11 or newer and make:
#   make course   sets up and builds the course in build/site
#   make test     sets up and runs every check
# GNU make 3.81 (macOS) is enough.

SHELL := /bin/sh
.SUFFIXES:
.DEFAULT_GOAL := help
.PHONY: help course test lint types unit node bench schemas screenshots lock wheel clean

VENV := .venv
TEST := .venv-test
ASSETS := site_assets
PIP := -m pip --disable-pip-version-check install --quiet --require-hashes

help:
	@echo "make course       set up and build the course (build/site)"
	@echo "make test         set up and run every check"
	@echo "make bench        measure speed and print each figure beside its target"
	@echo "make schemas      JSON Schemas of the course files for editors (build/schemas)"
	@echo "make screenshots  the pictures of the README (needs Chromium)"
	@echo "make lock         pin the newest allowed versions in requirements/ (needs uv)"
	@echo "make wheel        a wheel with everything a course needs (dist/)"
	@echo "make clean        remove everything that was built or installed here"

# --- what a course needs ---------------------------------------------------------------------

$(VENV)/installed: requirements/course.txt pyproject.toml tools/make-venv.sh
	@sh tools/make-venv.sh $(VENV)
	@echo "installing the generator's libraries (a minute or two the first time)"
	@$(VENV)/bin/python $(PIP) -r requirements/course.txt
	@$(VENV)/bin/python -m pip --disable-pip-version-check install --quiet --no-deps --no-build-isolation -e .
	@touch $@

$(ASSETS)/node_modules/installed: $(VENV)/installed $(ASSETS)/package-lock.json
	@echo "installing the page scripts' packages"
	@cd $(ASSETS) && PATH="$(CURDIR)/$(VENV)/bin:$$PATH" npm ci --ignore-scripts --no-audit --no-fund --loglevel=error
	@touch $@

SOURCES := $(shell find $(ASSETS)/src -type f 2>/dev/null) $(ASSETS)/bundle.mjs $(ASSETS)/build_fonts.py

$(ASSETS)/dist/bundled: $(ASSETS)/node_modules/installed $(SOURCES)
	@echo "bundling the page scripts and cutting the fonts"
	@cd $(ASSETS) && PATH="$(CURDIR)/$(VENV)/bin:$$PATH" npm run --silent bundle
	@$(VENV)/bin/python $(ASSETS)/build_fonts.py
	@touch $@

course: $(ASSETS)/dist/bundled
	@$(VENV)/bin/threeview build

schemas: $(VENV)/installed
	@$(VENV)/bin/threeview schemas

# --- what the checks need --------------------------------------------------------------------

$(TEST)/installed: requirements/test.txt pyproject.toml tools/make-venv.sh
	@sh tools/make-venv.sh $(TEST)
	@echo "installing what the tests need"
	@$(TEST)/bin/python $(PIP) -r requirements/test.txt
	@$(TEST)/bin/python -m pip --disable-pip-version-check install --quiet --no-deps --no-build-isolation -e .
	@touch $@

test: $(TEST)/installed $(ASSETS)/dist/bundled
	@sh tools/find-browsers.sh
	@$(MAKE) --no-print-directory lint types node unit

lint: $(TEST)/installed
	$(TEST)/bin/ruff check
	$(TEST)/bin/ruff format --check

types: $(TEST)/installed $(ASSETS)/node_modules/installed
	$(TEST)/bin/mypy
	cd $(ASSETS) && PATH="$(CURDIR)/$(TEST)/bin:$$PATH" npm run --silent types

node: $(TEST)/installed $(ASSETS)/node_modules/installed
	cd $(ASSETS) && PATH="$(CURDIR)/$(TEST)/bin:$$PATH" npm test --silent

unit: $(TEST)/installed $(ASSETS)/dist/bundled
	PATH="$(CURDIR)/$(TEST)/bin:$$PATH" $(TEST)/bin/python -m pytest

bench: $(TEST)/installed $(ASSETS)/dist/bundled
	@for script in benchmarks/*_speed.py; do $(TEST)/bin/python $$script || exit 1; done

screenshots: $(TEST)/installed $(ASSETS)/dist/bundled
	@sh tools/find-browsers.sh
	@$(VENV)/bin/threeview build
	@$(TEST)/bin/python tools/screenshots.py

# --- for maintainers -------------------------------------------------------------------------

lock:
	uv pip compile --quiet --universal --python-version 3.11 --generate-hashes --no-emit-index-url --no-header \
	  --extra assets pyproject.toml -o requirements/course.txt
	uv pip compile --quiet --universal --python-version 3.11 --generate-hashes --no-emit-index-url --no-header \
	  --extra assets --extra test -c requirements/course.txt pyproject.toml -o requirements/test.txt

# A wheel carries the built scripts, fonts and style sheets in threeview/_assets.
PACKAGED := generator/threeview/_assets
wheel: $(ASSETS)/dist/bundled
	@rm -rf $(PACKAGED) && mkdir $(PACKAGED)
	@cp -R $(ASSETS)/css $(ASSETS)/dist $(ASSETS)/icons $(ASSETS)/overrides mkdocs.yml $(PACKAGED)/
	@$(VENV)/bin/python -m hatchling build -t wheel; status=$$?; rm -rf $(PACKAGED); exit $$status

clean:
	rm -rf build $(VENV) $(TEST) $(ASSETS)/dist $(ASSETS)/node_modules
