/* SPDX-License-Identifier: MIT */
#include "report/slow_load.h"

#include "print/show.h"

void report_slow_load(const fv_vessel *vessel, fv_text *out)
{
    const bool loose = fv_word(vessel->load.packing) == FV_PACKING_LOOSE;
    const bool bed = fv_word(vessel->load.form) == FV_FORM_BED; /* steam in plenty is here what all boilers give */
    fv_text_add(out, "more than the %s allowed: only %s or more time mend that",
                print_shown_time(vessel->within.v).text,
                bed     ? "a larger boiler, less of a bed"
                : loose ? "smaller pieces"
                        : "smaller pieces, looser packing");
}
