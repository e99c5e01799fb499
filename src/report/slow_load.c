/* SPDX-License-Identifier: MIT */
#include "report/slow_load.h"

#include "print/show.h"

void report_slow_load(const fv_vessel *vessel, fv_text *out)
{
    const bool loose = fv_word(vessel->load.packing) == FV_PACKING_LOOSE;
    fv_text_add(out, "more than the %s allowed: only smaller pieces%s or more time mend that",
                print_shown_time(vessel->within.v).text, loose ? "" : ", looser packing");
}
