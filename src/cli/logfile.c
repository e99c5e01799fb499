/* SPDX-License-Identifier: MIT */
/* The logger's file that a verb works on, and what is said beside it. */
#include "cli/cli.h"

#include "farvessel/datafile.h"

static int word_of(const cli_request *request, cli_option_id option, const char *words)
{
    return request->value[option] ? fv_word_find(words, request->value[option]) + 1 : 0;
}

cli_exit cli_read_datafile(const cli_request *request, fv_datafile_options *options)
{
    fv_datafile_defaults(options);
    options->dates = (fv_dates)word_of(request, OPTION_DATES, FV_DATES_WORDS);
    options->unit = (fv_log_unit)word_of(request, OPTION_UNIT, FV_LOG_UNIT_WORDS);
    options->clock = (fv_clock_change)word_of(request, OPTION_CLOCK, FV_CLOCK_WORDS);
    options->times = (fv_times)word_of(request, OPTION_TIMES, FV_TIMES_WORDS);
    return cli_read_positive(request, OPTION_INTERVAL, FV_DIM_TIME, &options->interval);
}
