/* SPDX-License-Identifier: MIT */
/* networks/network.xsd as bytes, made by the Makefile. */
#ifndef PLANTFILE_SCHEMA_TEXT_H
#define PLANTFILE_SCHEMA_TEXT_H

#include <stddef.h>

extern const unsigned char plantfile_schema_text[];
extern const size_t plantfile_schema_length;

#endif
