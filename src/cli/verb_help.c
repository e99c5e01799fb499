/* SPDX-License-Identifier: MIT */
/* help: how is a verb used? */
#include "cli/cli.h"

#include <string.h>

cli_exit cli_help_verb(const cli_request *request)
{
    const cli_verb *topic = NULL;
    for (size_t i = 0; request->operand && i < VERB_COUNT; i++)
        if (strcmp(cli_verbs[i].name, request->operand) == 0)
            topic = &cli_verbs[i];
    const bool completion = request->operand && strcmp(request->operand, "completion") == 0;
    if (request->operand && !topic && !completion)
        return cli_usage("there is no verb '%s'; `farvessel help` lists them", request->operand);
    fv_text text = {0};
    if (completion)
        cli_completion(&text);
    else
        cli_help(topic, &text);
    cli_exit code = cli_deliver(request, NULL, &text);
    fv_text_free(&text);
    return code;
}
