# Coldwright: what one can do here. `make help` lists it.

# The Python that makes the environment; empty: the newest one on the path that runs and is 3.11+.
PYTHON ?=
WORKERS ?= auto
# Random systems that `make bench` settles; the whole sweep, SWEEP=100000, takes over an hour.
SWEEP ?= 2400
READY := .venv/.ready
BIN := .venv/bin

.DEFAULT_GOAL := help
.PHONY: help demo run test bench docs charts screens clean

help: ## list the targets
	@awk -F ':.*## ' '/^[a-z]+:.*## / { printf "%-8s %s\n", $$1, $$2 }' $(MAKEFILE_LIST)

# The stamp is newer than what it was made from: a change of either installs anew, pinned.
$(READY): pyproject.toml constraints.txt
	@for python in $(or $(PYTHON),python3.13 python3.12 python3.11 python3); do \
		if "$$python" -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null; then \
			test -x $(BIN)/python || "$$python" -m venv .venv; break; \
		fi; \
	done
	@test -x $(BIN)/python || { \
		echo "No Python 3.11 or newer found; name one: make PYTHON=/path/to/python"; exit 1; }
	@echo "install into .venv"
	@$(BIN)/python -m pip install -q --disable-pip-version-check -c constraints.txt -e '.[dev]'
	@touch $@

demo: $(READY) ## judge an invented larder box as built and with fins, side by side
	@echo "An invented butter larder, as built and with fins (about a quarter of a minute):"
	@$(BIN)/coldwright compare examples/larder.toml --with fins
	@echo "All figures of one box, with sources: $(BIN)/coldwright assess examples/larder.toml"

run: $(READY) ## open the web page over the examples, on this machine alone
	@$(BIN)/coldwright open examples

test: $(READY) browser ## all checks and tests
	@echo "== lint"
	@$(BIN)/ruff check .
	@echo "== format"
	@$(BIN)/ruff format --check .
	@echo "== types"
	@$(BIN)/mypy
	@echo "== layers"
	@$(BIN)/lint-imports
	@echo "== size"
	@$(BIN)/python tools/size_gate.py
	@echo "== reference pages"
	@$(BIN)/python tools/reference_docs.py --check
	@echo "== tests"
	@$(BIN)/python -m pytest -q -n $(WORKERS)

# The browser tests need the system's own Chromium; nothing else of it is used.
.PHONY: browser
browser:
	@if command -v chromium >/dev/null || command -v chromium-browser >/dev/null \
		|| command -v google-chrome >/dev/null; then exit 0; fi; \
	if [ "$$(id -u)" = 0 ] && command -v apt-get >/dev/null; then \
		echo "== install Chromium for the browser tests"; \
		{ apt-get update -q && apt-get install -y -q --no-install-recommends chromium; } \
			>/dev/null || echo "Chromium could not be installed: the browser tests are left out."; \
	else \
		echo "No Chromium here, so the browser tests are left out (apt-get install chromium)."; \
	fi

screens: $(READY) browser ## picture every page of the web page into docs/screens
	COLDWRIGHT_SCREENS=1 $(BIN)/python -m pytest -q -n 0 tests/browser/test_pages.py -k fits

bench: $(READY) ## time the solvers against one another; settle random systems, SWEEP=100000 for all
	$(BIN)/python -m benchmarks
	$(BIN)/python -m benchmarks.sweep --count $(SWEEP)

docs: $(READY) ## write docs/reference from the code's own tables
	$(BIN)/python tools/reference_docs.py

charts: $(READY) ## draw the pictures of docs/charts anew, from the invented larder
	$(BIN)/coldwright chart examples/larder.toml --what all --out docs/charts

clean: ## remove the environment, caches and build results
	rm -rf .venv .cache .hypothesis .import_linter_cache .mypy_cache .pytest_cache .ruff_cache dist
	find . -name __pycache__ -type d -prune -exec rm -rf {} +
