/* SPDX-License-Identifier: MIT */
#include "cli/cli.h"

#include <signal.h>

static cli_exit version(const cli_request *request)
{
    fv_text text = {0};
    fv_text_add(&text, "farvessel %s\n", FV_VERSION);
    cli_exit code = cli_deliver(request, NULL, &text);
    fv_text_free(&text);
    return code;
}

static cli_exit help(const cli_request *request, const cli_verb *verb)
{
    fv_text text = {0};
    cli_help(verb, &text);
    cli_exit code = cli_deliver(request, NULL, &text);
    fv_text_free(&text);
    return code;
}

static cli_exit run(const cli_request *request)
{
    if (request->value[OPTION_VERSION])
        return version(request);
    if (request->value[OPTION_HELP])
        return help(request, request->verb == &cli_verbs[VERB_HELP] ? NULL : request->verb);
    return request->verb->run(request);
}

int main(int argc, char **argv)
{
    cli_request request;
    signal(SIGPIPE, SIG_IGN); /* a write that fails says so */
    cli_signals_say();
    cli_exit code = cli_parse(argc, argv, &request);
    if (code == CLI_GOOD)
        code = run(&request);
    cli_request_free(&request);
    return (int)code;
}
