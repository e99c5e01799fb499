/* SPDX-License-Identifier: MIT */
/* A file's bytes as UTF-8; text as an attribute's value. */
#ifndef PLANTFILE_ENCODING_H
#define PLANTFILE_ENCODING_H

#include "farvessel/plantfile.h"

/* The file as UTF-8: `bytes` itself where it is that already, else malloc'ed memory in *made, which the caller frees.
 * NULL: an encoding that is not read, or bytes that are none of it; said in `faults`. */
const char *plantfile_utf8(const char *bytes, size_t *length, const char *name, char **made, fv_faults *faults);

/* Text as it may stand between such quotes; control characters that XML has no place for are left out. */
void plantfile_escape(const char *text, char quote, fv_text *out);

#endif
