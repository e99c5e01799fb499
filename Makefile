# SPDX-License-Identifier: MIT
# Two commands do everything: `make demo` and `make test`. Everything built goes to $(BUILD).
# Variants: `make BUILD=build/clang CC=clang`, `make SAN=1` (ASan + UBSan, in build/san), `make SAN=thread` (in build/tsan).
# `make RELEASE=1`: what is handed on, hardened, with the shared library (in build/release).
# CPPFLAGS, CFLAGS and LDFLAGS are the builder's, on top of what is needed here. For another machine:
# `make CC=aarch64-linux-gnu-gcc BUILD=build/arm`; CC_FOR_BUILD compiles what make itself runs.

CC ?= gcc
CC_FOR_BUILD ?= cc
SAN ?=
RELEASE ?=
BUILD ?= $(if $(SAN),build/$(if $(filter thread,$(SAN)),tsan,san),$(if $(RELEASE),build/release,build))
PREFIX ?= /usr/local
DESTDIR ?=

# Debian's packages. What runs the program, what tests it further, what the full check needs.
DEPS_BUILD = build-essential pkg-config libgsl-dev libxml2-dev libsuitesparse-dev libudunits2-dev libjansson-dev nettle-dev libcsv-dev libical-dev libmicrohttpd-dev
DEPS_TEST = libcmocka-dev mandoc parallel python3 python3-iapws python3-icalendar libxml2-utils
DEPS_CI = clang clang-format clang-tidy cppcheck libclang-rt-14-dev valgrind chromium poppler-utils lintian zsh fish munge slurm-wlm
DEPS_NODE = nodejs npm
DEPS_BENCH = libsundials-dev
DEPS_WEB = emscripten dpkg-dev

PKGS = gsl libxml-2.0 jansson libical nettle
OPT ?= -O2
# Asked once, not at every compilation.
PKG_CFLAGS := $(shell pkg-config --cflags $(PKGS) 2>/dev/null | sed 's/-I/-isystem /g')
PKG_LIBS := $(shell pkg-config --libs $(PKGS) 2>/dev/null)
NEEDED_CPPFLAGS = -Iinclude -Isrc -D_POSIX_C_SOURCE=200809L -isystem /usr/include/suitesparse $(PKG_CFLAGS)
# No contraction: the same sums on every compiler and machine.
NEEDED_CFLAGS = -std=c11 $(OPT) -g -Wall -Wextra -Werror -Wconversion -ffp-contract=off -pthread
# The numerical libraries are taken in where there are archives of them: so many to load take a millisecond at each start.
archive_or_shared = $(or $(filter /%,$(shell $(CC) -print-file-name=lib$(1).a)),-l$(1))
NUMERIC := $(foreach lib,gsl gslcblas klu amd colamd btf suitesparseconfig,$(call archive_or_shared,$(lib)))
LDLIBS += $(filter-out -lgsl -lgslcblas,$(PKG_LIBS)) $(NUMERIC) -ludunits2 -lcsv -lmicrohttpd -lm -pthread
SANITIZERS = $(if $(SAN),-fsanitize=$(if $(filter thread,$(SAN)),thread,address$(comma)undefined))
comma = ,
NEEDED_CFLAGS += $(if $(SAN),$(SANITIZERS) -fno-sanitize-recover=all -fno-omit-frame-pointer)
# The shared library's code stands anywhere; what calls within it need not expect another's function in between. No control-flow
# marks: the archives of the numerical libraries have none, and one part without them takes them from the whole.
HARDENED = -fPIC -fno-semantic-interposition -D_FORTIFY_SOURCE=2 -fstack-protector-strong -fstack-clash-protection \
  -ffile-prefix-map=$(CURDIR)=.
NEEDED_CFLAGS += $(if $(RELEASE),$(HARDENED))
NEEDED_LDFLAGS = $(if $(RELEASE),-Wl$(comma)-z$(comma)relro -Wl$(comma)-z$(comma)now)
COMPILE = $(CC) $(NEEDED_CPPFLAGS) $(CPPFLAGS) $(NEEDED_CFLAGS) $(CFLAGS)
LINK = $(CC) $(NEEDED_CFLAGS) $(CFLAGS) $(NEEDED_LDFLAGS) $(LDFLAGS)

