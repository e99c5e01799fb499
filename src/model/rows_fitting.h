/* SPDX-License-Identifier: MIT */
/* What sits in a line: fittings from the catalogue, barbs, unions, valves, measured losses. */
#include "model/rows.h"

#define FITTING_ID ID_ROW(fv_fitting, false, "name of this piece, for actions and --set")
/* clang-format off */
#define COUNT_ROW \
    {"count", FV_DIM_COUNT, offsetof(fv_fitting, count), false, 1.0, 0.0, 1000.0, NO_OPINION, NULL, \
     "how many of them; default 1"}
#define K_ROW(required, doc) \
    {"k", FV_DIM_NUMBER, offsetof(fv_fitting, k), required, NONE, 0.0, 1e9, NO_OPINION, NULL, doc, .is = FV_COEFFICIENT}
#define NARROW_BORE(required, doc) \
    {"bore", FV_DIM_LENGTH, offsetof(fv_fitting, bore), required, NONE, BORE_LEAST, BORE_MOST, NO_OPINION, NULL, doc}
/* clang-format on */

static const fv_attr fitting_rows[] = {
    FITTING_ID,
    {"type", FV_DIM_TEXT, offsetof(fv_fitting, type), true, NONE, NO_LIMIT, NULL,
     "name in the list of fittings, such as elbow or check-valve"},
    COUNT_ROW,
    K_ROW(false, "loss coefficient of one, on the line's bore; not said: from the list of fittings"),
};

static const fv_attr barb_rows[] = {
    FITTING_ID,
    NARROW_BORE(true, "inside diameter of the barb, narrower than the hose"),
    {"length", FV_DIM_LENGTH, offsetof(fv_fitting, length), false, 0.05, 0.0, 1.0, NO_OPINION, NULL,
     "length of the narrow part; default 50 mm, common practice"},
    COUNT_ROW,
    K_ROW(false, "loss coefficient of one, on its own bore; not said: narrowing, friction and widening"),
};

static const fv_attr union_rows[] = {
    FITTING_ID,
    NARROW_BORE(true, "inside diameter of the union or coupling"),
    {"length", FV_DIM_LENGTH, offsetof(fv_fitting, length), false, 0.03, 0.0, 1.0, NO_OPINION, NULL,
     "length of the narrow part; default 30 mm, common practice"},
    COUNT_ROW,
    K_ROW(false, "loss coefficient of one, on its own bore; not said: narrowing, friction and widening"),
};

static const fv_attr valve_rows[] = {
    FITTING_ID,
    {"type", FV_DIM_TEXT, offsetof(fv_fitting, type), false, NONE, NO_LIMIT, NULL,
     "name in the list of fittings; it gives the loss of the open valve and how it closes; not said: ball-valve",
     .is = FV_NAMED},
    NARROW_BORE(false, "that `k` refers to; not said: the line's"),
    {"kv", FV_DIM_FLOW_COEFFICIENT, offsetof(fv_fitting, kv), false, NONE, 1e-6, 1e6, NO_OPINION, NULL,
     "flow coefficient wide open, m3/h of water at 1 bar; not said: from k or the type", .is = FV_COEFFICIENT},
    K_ROW(false, "loss coefficient wide open; not said: from kv or the type"),
    {"open", FV_DIM_FRACTION, offsetof(fv_fitting, open), false, 1.0, 0.0, 1.0, NO_OPINION, NULL,
     "how far it is open; default wide open"},
};

static const fv_attr loss_rows[] = {
    FITTING_ID,
    K_ROW(true, "loss coefficient"),
    NARROW_BORE(false, "that it refers to; not said: the line's"),
    COUNT_ROW,
};
