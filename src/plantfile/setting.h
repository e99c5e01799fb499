/* SPDX-License-Identifier: MIT */
/* "s1.bore=25 mm" taken apart, and made. */
#ifndef PLANTFILE_SETTING_H
#define PLANTFILE_SETTING_H

#include "plantfile/attributes.h"

typedef struct {
    char *path;            /* "s1"; to be freed */
    const char *attribute; /* "bore"; in `path`'s memory */
    const char *text;      /* what follows the '=', in the setting */
} plantfile_setting;

/* False: said, and there is nothing to free. */
bool plantfile_split_setting(reading *r, const char *setting, plantfile_setting *s);
/* Sets one attribute of the reading's plant. Its value, in SI; NULL for a text, and where it was refused and said. */
fv_value *plantfile_set_attribute(reading *r, const char *path, const char *name, const char *text);

#endif