SOURCES := $(filter-out src/cli/main.c src/generate/%.c src/web/%.c,$(wildcard src/*/*.c src/*/*/*.c))
OBJECTS := $(SOURCES:%.c=$(BUILD)/%.o) $(BUILD)/gen/network_xsd.o $(BUILD)/gen/sat_table.o $(BUILD)/gen/page_embedded.o $(BUILD)/gen/guide.o
LIB := $(BUILD)/libfarvessel.a
VERSION := $(shell sed -nE 's/.*FV_VERSION "(.*)"/\1/p' include/farvessel/print.h)
SONAME := libfarvessel.so.0
SHARED := $(BUILD)/libfarvessel.so.$(VERSION)
PROGRAM := $(BUILD)/farvessel
TESTS := $(patsubst tests/%.c,$(BUILD)/tests/%,$(wildcard tests/*/test_*.c))
SCRIPT_TESTS := $(wildcard tests/*/test_*.sh)

.PHONY: all demo test check-deps deps deps-test deps-ci deps-node deps-bench deps-web browser-test bench install uninstall clean format lint
.DELETE_ON_ERROR:
.SECONDARY:

all: $(PROGRAM) $(if $(RELEASE),$(SHARED))

demo: deps
	@$(MAKE) --no-print-directory all
	$(PROGRAM) flow networks/far-bench.xml
	@echo
	$(PROGRAM) heat networks/far-bench.xml --start 06:00 | sed -n 1,20p
	$(PROGRAM) report networks/far-bench.xml --start 06:00 -o $(BUILD)/far-bench.html
	@echo
	$(PROGRAM) log networks/far-bench-log.csv | sed -n 1,12p
	$(PROGRAM) forecast networks/far-bench.xml --log networks/far-bench-log.csv --lit 06:00 --now 12:00 | sed -n 1,13p
	@echo "The whole answer on one page, for a browser: $(BUILD)/far-bench.html"

test: deps-test
	@$(MAKE) --no-print-directory run-tests

# Samples under a sanitizer, where each plant takes ten times as long and the hundredth runs the same code as the tenth; the
# plain run has all of them. A count that the caller says stands.
SAMPLES = RANDOM_PLANTS=$${RANDOM_PLANTS:-40} RANDOM_RUNS=$${RANDOM_RUNS:-60} ADVICE_BRUTE=$${ADVICE_BRUTE:-1} \
  ADVICE_PLANTS=$${ADVICE_PLANTS:-1} DESK_SESSIONS=$${DESK_SESSIONS:-150} WRONG_FILES=$${WRONG_FILES:-200}
.PHONY: run-tests
run-tests: $(PROGRAM) $(TESTS)
	@BUILD=$(BUILD) CC="$(CC)" $(if $(SAN),$(SAMPLES)) tests/run.sh $(TESTS) $(SCRIPT_TESTS)

# The report as a browser shows it; takes packages for the test, by fixed versions, from npm.
browser-test: $(PROGRAM) deps-ci
	@BUILD=$(BUILD) tests/browser/run.sh

# What `report --live` carries: the desk as WebAssembly, from Debian's own sources of the libraries. Takes minutes at first.
.PHONY: web
web: all deps-web build/web/include/made
	@$(MAKE) --no-print-directory -f src/web/web.mk
build/web/include/made: src/web/prepare.sh
	@echo "taking the libraries' sources by apt, into build/web"
	@$< build/web

# Installs what is missing where apt is there and one may; elsewhere says what to install.
define install_packages
	@missing=""; for p in $(1); do dpkg -s $$p >/dev/null 2>&1 || missing="$$missing $$p"; done; \
	if [ -z "$$missing" ]; then exit 0; fi; \
	if ! command -v apt-get >/dev/null 2>&1; then \
	  command -v dpkg >/dev/null 2>&1 || missing=" $(1)"; \
	  echo "This is not a Debian system. Please install, under the names it has here:$$missing"; exit 0; fi; \
	if [ "$$(id -u)" = 0 ]; then SUDO=; elif command -v sudo >/dev/null 2>&1; then SUDO=sudo; else \
	  echo "These packages are missing, and without root or sudo they cannot be installed. Ask an administrator for"; \
	  echo "    apt-get install$$missing"; echo "and then go on with: make $(or $(filter demo test,$(MAKECMDGOALS)),all)"; exit 1; fi; \
	echo "These Debian packages are missing and are installed now with $${SUDO:+sudo }apt-get, which changes this system:"; \
	echo "   $$missing"; \
	echo "(Ctrl-C within 5 s if you would rather install them yourself.)"; sleep 5; \
	$$SUDO apt-get update -q >/dev/null && DEBIAN_FRONTEND=noninteractive $$SUDO apt-get install -y -q $$missing >/dev/null
endef

deps:
	$(call install_packages,$(DEPS_BUILD))
deps-test:
	$(call install_packages,$(DEPS_BUILD) $(DEPS_TEST))
deps-ci:
	$(call install_packages,$(DEPS_BUILD) $(DEPS_TEST) $(DEPS_CI))
	@command -v npm >/dev/null 2>&1 || $(MAKE) --no-print-directory deps-node
deps-node:
	$(call install_packages,$(DEPS_NODE))
deps-web:
	$(call install_packages,$(DEPS_WEB))
deps-bench:
	$(call install_packages,$(DEPS_BUILD) $(DEPS_BENCH))

# Each compilation writes down which headers it read, beside what it makes; the next make knows what a changed header touches.
DEPENDS = -MMD -MP -MT $@ -MF $@.d
-include $(wildcard $(BUILD)/*/*/*/*.d $(BUILD)/*/*/*.d $(BUILD)/*/*.d)

