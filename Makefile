# SPDX-License-Identifier: GPL-3.0-or-later
# Runnel: build, tests and house-keeping (GNU make). `make help` lists the targets.
#
#   V=1           show every command
#   WERROR=1      warnings are errors (also with CI=true)
#   BUILD=DIR     where everything that is made goes (default: build)
#   SANITIZE=...  sanitizers to compile with, for a BUILD of its own
#   PREFIX, DESTDIR, CC, CXX, CFLAGS, LDFLAGS as usual

VERSION := 0.1.0

# ---- What must be installed: the one list of packages (Debian names) -----------------------------

PACKAGES_BUILD := gcc libc6-dev make pkg-config libgeos-dev libgsl-dev libfreetype-dev \
	libharfbuzz-dev libfribidi-dev libfontconfig-dev libyaml-dev libcsv-dev libjansson-dev \
	libhersheyfont-dev libical-dev libpango1.0-dev hershey-fonts-data fonts-ebgaramond
PACKAGES_TEST := check python3-icalendar fonts-allerta fonts-dancingscript fonts-dejavu-core \
	fonts-inter-variable fonts-liberation libxml2-utils librsvg2-bin poppler-utils qpdf tidy
PACKAGES_BENCH := g++ libboost-dev
PACKAGES_CI := $(PACKAGES_BENCH) clang libclang-rt-dev clang-tidy clang-format cppcheck shellcheck \
	valgrind libc6-dbg locales fonts-blankenburg fonts-gfs-baskerville \
	fonts-goudybookletter fonts-hosny-amiri fonts-ipafont-gothic \
	fonts-kaushanscript fonts-lobster fonts-lohit-deva fonts-noto-color-emoji fonts-routed-gothic

# The same libraries as pkg-config knows them, and those that have no pkg-config file.
MODULES := gsl geos freetype2 harfbuzz fribidi fontconfig yaml-0.1 jansson libical pangocairo cairo-pdf cairo-svg
PLAIN_HEADERS := csv.h hersheyfont.h
PLAIN_LIBS := -lcsv -lhersheyfont
# Those that programs are linked with. The others are loaded when they are needed (src/base/late.h).
LINKED_MODULES := gsl yaml-0.1 jansson
# What tests call as well, to look at what was made by another way.
TEST_MODULES := check freetype2 geos libical

# ---- Choices -------------------------------------------------------------------------------------

BUILD ?= build
PREFIX ?= /usr/local
DESTDIR ?=
CFLAGS ?= -O2 -g
CXXFLAGS ?= -O2 -g
SANITIZE ?=
WRAPPER ?=
FUZZ_SECONDS ?= 10
SAMPLE ?= 8
JOBS ?= $(shell nproc 2>/dev/null || echo 1)
ifeq ($(origin CC),default)
CC := gcc
endif
ifeq ($(origin CXX),default)
CXX := g++
endif

Q := $(if $(V),,@)
say = $(if $(V),@:,@printf '  %-5s %s\n' $(1) '$(2)')
ifeq ($(CI),true)
WERROR := 1
endif
COMMA := ,
MAKEFLAGS += --no-print-directory
# A sub-make that works on all cores unless the user told how many already.
MANY = $(MAKE) $(if $(filter -j% --jobserver%,$(MAKEFLAGS)),,-j$(JOBS))

# ---- Flags ---------------------------------------------------------------------------------------

WARNINGS := -Wall -Wextra -Wshadow -Wconversion -Wswitch-enum -Wvla -Wmissing-prototypes \
	-Wformat=2 -Wundef $(if $(WERROR),-Werror)

# Asked only when something is compiled, so that `make help` and `make demo` work on a bare system.
modules = $(or $(shell pkg-config $(1) 2>/dev/null),$(error Libraries are missing: \
	'make setup' installs them or says which))
MODULE_CFLAGS = $(eval MODULE_CFLAGS := $(patsubst -I%,-isystem %,$(call modules,--cflags \
	$(MODULES))))$(MODULE_CFLAGS)
