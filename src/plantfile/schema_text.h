/* SPDX-License-Identifier: MIT */
/* networks/network.xsd as bytes, made by the Makefile. */
#ifndef PLANTFILE_SCHEMA_TEXT_H
#define PLANTFILE_SCHEMA_TEXT_H

#include <stddef.h>

extern const unsigned char fv_schema_text[];
extern const size_t fv_schema_length;

#endif
