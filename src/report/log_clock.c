/* SPDX-License-Identifier: MIT */
#include "report/log_clock.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

print_shown report_log_clock(const fv_logfile *log, double time)
{
    print_shown shown = {"-"};
    char stamp[32];
    if (isinf(time))
        snprintf(shown.text, sizeof shown.text, "never");
    if (!isfinite(time))
        return shown;
    fv_logfile_stamp(log, time + 30, stamp, sizeof stamp);
    char *clock = strchr(stamp, ' ');
    char *text = clock ? clock + 1 : stamp;
    text[strlen(text) - 3] = '\0';
    snprintf(shown.text, sizeof shown.text, "%s", text);
    return shown;
}
