/* SPDX-License-Identifier: MIT */
/* Where a file that is written under some name really lands. */
#ifndef BASE_PLACE_H
#define BASE_PLACE_H

#include "farvessel/base.h"

/* "folder/name", the folder absolute and without links, the name no link; the file need not be there. malloc'ed. NULL:
 * errno says why. */
char *base_place(const char *path);

#endif
