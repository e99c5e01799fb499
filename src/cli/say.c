/* SPDX-License-Identifier: MIT */
/* What goes to stderr. */
#include "cli/cli.h"

static void say(const char *fmt, va_list args)
{
    fv_text text = {0};
    fv_text_addv(&text, fmt, args);
    fv_faults *faults = text.failed ? NULL : fv_faults_new();
    if (faults) {
        fv_error(faults, FV_ERR_INPUT, (fv_loc){"farvessel", 0}, "%s", text.text);
        cli_say_faults(faults);
    } else {
        cli_no_memory();
    }
    fv_faults_free(faults);
    fv_text_free(&text);
}

cli_exit cli_usage(const char *fmt, ...)
{
    va_list args;
    va_start(args, fmt);
    say(fmt, args);
    va_end(args);
    return CLI_INPUT;
}

cli_exit cli_failed(const char *fmt, ...)
{
    va_list args;
    va_start(args, fmt);
    say(fmt, args);
    va_end(args);
    return CLI_SYSTEM;
}

cli_exit cli_no_memory(void)
{
    fputs("farvessel: out of memory\n", stderr);
    return CLI_SYSTEM;
}

/* Bad input is told from no solution, and both from a system that failed us. */
static cli_exit exit_for(const fv_faults *faults)
{
    cli_exit code = CLI_GOOD;
    for (size_t i = 0; i < fv_faults_count(faults); i++) {
        const fv_fault *fault = fv_faults_at(faults, i);
        if (fault->caution)
            continue;
        if (fault->blame == FV_ERR_SYSTEM)
            return CLI_SYSTEM;
        if (fault->blame == FV_ERR_INPUT)
            code = CLI_INPUT;
        else if (code == CLI_GOOD)
            code = CLI_UNSOLVED;
    }
    return code;
}

cli_exit cli_say_faults(const fv_faults *faults)
{
    fv_text text = {0};
    cli_exit code = exit_for(faults);
    fv_report_faults(faults, &text);
    if (text.text && !text.failed)
        fputs(text.text, stderr);
    fv_text_free(&text);
    if (code != CLI_GOOD)
        return code;
    /* No answer, and nothing that says why: memory was too short even for the message. */
    return cli_no_memory();
}
