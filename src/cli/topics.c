/* SPDX-License-Identifier: MIT */
/* What `farvessel help` tells beside the verbs. A new topic is one row and what writes it. */
#include "cli/cli.h"

#include "farvessel/plantfile.h"

static void limits(fv_text *out)
{
    const char *what;
    size_t most;
    fv_text_add(out, "What a plant file may hold at most, so that any file is answered at once\n\n");
    for (size_t i = 0; fv_plantfile_limit_at(NULL, i, &what, &most); i++)
        fv_text_add(out, "%10zu  %s\n", most, what);
}

const cli_topic cli_topics[] = {
    {"completion", "makes completion for bash", cli_completion},
    {"limits", "tells how much a plant file may hold", limits},
    {NULL, NULL, NULL},
};
