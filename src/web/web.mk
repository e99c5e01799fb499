# SPDX-License-Identifier: MIT
# The desk as WebAssembly, for `make web`: one script that the live page carries, from our own code and the parts of
# Debian's libraries that it calls. Objects and sources stay in $(WEB), so a second run compiles what is new alone.

WEB = build/web
FROM = $(WEB)/from
EMCC = emcc
# Where Debian keeps the modules of its emcc; a node of another make does not look there.
export NODE_PATH = /usr/share/nodejs
FLAGS = -O2 -ffp-contract=off -w -I$(WEB)/include -I$(FROM)/jansson/src -I$(FROM)/libxml2/include \
  $(patsubst %,-I$(FROM)/suitesparse/%,SuiteSparse_config KLU/Include AMD/Include COLAMD/Include BTF/Include)
# Without the command line, sockets, loggers' files and the database of units.
OWN := $(filter-out src/units/database.c,$(wildcard $(foreach floor,base units num props flow heat model plantfile steady \
  heatup study print report page desk web,src/$(floor)/*.c src/$(floor)/*/*.c))) src/datafile/label.c
GENERATED = $(addprefix build/gen/,sat_table.c page_embedded.c network_xsd.c)

GSL = err/error err/stream sys/coerce sys/fdiv sys/infnan sys/pow_int vector/init vector/copy vector/vector vector/view \
  vector/subvector vector/oper matrix/init matrix/copy matrix/matrix matrix/view matrix/submatrix matrix/rowcol \
  matrix/oper matrix/swap block/init \
  $(addprefix specfunc/,airy airy_der airy_zero bessel bessel_J0 bessel_J1 bessel_amp_phase bessel_olver bessel_temme \
  bessel_Jn bessel_zero elementary exp gamma hermite legendre_poly log poch pow_int psi trig zeta) roots/brent \
  roots/convergence roots/fsolver $(addprefix linalg/,cholesky hh householder rqr symmtd trimult) eigen/symmv cdf/gauss \
  cdf/gaussinv randist/gausszig randist/shuffle rng/inline rng/mt rng/rng qrng/inline qrng/qrng qrng/sobol \
  statistics/mean statistics/median statistics/variance blas/blas $(addprefix cblas/,dasum daxpy dcopy ddot dgemm dgemv \
  dger dnrm2 dscal dsymv dsyr2 dsyrk dtrmm dtrsm dtrsv idamax xerbla)
XML = buf chvalid dict encoding entities error globals hash list parser parserInternals SAX2 threads tree uri valid xmlIO \
  xmlmemory xmlsave xmlstring xmlwriter
JANSSON = dump error hashtable hashtable_seed load memory pack_unpack strbuffer strconv utf value
KLU = $(addprefix klu,_analyze _analyze_given _defaults _free_symbolic _memory _diagnostics _factor _free_numeric _kernel \
  _refactor _scale _solve _tsolve) klu
AMD = $(addprefix amd_,1 2 aat order post_tree postorder preprocess valid defaults control info)
BTF = btf_maxtrans btf_order btf_strongcomp
THEIRS = $(GSL:%=gsl/%) $(XML:%=libxml2/%) $(JANSSON:%=jansson/src/%) $(KLU:%=suitesparse/KLU/Source/%) \
  $(AMD:%=suitesparse/AMD/Source/%) $(BTF:%=suitesparse/BTF/Source/%) suitesparse/COLAMD/Source/colamd \
  suitesparse/SuiteSparse_config/SuiteSparse_config
OBJECTS = $(OWN:%.c=$(WEB)/%.o) $(GENERATED:build/%.c=$(WEB)/%.o) $(THEIRS:%=$(FROM)/%.o)

$(WEB)/live.js: $(OBJECTS) src/web/unpack.js src/web/worker.js src/web/web.mk
	@echo "link $@"
	@$(EMCC) $(FLAGS) $(OBJECTS) --post-js src/web/worker.js -sFILESYSTEM=0 -sALLOW_MEMORY_GROWTH=1 -sENVIRONMENT=worker \
	  -sEXPORTED_FUNCTIONS=_web_begin,_web_ask -sEXPORTED_RUNTIME_METHODS=ccall -o $(WEB)/engine.js
	@gzip -9n -c $(WEB)/engine.wasm >$(WEB)/engine.gz
	@{ printf "var packed='" && base64 -w 0 $(WEB)/engine.gz && echo "';" && \
	  cat src/web/unpack.js $(WEB)/engine.js; } >$@.part && mv $@.part $@

-include $(wildcard $(WEB)/*/*/*/*.d $(WEB)/*/*/*.d)
$(WEB)/src/%.o: src/%.c
	@mkdir -p $(@D)
	@echo "emcc $<"
	@$(EMCC) $(FLAGS) -std=c11 -D_POSIX_C_SOURCE=200809L -Iinclude -Isrc -MMD -MP -MT $@ -MF $@.d -c $< -o $@
$(WEB)/gen/%.o: build/gen/%.c
	@mkdir -p $(@D)
	@$(EMCC) $(FLAGS) -std=c11 -Iinclude -Isrc -c $< -o $@
# What is read once, or asked for at a press, is small rather than quick.
SMALL = $(foreach floor,study report print page desk plantfile model units,$(WEB)/src/$(floor)/%.o)
$(SMALL) $(FROM)/libxml2/%.o $(FROM)/jansson/%.o: FLAGS += -Os
$(FROM)/suitesparse/AMD/%.o: FLAGS += -DDINT
$(FROM)/gsl/%.o: FLAGS += -I$(FROM)/gsl
$(FROM)/jansson/%.o: FLAGS += -DHAVE_CONFIG_H
$(FROM)/%.o: $(FROM)/%.c
	@echo "emcc $<"
	@$(EMCC) $(FLAGS) -I$(WEB)/include -c $< -o $@
