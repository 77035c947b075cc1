# Each target installs what it needs. The build itself is CMake: see CMakePresets.json.
#   demo · test · bench · tidy · fmt · fmt-check · clean

SHELL := /bin/bash
.SHELLFLAGS := -eu -o pipefail -c
.ONESHELL:
.PHONY: demo test test-dev test-asan bench tidy fmt fmt-check clean tools tools-all
MAKEFLAGS += --no-print-directory

JOBS ?= $(shell nproc)
EXAMPLE ?= examples/north-cabin.toml

# $(call build,<preset>,<target>)
define build
cmake --preset $(1) --log-level=WARNING >/dev/null
cmake --build --preset $(1) --target $(2) --parallel $(JOBS)
endef

# Checks an example and draws its papers. Exit 1 of a check is an answer, 2 and 3 are failures.
demo: tools
	@$(call build,release,stringwright)
	tool=build/release/bin/stringwright
	answer=0
	"$$tool" check $(EXAMPLE) || answer=$$?
	[ "$$answer" -le 1 ]
	answer=0
	"$$tool" papers $(EXAMPLE) -o build/papers || answer=$$?
	[ "$$answer" -le 1 ]
	echo
	echo "The papers of $(EXAMPLE) are in $(CURDIR)/build/papers:"
	ls build/papers

# Two compilers, the second with sanitizers. Only failures are listed; the last lines are ctest's.
test: tools-all
	@$(MAKE) test-dev
	$(MAKE) test-asan

test-dev test-asan: test-%: tools-all
	@$(call build,$*,all)
	ctest --preset $* --parallel $(JOBS) | grep --line-buffered -vE '^ +Start |   Passed '

bench: tools-all
	@$(call build,bench,all)
	for program in build/bench/bench/bench_*; do
	  [ -x "$$program" ] || continue
	  echo "== $$program"
	  "$$program"
	done

tidy: tools-all
	@$(call build,tidy,all) -- -k 0

SOURCES = $(shell find src tests tools bench fuzz -name '*.hpp' -o -name '*.cpp' 2>/dev/null)

fmt: tools-all
	@clang-format-19 -i $(SOURCES)

fmt-check: tools-all
	@clang-format-19 --dry-run --Werror $(SOURCES)

clean:
	@rm -rf build

tools:
	@tools/setup

tools-all:
	@tools/setup --all
