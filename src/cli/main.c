/* SPDX-License-Identifier: MIT */
#include "cli/cli.h"

#include <signal.h>
#include <string.h>

static cli_exit (*const verbs[VERB_COUNT])(const cli_request *request) = {
    [VERB_NEW] = cli_new,   [VERB_TRY] = cli_try,           [VERB_CHECK] = cli_check,   [VERB_FLOW] = cli_flow,
    [VERB_HEAT] = cli_heat, [VERB_WHY] = cli_why,           [VERB_SIZE] = cli_size,     [VERB_CARRY] = cli_carry,
    [VERB_PLAN] = cli_plan, [VERB_SWEEP] = cli_sweep,       [VERB_REPORT] = cli_report, [VERB_HELP] = cli_help_verb,
    [VERB_WEEK] = cli_week, [VERB_COST] = cli_cost,         [VERB_ODDS] = cli_odds,     [VERB_LOG] = cli_log,
    [VERB_FIT] = cli_fit,   [VERB_FORECAST] = cli_forecast,
};

static cli_exit run(const cli_request *request)
{
    if (request->value[OPTION_VERSION])
        return cli_version(request);
    if (request->value[OPTION_HELP])
        return cli_help_verb(request);
    return verbs[request->verb - cli_verbs](request);
}

/* The pager or the browser is begun outside the fence; try has to do with a browser all the time. */
static void enclose(cli_request *request)
{
    const char *format = request->value[OPTION_FORMAT];
    const bool pdf = format && strcmp(format, "pdf") == 0;
    const bool made = request->verb == &cli_verbs[VERB_NEW]; /* what the operand names */
    if (request->verb == &cli_verbs[VERB_TRY])
        return;
    if (pdf)
        cli_pdf_prepare(&request->helper);
    else if (!request->value[OPTION_OUTPUT] && !cli_repeats(request))
        cli_page_prepare(&request->helper);
    const char *const targets[] = {request->value[OPTION_OUTPUT], request->value[OPTION_SAVE],
                                   made ? request->operand : NULL};
    cli_fence(targets, sizeof targets / sizeof *targets, pdf ? cli_pdf_folder() : NULL);
}

int main(int argc, char **argv)
{
    cli_request request;
    signal(SIGPIPE, SIG_IGN); /* a write that fails says so */
    cli_signals_say();
    cli_exit code = cli_parse(argc, argv, &request);
    if (code == CLI_GOOD) {
        enclose(&request);
        code = run(&request);
    }
    cli_request_free(&request);
    return (int)code;
}