MODULE_LIBS = $(eval MODULE_LIBS := $(PLAIN_LIBS) $(call modules,--libs $(LINKED_MODULES)) \
	-lm)$(MODULE_LIBS)
TEST_LIBS = $(eval TEST_LIBS := $(call modules,--libs $(TEST_MODULES)))$(TEST_LIBS)

SANITIZE_FLAGS := $(if $(SANITIZE),-fsanitize=$(SANITIZE) -fno-sanitize-recover=all \
	-fno-omit-frame-pointer)
DEFINES := -D_POSIX_C_SOURCE=200809L -DRUNNEL_VERSION='"$(VERSION)"'
# What only the objects of the command are compiled with; no part of $(FLAGS_TEXT), as the targets
# that set it would otherwise change that for all.
OWN_DEFINES :=
COMPILE = $(CC) -std=c11 $(DEFINES) $(OWN_DEFINES) -Iinclude -Isrc $(MODULE_CFLAGS) $(WARNINGS) $(CFLAGS) \
	$(SANITIZE_FLAGS) -MMD -MP
LINK = $(CC) $(CFLAGS) $(SANITIZE_FLAGS) $(LDFLAGS)

# ---- Files ---------------------------------------------------------------------------------------

LIBRARY := $(BUILD)/librunnel.a
COMMAND := $(BUILD)/runnel

