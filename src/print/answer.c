/* SPDX-License-Identifier: MIT */
/* How an answer is to be printed where nobody says otherwise, and what was wrong with the input, in lines. */
#include "farvessel/print.h"

#include "print/safe.h"

#include <math.h>

void fv_report_defaults(fv_report_options *options)
{
    if (!options)
        return;
    *options = (fv_report_options){.format = FV_REPORT_TEXT, .units = FV_METRIC, .table = NULL, .clock = (double)NAN};
}

void fv_report_faults(const fv_faults *faults, fv_text *out)
{
    for (size_t i = 0; i < fv_faults_count(faults); i++) {
        const fv_fault *fault = fv_faults_at(faults, i);
        if (fault->file)
            print_safe(fault->file, out);
        if (fault->file && fault->line > 0)
            fv_text_add(out, ":%d", fault->line);
        fv_text_add(out, "%s%s", fault->file ? ": " : "", fault->caution ? "caution: " : "");
        print_safe(fault->text, out);
        fv_text_add(out, "\n");
    }
    if (fv_faults_errors(faults) > 0 && fv_faults_count(faults) == 0)
        fv_text_add(out, "out of memory\n");
}
