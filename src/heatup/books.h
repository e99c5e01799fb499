/* SPDX-License-Identifier: MIT */
/* Books of mass and heat. Private to this folder. */
#ifndef FARVESSEL_HEATUP_BOOKS_H
#define FARVESSEL_HEATUP_BOOKS_H

#include "heatup/state.h"

void heatup_books_add(heatup_run *run, double dt);
void heatup_books_mark(heatup_run *run); /* keeps the split as long as any vessel is on the steam */
void heatup_books_close(heatup_run *run);

#endif
