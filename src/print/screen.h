/* SPDX-License-Identifier: MIT */
/* Text for an 80-column terminal: headings, wrapped paragraphs, and grids whose rows never wrap. */
#ifndef REPORT_PAGE_H
#define REPORT_PAGE_H

#include "farvessel/base.h"

void report_heading(fv_text *out, const char *title);
/* Words wrapped at FV_REPORT_WIDTH; the first line starts with `lead`, the others are indented as far. */
void report_paragraph(fv_text *out, const char *lead, const char *text);

/* The same for text that was put together; releases it. */
void report_say(fv_text *out, const char *lead, fv_text *line);
void report_sayf(fv_text *out, const char *lead, const char *fmt, ...) FV_PRINTF(3, 4);

/* Columns on the terminal that `bytes` of UTF-8 text take, one for each code point. */
size_t report_columns(const char *text, size_t bytes);
/* Bytes that the first `columns` columns of `text` take. */
size_t report_bytes(const char *text, size_t columns);

typedef struct {
    const char *name; /* words joined by '_' stand below each other in the heading */
    const char *unit; /* last line of the heading, or "" */
    bool left;        /* words; numbers stand right */
} report_grid_column;

typedef struct report_grid report_grid;
/* The columns must outlive the grid. NULL when memory is out; the functions below accept that. */
report_grid *report_grid_new(const report_grid_column *columns, size_t count);
void report_grid_free(report_grid *grid);
/* The next cell, row after row. */
void report_grid_add(report_grid *grid, const char *text);
/* Prints all and cuts the widest columns of words in their middle where a row would be too long. */
void report_grid_print(const report_grid *grid, fv_text *out);

#endif