FRONT_SOURCES := $(wildcard src/cli/*.c)
LIBRARY_SOURCES := $(filter-out $(FRONT_SOURCES),$(wildcard src/*/*.c))
SUITE_SOURCES := $(wildcard tests/test_*.c)
HELPER_SOURCES := $(filter-out $(SUITE_SOURCES),$(wildcard tests/*.c))
CASES_SOURCES := $(wildcard tests/cli/*.c)
FUZZ_SOURCES := $(wildcard tests/fuzz/fuzz_*.c)
BENCH_SOURCES := $(wildcard tests/bench/*.c tests/bench/*.cpp)
PUBLIC_HEADERS := $(wildcard include/runnel/*.h include/runnel/*.def)
DATA_FILES := $(wildcard data/*.csv)
EXAMPLE_FILES := $(wildcard share/examples/*)

FRONT_OBJECTS := $(FRONT_SOURCES:%.c=$(BUILD)/obj/%.o)
INSTALLED_OBJECTS := $(FRONT_SOURCES:src/cli/%.c=$(BUILD)/installed/%.o)
LIBRARY_OBJECTS := $(LIBRARY_SOURCES:%.c=$(BUILD)/obj/%.o)
HELPER_OBJECTS := $(HELPER_SOURCES:%.c=$(BUILD)/obj/%.o)
CASES_OBJECTS := $(CASES_SOURCES:%.c=$(BUILD)/obj/%.o)
BENCH_OBJECTS := $(addprefix $(BUILD)/obj/,$(addsuffix .o,$(basename $(BENCH_SOURCES))))
SUITES := $(SUITE_SOURCES:tests/%.c=$(BUILD)/tests/%)
REPLAYS := $(FUZZ_SOURCES:tests/fuzz/fuzz_%.c=$(BUILD)/tests/replay_%)
FUZZERS := $(FUZZ_SOURCES:tests/fuzz/fuzz_%.c=$(BUILD)/tests/fuzz_%)
OUR_C := $(LIBRARY_SOURCES) $(FRONT_SOURCES) $(SUITE_SOURCES) $(HELPER_SOURCES) $(FUZZ_SOURCES) \
	$(CASES_SOURCES) $(wildcard tests/fuzz/replay.c tests/bench/*.c share/examples/*.c)
OUR_HEADERS := $(filter %.h,$(PUBLIC_HEADERS)) $(wildcard src/*/*.h tests/*.h tests/*/*.h)
OUR_CXX := $(wildcard tests/bench/*.cpp)
OUR_SHELL := $(wildcard .ci/*.sh tests/*.sh tests/*/*.sh tests/cases/*/*.sh .ci/run)

# ---- Build ---------------------------------------------------------------------------------------

## all: build the library and the command (the default)
all: $(LIBRARY) $(if $(FRONT_SOURCES),$(COMMAND))

## demo: install what is missing, build, and size the demo job
demo: setup
	$(Q)$(MANY) all
	$(COMMAND) size share/examples/mill-bakery.yaml
	@echo
	$(COMMAND) card share/examples/mill-bakery.yaml

# Everything that changes the objects but is no file: a change of it makes them anew.
define FLAGS_TEXT
$(CC) $(DEFINES) $(WARNINGS) $(CFLAGS) $(SANITIZE_FLAGS) $(LDFLAGS) $(MODULES) $(LINKED_MODULES)
endef
$(BUILD)/flags: FORCE
	@mkdir -p $(@D)
	@printf '%s\n' '$(subst ','\'',$(FLAGS_TEXT))' | cmp -s - $@ || \
		printf '%s\n' '$(subst ','\'',$(FLAGS_TEXT))' >$@
$(BUILD)/prefix: FORCE
	@mkdir -p $(@D)
	@printf '%s\n' '$(PREFIX)' | cmp -s - $@ || printf '%s\n' '$(PREFIX)' >$@

$(BUILD)/obj/%.o: %.c $(BUILD)/flags
	$(call say,CC,$<)
	@mkdir -p $(@D)
	$(Q)$(COMPILE) -c -o $@ $<

# The command in the build tree finds the tables in the source tree; the one that is installed
# finds them below the prefix. Only the command's own objects know where that is.
$(BUILD)/obj/src/cli/%.o: OWN_DEFINES = -DRUNNEL_DATA_DIR='"$(CURDIR)/data"'
$(BUILD)/installed/%.o: OWN_DEFINES = -DRUNNEL_DATA_DIR='"$(PREFIX)/share/runnel"'
$(BUILD)/installed/%.o: src/cli/%.c $(BUILD)/flags $(BUILD)/prefix
	$(call say,CC,$< (to be installed))
	@mkdir -p $(@D)
	$(Q)$(COMPILE) -c -o $@ $<

$(LIBRARY): $(LIBRARY_OBJECTS)
	$(call say,AR,$@)
	$(Q)rm -f $@ && $(AR) rcs $@ $^

$(COMMAND): $(FRONT_OBJECTS) $(LIBRARY)
	$(call say,LINK,$@)
	$(Q)$(LINK) -o $@ $^ $(MODULE_LIBS)

$(BUILD)/installed/runnel: $(INSTALLED_OBJECTS) $(LIBRARY)
	$(call say,LINK,$@)
	$(Q)$(LINK) -o $@ $^ $(MODULE_LIBS)

# ---- Installation --------------------------------------------------------------------------------

BIN := $(DESTDIR)$(PREFIX)/bin
LIB := $(DESTDIR)$(PREFIX)/lib
INCLUDE := $(DESTDIR)$(PREFIX)/include
SHARE := $(DESTDIR)$(PREFIX)/share
PRODUCTS := $(LIBRARY) $(BUILD)/runnel.pc $(if $(FRONT_SOURCES),$(BUILD)/installed/runnel \
	$(BUILD)/runnel.1 $(BUILD)/runnel.bash)

## install: install command, library, headers, tables, examples and man page below PREFIX
install: $(PRODUCTS)
	$(Q)install -d $(LIB)/pkgconfig $(INCLUDE)/runnel $(SHARE)/runnel/examples
	$(Q)install -m 644 $(LIBRARY) $(LIB)
	$(Q)install -m 644 $(BUILD)/runnel.pc $(LIB)/pkgconfig
	$(Q)install -m 644 $(PUBLIC_HEADERS) $(INCLUDE)/runnel
	$(Q)$(if $(DATA_FILES),install -m 644 $(DATA_FILES) $(SHARE)/runnel)
	$(Q)install -m 644 $(EXAMPLE_FILES) $(SHARE)/runnel/examples
ifneq ($(FRONT_SOURCES),)
	$(Q)install -d $(BIN) $(SHARE)/man/man1 $(SHARE)/bash-completion/completions
	$(Q)install $(BUILD)/installed/runnel $(BIN)
	$(Q)install -m 644 $(BUILD)/runnel.1 $(SHARE)/man/man1
	$(Q)install -m 644 $(BUILD)/runnel.bash $(SHARE)/bash-completion/completions/runnel
endif

## uninstall: remove what install put below PREFIX
uninstall:
	rm -f $(BIN)/runnel $(LIB)/librunnel.a $(LIB)/pkgconfig/runnel.pc $(SHARE)/man/man1/runnel.1 \
		$(SHARE)/bash-completion/completions/runnel
	rm -rf $(INCLUDE)/runnel $(SHARE)/runnel

$(BUILD)/runnel.pc: share/runnel.pc.in $(BUILD)/prefix Makefile
	$(Q)sed -e 's|@PREFIX@|$(PREFIX)|' -e 's|@VERSION@|$(VERSION)|' -e 's|@MODULES@|$(LINKED_MODULES)|' \
		-e 's|@PLAIN_LIBS@|$(PLAIN_LIBS)|' $< >$@

# The command knows its options and outcomes; it writes its own man page and completions.
$(BUILD)/runnel.1: $(COMMAND)
	$(Q)$(WRAPPER) $(COMMAND) --man-page >$@
$(BUILD)/runnel.bash: $(COMMAND)
	$(Q)$(WRAPPER) $(COMMAND) --bash-completion >$@

# ---- Set-up --------------------------------------------------------------------------------------

## setup: install the packages that the build needs, if any is missing
setup:
	@MODULES='$(MODULES)' HEADERS='$(PLAIN_HEADERS)' sh .ci/setup.sh $(PACKAGES_BUILD)

## setup-test: the same, and what the tests need
setup-test:
	@MODULES='$(MODULES) $(TEST_MODULES)' HEADERS='$(PLAIN_HEADERS)' \
		sh .ci/setup.sh $(PACKAGES_BUILD) $(PACKAGES_TEST)

## setup-ci: the same, and all fonts, compilers and checkers
setup-ci:
	@MODULES='$(MODULES) $(TEST_MODULES)' HEADERS='$(PLAIN_HEADERS)' \
		sh .ci/setup.sh $(PACKAGES_BUILD) $(PACKAGES_TEST) $(PACKAGES_CI)

# ---- Tests ---------------------------------------------------------------------------------------

## check: install what is missing, build, and pass all tests
check: setup-test
	$(Q)$(MANY) test

## test: all tests without the set-up; ONLY=NAME for those whose name holds NAME
test: all tests
	@CC='$(CC)' CFLAGS='$(CFLAGS)' SANITIZE='$(SANITIZE)' LDFLAGS='$(LDFLAGS)' MAKE='$(MAKE)' \
		BUILD='$(BUILD)' WRAPPER='$(WRAPPER)' JOBS='$(JOBS)' ONLY='$(ONLY)' \
		MAKEFLAGS= MAKELEVEL= sh tests/run.sh

## tests: build the tests, run none
tests: $(SUITES) $(REPLAYS) $(BUILD)/tests/cases

$(BUILD)/libhelpers.a: $(HELPER_OBJECTS)
	$(Q)rm -f $@ && $(AR) rcs $@ $^

$(SUITES): $(BUILD)/tests/%: $(BUILD)/obj/tests/%.o $(BUILD)/libhelpers.a $(LIBRARY)
	$(call say,LINK,$@)
	@mkdir -p $(@D)
	$(Q)$(LINK) -o $@ $^ $(TEST_LIBS) $(MODULE_LIBS)

$(REPLAYS): $(BUILD)/tests/replay_%: $(BUILD)/obj/tests/fuzz/fuzz_%.o \
		$(BUILD)/obj/tests/fuzz/replay.o $(LIBRARY)
	$(call say,LINK,$@)
	@mkdir -p $(@D)
	$(Q)$(LINK) -o $@ $^ $(MODULE_LIBS)

$(BUILD)/tests/cases: $(CASES_OBJECTS)
	$(call say,LINK,$@)
	@mkdir -p $(@D)
	$(Q)$(LINK) -o $@ $^ $(call modules,--libs jansson) -lm

## check-long: the same with the long forms of the suites, which `make check` takes samples of
check-long: setup-test
	$(Q)RUNNEL_LONG=1 $(MANY) test

# What the sanitizers of clang look at also serves the fuzz targets.
SANITIZERS := $(if $(findstring clang,$(CC)),fuzzer-no-link$(COMMA))address,undefined,float-cast-overflow
SANITIZED := BUILD=$(BUILD)/sanitized-$(CC) SANITIZE=$(SANITIZERS) CFLAGS='-O1 -g'
## sanitize: suites, replays and cases under the address, leak and undefined-behaviour sanitizers
sanitize:
	$(Q)$(MANY) test $(SANITIZED)

MEMCHECK := valgrind -q --error-exitcode=99 --suppressions=$(CURDIR)/tests/valgrind.supp \
	--leak-check=full --errors-for-leak-kinds=definite --show-leak-kinds=definite
## valgrind: what `make test` runs under memcheck; of the cases one in SAMPLE
valgrind:
	$(Q)CK_FORK=no RUNNEL_SAMPLE=$(SAMPLE) $(MANY) test WRAPPER='$(MEMCHECK)'

## fuzz: run each fuzz target for FUZZ_SECONDS on top of its corpus (CC=clang)
fuzz:
	$(Q)$(MANY) $(FUZZ_SOURCES:tests/fuzz/fuzz_%.c=fuzz-%) $(SANITIZED)
fuzz-%: $(BUILD)/tests/fuzz_%
	$(Q)mkdir -p $(BUILD)/found_$* && \
		$(BUILD)/tests/fuzz_$* -max_total_time=$(FUZZ_SECONDS) -print_final_stats=1 \
			-artifact_prefix=$(BUILD)/crash_$*_ $(BUILD)/found_$* tests/fuzz/corpus_$* \
			>$(BUILD)/fuzz_$*.log 2>&1 || { tail -40 $(BUILD)/fuzz_$*.log; exit 1; }; \
		echo "fuzz_$*: $$(grep -o 'number_of_executed_units: *[0-9]*' $(BUILD)/fuzz_$*.log | \
			tr -dc 0-9) runs without a finding"
$(FUZZERS): $(BUILD)/tests/fuzz_%: $(BUILD)/obj/tests/fuzz/fuzz_%.o $(LIBRARY)
	@mkdir -p $(@D)
	$(Q)$(LINK) -fsanitize=fuzzer -o $@ $^ $(MODULE_LIBS)

## pictures: draw the pictures of the README anew
# NAME PAGE DOTS ARGUMENTS..., of the examples
define PICTURES
card 1 75 card share/examples/mill-bakery.yaml
carving 1 75 size share/examples/house-sign.yaml
sheet 2 75 sheet share/examples/house-sign.yaml
cure 1 75 cure --resin coating\ 2:1 --temperature 18\ C
care 1 100 upkeep share/examples/ash-tray.yaml --delivered 2027-01-18 --paper 4x6
endef
export PICTURES
pictures: $(COMMAND)
	$(Q)printf '%s\n' "$$PICTURES" | while read -r name page dots arguments; do \
		eval "$(COMMAND) $$arguments -o $(BUILD)/picture.pdf" && \
		pdftoppm -f $$page -l $$page -r $$dots -png -singlefile $(BUILD)/picture.pdf \
			share/pictures/$$name || exit 1; \
	done

## bench: time the engine beside other routes on the same lettering
bench: setup
	@MODULES= HEADERS= sh .ci/setup.sh $(PACKAGES_BENCH)
	$(Q)$(MANY) $(BUILD)/bench all
	$(BUILD)/bench $(COMMAND)
$(BUILD)/bench: $(BENCH_OBJECTS) $(BUILD)/libhelpers.a $(LIBRARY)
	$(Q)$(CXX) $(CXXFLAGS) $(LDFLAGS) -o $@ $^ $(TEST_LIBS) $(MODULE_LIBS)
$(BUILD)/obj/%.o: %.cpp $(BUILD)/flags
	$(call say,CXX,$<)
	@mkdir -p $(@D)
	$(Q)$(CXX) -std=c++17 $(DEFINES) -Iinclude -Isrc $(MODULE_CFLAGS) -Wall -Wextra $(CXXFLAGS) \
		-MMD -MP -c -o $@ $<

# ---- House-keeping -------------------------------------------------------------------------------

## layers: check every #include and every call that has one home against tests/layers.table
layers:
	$(Q)sh tests/layers.sh

## format: check the layout of the code with clang-format; format-fix puts it right
format:
	$(Q)printf '%s\n' $(OUR_C) $(OUR_HEADERS) $(OUR_CXX) | \
		xargs -P $(JOBS) -n 20 clang-format --dry-run -Werror
format-fix:
	$(Q)clang-format -i $(OUR_C) $(OUR_HEADERS) $(OUR_CXX)

## lint: clang-tidy, cppcheck, shellcheck, house rules, public headers alone in C and C++
lint: lint-tidy lint-cppcheck lint-shell lint-house lint-headers
$(BUILD)/compile_flags.txt: $(BUILD)/flags
	@printf '%s\n' -std=c11 -D_POSIX_C_SOURCE=200809L '-DRUNNEL_VERSION="$(VERSION)"' \
		'-DRUNNEL_DATA_DIR="data"' -I$(CURDIR)/include -I$(CURDIR)/src -Wall -Wextra \
		$(MODULE_CFLAGS) >$@
# What is delivered, not the tests. The file that defines what tests/analyzer.h promises is looked at
# without it.
lint-tidy: $(BUILD)/compile_flags.txt
	$(Q)run_tidy() { xargs -P $(JOBS) -n 1 clang-tidy --quiet -p $(BUILD) "$$@" 2>$(BUILD)/tidy.log || \
		{ grep -v 'warnings generated' $(BUILD)/tidy.log; exit 1; }; }; \
	echo src/base/status.c | run_tidy && \
		printf '%s\n' $(filter-out src/base/status.c,$(LIBRARY_SOURCES) $(FRONT_SOURCES)) | \
		run_tidy --extra-arg=-include --extra-arg=$(CURDIR)/tests/analyzer.h
lint-cppcheck:
	$(Q)cppcheck --quiet -j $(JOBS) --std=c11 --error-exitcode=1 --inline-suppr \
		--enable=warning,performance,portability -Iinclude -Isrc -D_POSIX_C_SOURCE=200809L $(OUR_C)
lint-shell:
	$(Q)if command -v shellcheck >/dev/null; then shellcheck $(OUR_SHELL); \
		else echo 'shellcheck is not installed; the shell scripts are not checked'; fi
lint-house:
	$(Q)awk -f tests/house.awk $(OUR_C) $(OUR_HEADERS) $(OUR_CXX)
lint-headers:
	$(Q)for header in $(filter %.h,$(PUBLIC_HEADERS)); do \
		for how in '$(CC) -std=c11 -xc' '$(CXX) -std=c++11 -xc++'; do \
			echo "#include \"runnel/$${header##*/}\"" | $$how -Wall -Wextra -Wpedantic -Werror \
				-Iinclude -fsyntax-only - || { echo "$$header does not stand alone"; exit 1; }; \
		done; done

## clean: remove everything that was made
clean:
	rm -rf $(BUILD)

## help: list the targets
help:
	@awk 'sub(/^## /, "") { split($$0, part, ": "); \
		printf "  make %-11s %s\n", part[1], substr($$0, length(part[1]) + 3) }' Makefile

FORCE:
.PHONY: all demo install uninstall setup setup-test setup-ci check check-long test tests sanitize valgrind fuzz bench pictures \
	layers format format-fix lint lint-tidy lint-cppcheck lint-shell lint-house lint-headers clean help FORCE
.DELETE_ON_ERROR:
.SECONDARY:

-include $(shell find $(BUILD)/obj $(BUILD)/installed -name '*.d' 2>/dev/null)
