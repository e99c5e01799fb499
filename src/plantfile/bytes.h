/* SPDX-License-Identifier: MIT */
/* A first look at a file before the parser sees it. */
#ifndef PLANTFILE_BYTES_H
#define PLANTFILE_BYTES_H

#include "farvessel/plantfile.h"

enum { PLANTFILE_TAG_MOST = 8192 }; /* characters of a tag */

/* Refuses what the parser should not be shown: tags so long that checking their attributes against each other would
 * take for ever. `bytes` is UTF-8. */
bool plantfile_bytes_are_fair(const char *bytes, size_t length, const char *name, fv_faults *faults);

#endif
