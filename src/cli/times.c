/* SPDX-License-Identifier: MIT */
/* Options that are times: of day, and spans. */
#include "cli/cli.h"

#include <stdlib.h>
#include <string.h>

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

cli_exit cli_read_duration(const cli_request *request, cli_option_id option, const char *name, double *seconds)
{
    const char *text = request->value[option];
    char *why = NULL;
    cli_exit code = CLI_GOOD;
    if (!text)
        return CLI_GOOD;
    if (fv_quantity_parse(NULL, FV_DIM_TIME, text, seconds, &why) == FV_FAIL)
        code = cli_usage("--%s \"%s\": %s", name, text, why ? why : "no time");
    else if (!(*seconds > 0.0))
        code = cli_usage("--%s \"%s\": a time above 0 was expected", name, text);
    free(why);
    return code;
}
