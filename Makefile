# What can be asked of this folder. Everything is set up in .venv inside it; nothing else is touched
# but the system packages that .ci/setup names.
PYTHON_HERE := .venv/bin/python

.DEFAULT_GOAL := help
.PHONY: help ready demo app pictures pack test lint doctests bench bench-long witnesses glass faults mutants clean

help:
	@echo "make demo    work the sample rinser-dryer through; labels land in demo-out"
	@echo "make app     open the touch app on an invented shop, in demo-shop"
	@echo "make pictures take the pictures of all screens anew"
	@echo "make pack    the app as a folder that needs no Python, in dist"
	@echo "make test    everything that must hold before a change goes in"
	@echo "make lint    ruff, and mypy on the whole app"
	@echo "make bench   speeds as ratios, measured in one run; in ten minutes"
	@echo "make bench-long  what takes longer: readers side by side, labels recognised; writes their pages"
	@echo "make witnesses  every formula against every library that knows it; writes docs/witnesses.md"
	@echo "make glass   the touch app alone: whole jobs by real touches, each screen and form, on each tablet"
	@echo "make faults  the long fault loops"
	@echo "make mutants  which single changes no test notices; N=200 SEED=1; takes hours"
	@echo "make clean   remove what the others made (.venv stays)"

ready:
	@bash .ci/setup

demo: ready
	$(PYTHON_HERE) -m teardown_app demo --out demo-out
	@if [ -n "$$DISPLAY$$WAYLAND_DISPLAY" ]; then $(MAKE) app; fi

app: ready
	$(PYTHON_HERE) -m teardown_app.ui --home demo-shop --demo

pictures: ready
	xvfb-run -a -s "-screen 0 1400x1400x24" env LIBGL_ALWAYS_SOFTWARE=1 $(PYTHON_HERE) -m tests.ui.pictures

pack:
	PYTHON=$${PYTHON:-$(PYTHON_HERE)} bash .ci/pack/build

lint: ready
	$(PYTHON_HERE) -m ruff format --check --quiet .
	$(PYTHON_HERE) -m ruff check .
	$(PYTHON_HERE) -m mypy

doctests: ready
	$(PYTHON_HERE) -m pytest --doctest-modules teardown_app --ignore=teardown_app/ui

test: lint doctests
	$(PYTHON_HERE) .ci/tests.py

bench: ready
	$(PYTHON_HERE) -m tests.benchmarks

bench-long: ready
	$(PYTHON_HERE) -m tests.benchmarks long

witnesses: ready
	$(PYTHON_HERE) -m pip install -q -e ".[witnesses]"
	$(PYTHON_HERE) -m pytest tests/metrology
	$(PYTHON_HERE) -m tests.metrology.all_witnesses

glass: ready
	TEARDOWN_GLASS=each $(PYTHON_HERE) -m pytest -n auto --dist worksteal tests/ui

ifndef WORLDS_SEED
WORLDS_SEED := $(shell date +%s)
endif
faults: ready
	@echo "random worlds of seed $(WORLDS_SEED); the same once more: make faults WORLDS_SEED=$(WORLDS_SEED)"
	WORLDS_SEED=$(WORLDS_SEED) $(PYTHON_HERE) -m pytest -m faults --hypothesis-profile anew

N ?= 200
SEED ?= 1
mutants: ready
	$(PYTHON_HERE) -m pip install -q -e ".[mutants]"
	$(PYTHON_HERE) -m tests.mutants --number $(N) --seed $(SEED)

clean:
	rm -rf build dist demo-out demo-shop .pytest_cache .ruff_cache .mypy_cache .hypothesis *.egg-info
	find teardown_app tests -name __pycache__ -type d -prune -exec rm -rf {} +
