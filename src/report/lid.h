/* SPDX-License-Identifier: MIT */
/* Lids, chamber pressure and vacuum at the worst: the same table in each answer that works them out. Of fv_lid_answer.
 */
#ifndef REPORT_LID_H
#define REPORT_LID_H

#include "farvessel/lid.h"
#include "print/table.h"

extern const print_table report_lid_table;

#endif
