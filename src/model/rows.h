/* SPDX-License-Identifier: MIT */
/* How the tables of attributes are written: rows_*.h, each included once, by schema.c. A row reads
 *   {name, dimension, place, required, default, least, most, low, high, words, doc, .is = flags}
 * Refused outside least..most, cautioned outside low..high, all in SI. The doc line ends with the source of the
 * default and of the limits where there is one; `common practice` where there is none. */
#ifndef MODEL_ROWS_H
#define MODEL_ROWS_H

#include "farvessel/constants.h"
#include "model/schema.h"

#include <math.h>

#define NONE NAN                        /* no default, no limit */
#define NO_LIMIT NONE, NONE, NONE, NONE /* for texts and words */
#define NO_OPINION NONE, NONE           /* low and high */
#define YEAR (366.0 * 86400.0)          /* s */
#define CELSIUS(t) ((t) + FV_CELSIUS)
#define BORE_LEAST 0.001 /* m; a bore under a millimetre or over a metre is a slip of the pen */
#define BORE_MOST 1.0    /* m */

/* Every part may have an id and may take after another. */
/* clang-format off */
#define ID_ROW(type, required, doc) \
    {"id", FV_DIM_ID, offsetof(type, part.id), required, NONE, NO_LIMIT, NULL, doc}
#define LIKE_ROW(type, doc) \
    {"like", FV_DIM_ID, offsetof(type, part.like), false, NONE, NO_LIMIT, NULL, doc}
/* clang-format on */

#endif