$(BUILD)/%.o: %.c Makefile
	@mkdir -p $(@D)
	@echo "cc $<"
	@$(COMPILE) $(DEPENDS) -c $< -o $@

# Loops over the cells of bricks and of frozen pieces, and over the modes of a piece, two and more at a time.
ifeq ($(OPT),-O2)
$(patsubst %,$(BUILD)/src/heatup/%.o,brick frozen frozen_grid reproject): NEEDED_CFLAGS += -O3
endif
# The one library whose headers do not say its version.
$(BUILD)/src/cli/version.o: NEEDED_CPPFLAGS += -DUDUNITS_VERSION='"$(or $(shell pkg-config --modversion udunits 2>/dev/null),2)"'

# The schema stands in networks/ for editors and is built into the program as bytes.
$(BUILD)/gen/network_xsd.c: networks/network.xsd Makefile
	@mkdir -p $(@D)
	@{ echo '#include "plantfile/schema_text.h"'; echo 'const unsigned char plantfile_schema_text[] = {'; \
	  od -An -v -tx1 networks/network.xsd | sed 's/ \([0-9a-f][0-9a-f]\)/0x\1,/g'; echo '};'; \
	  echo 'const size_t plantfile_schema_length = sizeof plantfile_schema_text;'; } > $@

# What the page brings along for the browser, as texts; a comment stands on lines of its own, which are left out.
EMBEDDED = page_drawing_rules=src/page/drawing.css page_style_rules=src/page/style.css page_script=src/page/script.js \
  page_session_rules=src/page/session.css page_session_script=src/page/session.js
