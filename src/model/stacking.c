/* SPDX-License-Identifier: MIT */
/* "2 x 2 x 5": pieces to a brick of rows. */
#include "farvessel/model.h"

#include <stdlib.h>
#include <string.h>

enum { ROW_MOST = 1000 };

bool fv_load_rows(const fv_load *load, int n[3])
{
    const char *at = load ? load->of : NULL;
    for (int i = 0; i < 3 && at; i++) {
        char *end;
        const long count = strtol(at, &end, 10);
        if (end == at || count < 1 || count > ROW_MOST)
            return false;
        n[i] = (int)count;
        at = end + strspn(end, " ");
        if (i < 2 && *at++ != 'x')
            return false;
    }
    return at && *at == '\0';
}
