/* SPDX-License-Identifier: MIT */
#ifndef STUDY_COST_MONEY_H
#define STUDY_COST_MONEY_H

#include "farvessel/cost.h"

/* The price of something in <work>; NULL: not said. */
const fv_price *cost_price(const fv_plant *plant, fv_price_kind what);
/* Money for `amount` of an item, in the units of fv_cost_row; NaN: no price. */
double cost_money(const fv_plant *plant, fv_cost_item item, double amount);
/* What treated medium is worth; NaN: no price. */
double cost_worth(const fv_plant *plant, double kg, size_t pieces);
/* The wage for an hour: the mean of all hours of all rows of crew; NaN: one of them is not said, or there is none. */
double cost_wage(const fv_plant *plant);

#endif