$(BUILD)/gen/page_embedded.c: $(wildcard src/page/*.css src/page/*.js) Makefile
	@mkdir -p $(@D)
	@{ echo '#include "page/embedded.h"'; for pair in $(EMBEDDED); do echo "const char $${pair%%=*}[] = {"; \
	  sed '/^ *\/\*.*\*\/$$/d' $${pair#*=} | od -An -v -tx1 | sed 's/ \([0-9a-f][0-9a-f]\)/0x\1,/g'; echo '0};'; done; } > $@

# The texts of help.
GUIDE = $(wildcard src/cli/guide/*.txt)
$(BUILD)/gen/guide.c: $(GUIDE) Makefile
	@mkdir -p $(@D)
	@{ echo '#include "cli/guide.h"'; for text in $(GUIDE); do \
	  echo "const char cli_guide_$$(basename $$text .txt | tr - _)[] = {"; \
	  od -An -v -tx1 $$text | sed 's/ \([0-9a-f][0-9a-f]\)/(char)0x\1,/g'; echo '0};'; done; } > $@

# The saturation line's tables, written down by a program of its own.
TABLE_SOURCES := src/generate/sat_table.c $(patsubst %,src/props/%.c,sat_build sat_phi gibbs region1 region2 region4 viscosity)
$(BUILD)/generate/sat_table: $(TABLE_SOURCES) $(wildcard src/props/*.h) Makefile
	@mkdir -p $(@D)
	@echo "cc $<"
	@$(CC_FOR_BUILD) -Iinclude -Isrc -D_POSIX_C_SOURCE=200809L -std=c11 -O2 -ffp-contract=off $(TABLE_SOURCES) -lm -o $@
$(BUILD)/gen/sat_table.c: $(BUILD)/generate/sat_table
	@mkdir -p $(@D)
	@$< > $@
$(BUILD)/gen/%.o: $(BUILD)/gen/%.c
	@$(COMPILE) $(DEPENDS) -c $< -o $@

$(LIB): $(OBJECTS)
	@rm -f $@
	@ar qcs $@ $^

# Only names that begin with fv_ are seen from outside.
$(SHARED): $(filter-out $(BUILD)/src/cli/% $(BUILD)/gen/guide.o,$(OBJECTS)) src/package/symbols.map
	@echo "link $@"
	@$(LINK) -shared -Wl,-soname,$(SONAME) -Wl,--version-script=src/package/symbols.map -Wl,--no-undefined $(filter %.o,$^) \
	  $(filter-out %.a,$(LDLIBS)) $(patsubst %,-l%,gsl gslcblas klu) -o $@

$(PROGRAM): $(BUILD)/src/cli/main.o $(LIB)
	@echo "link $@"
	@$(LINK) $^ $(LDLIBS) -o $@

# What the tests themselves do takes less time than making it quick, but for one that follows a body in cells of its own;
# and of another gcc sees only so how long its texts are.
TEST_OPT = $(if $(SAN)$(RELEASE)$(CPPFLAGS)$(CFLAGS),$(OPT),-O0)
$(BUILD)/tests/heatup/test_body $(BUILD)/tests/desk/test_session: TEST_OPT = $(OPT)
$(BUILD)/tests/%: tests/%.c $(LIB)
	@mkdir -p $(@D)
	@echo "test $<"
	@$(COMPILE) $(TEST_OPT) -Itests $(DEPENDS) $(LDFLAGS) $< $(LIB) -lcmocka $(LDLIBS) -o $@

# Speed, beside other solvers and beside the floor. Alone uses SUNDIALS. One section: make bench SECTIONS="growth".
BENCH = $(BUILD)/tests/bench/bench
SECTIONS ?=
bench: deps-bench
	@$(MAKE) --no-print-directory $(PROGRAM) $(BENCH)
	$(BENCH) $(PROGRAM) $(SECTIONS) | tee $(if $(SECTIONS),/dev/null,reference/bench.md)
$(BENCH): $(wildcard tests/bench/*.c tests/bench/*.h include/farvessel/*.h) $(LIB)
	@mkdir -p $(@D)
	@$(COMPILE) $(LDFLAGS) $(filter %.c,$^) $(LIB) -lsundials_kinsol -lsundials_sunlinsolklu \
	  -lsundials_sunmatrixsparse -lsundials_nvecserial -lsundials_generic $(LDLIBS) -o $@

# The manual's pages, by the program itself; for another machine RUN runs it: RUN=qemu-aarch64.
RUN ?=
MANUAL := $(BUILD)/man/made
$(MANUAL): $(PROGRAM)
	@rm -rf $(@D) && mkdir -p $(@D)
	@$(RUN) $(PROGRAM) help pages | while read -r page name; do \
	  $(RUN) $(PROGRAM) help $$name --format man -o $(@D)/$$page || exit 1; done
	@touch $@

LIBDIR ?= $(PREFIX)/lib
install: all $(MANUAL)
	install -d $(DESTDIR)$(LIBDIR)
	install -d $(DESTDIR)$(PREFIX)/bin $(DESTDIR)$(PREFIX)/include/farvessel $(DESTDIR)$(PREFIX)/share/farvessel/networks
	install -m 755 $(PROGRAM) $(DESTDIR)$(PREFIX)/bin/
	install -m 644 $(LIB) $(DESTDIR)$(LIBDIR)/
	$(if $(RELEASE),install -m 644 $(SHARED) $(DESTDIR)$(LIBDIR)/)
	$(if $(RELEASE),ln -sf $(notdir $(SHARED)) $(DESTDIR)$(LIBDIR)/$(SONAME) && ln -sf $(SONAME) $(DESTDIR)$(LIBDIR)/libfarvessel.so)
	install -d $(DESTDIR)$(LIBDIR)/pkgconfig
	sed 's|@prefix@|$(PREFIX)|; s|@libdir@|$(LIBDIR)|; s|@version@|$(VERSION)|' src/package/farvessel.pc.in > $(DESTDIR)$(LIBDIR)/pkgconfig/farvessel.pc
	install -m 644 include/farvessel/*.h $(DESTDIR)$(PREFIX)/include/farvessel/
	install -m 644 networks/*.xml networks/*.xsd $(DESTDIR)$(PREFIX)/share/farvessel/networks/
	[ ! -f build/web/live.js ] || install -m 644 build/web/live.js $(DESTDIR)$(PREFIX)/share/farvessel/
	install -d $(DESTDIR)$(PREFIX)/share/bash-completion/completions
	for section in 1 5 7; do install -d $(DESTDIR)$(PREFIX)/share/man/man$$section && \
	  install -m 644 $(BUILD)/man/*.$$section $(DESTDIR)$(PREFIX)/share/man/man$$section/ || exit 1; done
	$(RUN) $(PROGRAM) help completion -o $(DESTDIR)$(PREFIX)/share/bash-completion/completions/farvessel
	install -d $(DESTDIR)$(PREFIX)/share/zsh/site-functions $(DESTDIR)$(PREFIX)/share/fish/vendor_completions.d
	$(RUN) $(PROGRAM) help completion-zsh -o $(DESTDIR)$(PREFIX)/share/zsh/site-functions/_farvessel
	$(RUN) $(PROGRAM) help completion-fish -o $(DESTDIR)$(PREFIX)/share/fish/vendor_completions.d/farvessel.fish

uninstall:
	rm -f $(DESTDIR)$(PREFIX)/bin/farvessel $(DESTDIR)$(LIBDIR)/libfarvessel.* $(DESTDIR)$(LIBDIR)/pkgconfig/farvessel.pc
	rm -f $(DESTDIR)$(PREFIX)/share/man/man[157]/farvessel*.[157]
	rm -rf $(DESTDIR)$(PREFIX)/include/farvessel $(DESTDIR)$(PREFIX)/share/farvessel
	rm -f $(DESTDIR)$(PREFIX)/share/bash-completion/completions/farvessel
	rm -f $(DESTDIR)$(PREFIX)/share/zsh/site-functions/_farvessel $(DESTDIR)$(PREFIX)/share/fish/vendor_completions.d/farvessel.fish

clean:
	rm -rf build

FORMATTED = $(wildcard src/*/*.[ch] src/*/*/*.[ch] include/farvessel/*.h tests/*/*.[ch] tests/*.h)
format:
	clang-format -i $(FORMATTED)

# The source as one file, and Debian's packages; both the same to the byte each time, from one revision.
.PHONY: dist deb
dist:
	@mkdir -p build
	git archive --format=tar --prefix=farvessel-$(VERSION)/ HEAD | gzip -n9 > build/farvessel-$(VERSION).tar.gz
	@echo build/farvessel-$(VERSION).tar.gz
deb: deps
	src/package/deb.sh $(VERSION)

# Libraries to link with, for scripts.
.PHONY: print-libs fuzz coverage coverage-study analyse mutants
print-libs:
	@echo $(LDLIBS)
fuzz:
	tests/fuzz/run.sh
# Do bands cover the truth as often as they say? Twin experiments; results in reference/coverage-study.md.
TWINS ?= 200
coverage-study: $(BUILD)/tests/study/test_twins
	TWINS=$(TWINS) $<

# Line and branch coverage of all tests; static analysis; whether the tests notice equations broken on purpose.
coverage:
	tests/coverage/coverage.sh
analyse:
	tests/analyse/analyse.sh
mutants:
	tests/mutants/run.sh

lint: all
	@clang-format --dry-run --Werror $(FORMATTED)
	tests/lint/floors.sh
	tests/lint/mutants.sh
	python3 tests/lint/symbols.py $(BUILD)
