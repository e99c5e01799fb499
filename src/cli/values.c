/* SPDX-License-Identifier: MIT */
/* Values of options: times, shares, counts and other quantities. Each is left alone where it is not given. */
#include "cli/cli.h"

#include <stdlib.h>
#include <string.h>
#include <strings.h>

/* "06:30", "6:30 am", "6 pm". */
static bool read_time(const char *text, double *seconds, bool *twelve)
{
    int hour = -1, minute = 0, used = 0;
    if (sscanf(text, "%2d%n", &hour, &used) != 1 || hour < 0)
        return false;
    text += used;
    bool minutes = text[0] == ':';
    if (minutes && (strspn(text + 1, "0123456789") != 2 || sscanf(text + 1, "%2d", &minute) != 1))
        return false;
    text += minutes ? 3 : 0;
    text += strspn(text, " ");
    bool am = strcmp(text, "am") == 0, pm = strcmp(text, "pm") == 0;
    *twelve = am || pm;
    if (*twelve ? hour < 1 || hour > 12 : !minutes || text[0] || hour > 23)
        return false;
    if (*twelve)
        hour = hour % 12 + (pm ? 12 : 0);
    *seconds = 3600.0 * hour + 60.0 * minute;
    return minute < 60;
}

cli_exit cli_read_start(const cli_request *request, double *clock, bool *twelve_hours)
{
    const char *text = request->value[OPTION_START];
    if (text && !read_time(text, clock, twelve_hours))
        return cli_usage("--start \"%s\": a time of day such as 06:30 or \"6:30 am\" was expected", text);
    return CLI_GOOD;
}

cli_exit cli_read_by(const cli_request *request, double *clock, bool *twelve_hours)
{
    const char *text = request->value[OPTION_BY];
    if (text && !read_time(text, clock, twelve_hours))
        return cli_usage("--by \"%s\": a time of day such as 12:00 or \"12:00 pm\" was expected", text);
    return CLI_GOOD;
}

cli_exit cli_read_day_time(const cli_request *request, double *seconds, const char **clock)
{
    static const char *const days[] = {"mon", "tue", "wed", "thu", "fri", "sat", "sun"};
    const char *text = request->value[OPTION_AT];
    bool twelve;
    for (size_t d = 0; d < 7; d++)
        if (strncasecmp(text, days[d], 3) == 0 && text[3] == ' ' && read_time(text + 4, seconds, &twelve)) {
            *seconds += 86400.0 * (double)d;
            *clock = text + 4;
            return CLI_GOOD;
        }
    return cli_usage("--at \"%s\": a day and a time such as \"wed 14:00\" was expected", text);
}

/* The option's name, as usage messages call it. */
static const char *name_of(cli_option_id id)
{
    size_t count;
    const cli_option *options = cli_options(&count);
    while (count > 1 && options->id != id)
        options++, count--;
    return options->name;
}

static cli_exit read_quantity(const cli_request *request, cli_option_id option, fv_dim dim, double *value)
{
    char *why = NULL;
    cli_exit code = CLI_GOOD;
    if (fv_quantity_parse(NULL, dim, request->value[option], value, &why) == FV_FAIL)
        code = cli_usage("--%s \"%s\": %s", name_of(option), request->value[option], why ? why : "that cannot be read");
    free(why);
    return code;
}

cli_exit cli_read_positive(const cli_request *request, cli_option_id option, fv_dim dim, double *value)
{
    if (!request->value[option])
        return CLI_GOOD;
    cli_exit code = read_quantity(request, option, dim, value);
    if (code == CLI_GOOD && !(*value > 0.0))
        code = cli_usage("--%s \"%s\": a %s above 0 was expected", name_of(option), request->value[option],
                         dim == FV_DIM_TIME ? "time" : "value");
    return code;
}

cli_exit cli_read_fire(const cli_request *request, double *fire)
{
    const char *text = request->value[OPTION_FIRE];
    if (!text)
        return CLI_GOOD;
    cli_exit code = read_quantity(request, OPTION_FIRE, FV_DIM_FRACTION, fire);
    if (code == CLI_GOOD && (*fire < 0.0 || *fire > 1.0))
        code = cli_usage("--fire \"%s\": a share from 0 to 100 %% of the boiler's own setting was expected", text);
    return code;
}

cli_exit cli_read_whole(const cli_request *request, cli_option_id option, double least, double most, double *value)
{
    const char *text = request->value[option];
    if (text &&
        (fv_quantity_parse(NULL, FV_DIM_COUNT, text, value, NULL) == FV_FAIL || *value < least || *value > most))
        return cli_usage("--%s \"%s\": a whole number from %.0f to %.0f was expected", name_of(option), text, least,
                         most);
    return CLI_GOOD;
}

cli_exit cli_read_count(const cli_request *request, cli_option_id option, size_t most, size_t *count)
{
    double value = (double)*count;
    const cli_exit code = cli_read_whole(request, option, 0.0, (double)most, &value);
    if (code == CLI_GOOD)
        *count = (size_t)value;
    return code;
}

cli_exit cli_read_seed(const cli_request *request, unsigned long *seed)
{
    double value = (double)*seed;
    const cli_exit code = cli_read_whole(request, OPTION_SEED, 0, 4294967295.0, &value);
    *seed = (unsigned long)value;
    return code;
}

cli_exit cli_read_runs(const cli_request *request, size_t *runs)
{
    double value = (double)*runs;
    const cli_exit code = cli_read_whole(request, OPTION_RUNS, 64, 1 << 20, &value);
    *runs = (size_t)(value / FV_ODDS_SETS + 0.5) * FV_ODDS_SETS;
    return code;
}

cli_exit cli_read_threads(const cli_request *request, size_t *threads)
{
    enum { THREADS_MOST = 64 };
    return cli_read_count(request, OPTION_THREADS, THREADS_MOST, threads);
}
