/* SPDX-License-Identifier: MIT */
#include "report/lid.h"

#include "print/fields.h"

static const fv_lid_answer *of(const void *answer)
{
    return answer;
}
ROWS(rows, of(answer)->plant->vessel_count)
ROW(row, &of(answer)->vessels[i])
ROW(vessel, of(answer)->plant->vessels[i])

static const char *found(const void *answer, size_t i, char *buffer)
{
    static const char *const words[] = {"shut", "as_its_kind", "wide_enough", "no_balance", "worked_out"};
    (void)buffer;
    return words[of(answer)->vessels[i].found];
}

#define N(member, unit) NUMBER(fv_lid_row, #member, member, unit, IN_DATA, FV_SHOW_NUMBER)
static const print_field fields[] = {
    PART_TEXT(fv_vessel, "vessel", part.id, IN_DATA),
    WORD("found", IN_DATA, found),
    FLAG(fv_lid_row, "vent_too_small", vent_too_small, IN_DATA),
    FLAG(fv_lid_row, "air_too_little", air_too_little, IN_DATA),
    N(steam, "_kg_s"),
    N(pressure, "_pa_gauge"),
    N(lifts, "_kg_m2"),
    N(vent, "_m"),
    N(vanishes, "_m3_s"),
    N(let_in, "_m3_s"),
    N(vacuum, "_pa"),
    N(breaker, "_m"),
};

const print_table report_lid_table = {"lids", FIELDS(fields), rows, row, vessel};
