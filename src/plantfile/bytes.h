/* SPDX-License-Identifier: MIT */
/* A file's bytes, and a first look at them before the parser sees them. */
#ifndef PLANTFILE_BYTES_H
#define PLANTFILE_BYTES_H

#include "farvessel/plantfile.h"

/* Refuses what the parser should not be shown: encodings that only few read, tags so long that checking their
 * attributes against each other would take for ever. */
bool plantfile_bytes_are_fair(const char *bytes, size_t length, const char *name, fv_faults *faults);

#endif
