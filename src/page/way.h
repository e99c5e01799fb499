/* SPDX-License-Identifier: MIT */
/* The way that the steam takes to a vessel, at one moment. */
#ifndef PAGE_WAY_H
#define PAGE_WAY_H

#include "page/view.h"

typedef enum { WAY_HOLES, WAY_SAG, WAY_LINE } page_way_kind;

/* A fall of pressure, against the way: from the vessel back to the boiler. */
typedef struct {
    page_way_kind kind;
    int line;             /* -1: the vessel's own coil and holes */
    double before, after; /* Pa gauge, the way the steam goes */
    double length;        /* m from the vessel to where it begins */
} page_way_step;

typedef struct {
    page_way_step *steps;
    size_t count;
    double length; /* m, all of it */
} page_way;

/* False: out of memory. Free it in any case. */
bool page_way_make(const page_view *v, size_t vessel, page_way *w);
void page_way_free(page_way *w);

#endif
