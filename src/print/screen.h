/* SPDX-License-Identifier: MIT */
/* Text for an 80-column terminal: headings, wrapped paragraphs, and grids whose rows never wrap. */
#ifndef PRINT_PAGE_H
#define PRINT_PAGE_H

#include "farvessel/base.h"
#include "farvessel/units.h"

void print_section(fv_text *out, const char *title);
/* Words wrapped at FV_REPORT_WIDTH; the first line starts with `lead`, the others are indented as far. */
void print_paragraph(fv_text *out, const char *lead, const char *text);

/* The same for text that was put together; releases it. */
void print_say(fv_text *out, const char *lead, fv_text *line);
void print_sayf(fv_text *out, const char *lead, const char *fmt, ...) FV_PRINTF(3, 4);

/* Columns on the terminal that `bytes` of UTF-8 text take, one for each code point. */
size_t print_columns(const char *text, size_t bytes);
/* Bytes that the first `columns` columns of `text` take. */
size_t print_bytes(const char *text, size_t columns);

typedef struct {
    const char *name; /* words joined by '_' stand below each other in the heading */
    const char *unit; /* last line of the heading, or "" */
    bool left;        /* words; numbers stand right */
} print_grid_column;

typedef struct print_grid print_grid;
/* The columns must outlive the grid. NULL when memory is out; the functions below accept that. */
print_grid *print_grid_new(const print_grid_column *columns, size_t count);
void print_grid_free(print_grid *grid);
/* The next cell, row after row. */
void print_grid_add(print_grid *grid, const char *text);
void print_grid_addf(print_grid *grid, const char *fmt, ...) FV_PRINTF(2, 3);
/* A number as fv_show_number has it, without its unit. */
void print_grid_show(print_grid *grid, fv_unit_system units, fv_show show, double si);
/* Prints all, cuts the widest columns of words in their middle where a row would be too long, and frees the grid. */
void print_grid_print(print_grid *grid, fv_text *out);
/* The same under a heading. */
void print_grid_section(print_grid *grid, const char *title, fv_text *out);

#endif
