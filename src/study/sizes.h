/* SPDX-License-Identifier: MIT */
/* Sizes that can be bought: those of the stock list, else the common ones. */
#ifndef STUDY_SIZES_H
#define STUDY_SIZES_H

#include "farvessel/model.h"

typedef struct {
    double size;  /* m; of a boiler: W */
    double price; /* NaN: not known */
    bool from_stock;
    double conductivity; /* of lagging, W/m/K; NaN: not said */
} study_size;

/* The `step`-th size above (step 1, 2, ...) or below (-1, -2, ...) `than`. False: there is none. */
bool study_size_next(const fv_plant *plant, fv_stock_kind kind, double than, int step, study_size *found);
/* All of them into `list` (NULL: only counted); returns how many. */
size_t study_sizes(const fv_plant *plant, fv_stock_kind kind, study_size *list);
/* Whether the plant is measured, and so bought for, in inches. */
bool study_is_us(const fv_plant *plant);
/* The stock list has none, so that the common ones stand for it. */
bool study_sizes_are_common(const fv_plant *plant, fv_stock_kind kind);
/* Price of that very size in the stock; NaN: not known. */
double study_size_price(const fv_plant *plant, fv_stock_kind kind, double size);

#endif
