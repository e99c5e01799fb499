/* SPDX-License-Identifier: MIT */
#include "datafile/reader.h"

void datafile_say(datafile_reader *r, fv_err_class blame, int line, const char *fmt, ...)
{
    fv_text text = {0};
    va_list args;
    va_start(args, fmt);
    fv_text_addv(&text, fmt, args);
    va_end(args);
    fv_error(r->faults, blame, (fv_loc){r->log->file, line}, "%s", text.text ? text.text : "out of memory");
    fv_text_free(&text);
    r->failed = true;
}
