/* SPDX-License-Identifier: MIT */
/* Tables of text whose rows fit the terminal whatever the names are. */
#include "report/page.h"

#include "farvessel/report.h"

#include <stdlib.h>
#include <string.h>

enum { MOST_COLUMNS = 16, LEAST_WIDTH = 6, INDENT = 2 };

struct report_grid {
    const report_grid_column *columns;
    size_t column_count;
    fv_arena *arena;
    char **cells;
    size_t cell_count, capacity;
    bool failed;
};

report_grid *report_grid_new(const report_grid_column *columns, size_t count)
{
    report_grid *grid = count <= MOST_COLUMNS ? calloc(1, sizeof *grid) : NULL;
    if (!grid)
        return NULL;
    grid->columns = columns;
    grid->column_count = count;
    grid->arena = fv_arena_new();
    grid->failed = !grid->arena;
    return grid;
}

void report_grid_free(report_grid *grid)
{
    if (!grid)
        return;
    fv_arena_free(grid->arena);
    free(grid->cells);
    free(grid);
}

void report_grid_add(report_grid *grid, const char *text)
{
    if (!grid || grid->failed)
        return;
    void *cells = grid->cells;
    char *copy = fv_arena_copy(grid->arena, text);
    grid->failed = !copy || !fv_grow(&cells, &grid->capacity, grid->cell_count + 1, sizeof(char *));
    if (grid->failed)
        return;
    grid->cells = cells;
    grid->cells[grid->cell_count++] = copy;
}

static size_t heading_lines(const char *name)
{
    size_t lines = 1;
    for (; *name; name++)
        lines += *name == '_';
    return lines;
}

/* Line `line` of a name whose words are joined by '_'. */
static const char *heading_word(const char *name, size_t line, size_t *length)
{
    for (; line > 0; line--)
        name = strchr(name, '_') + 1;
    *length = strcspn(name, "_");
    return name;
}

static size_t text_width(const char *text)
{
    return report_columns(text, strlen(text));
}

static size_t natural_width(const report_grid *grid, size_t column)
{
    size_t width = text_width(grid->columns[column].unit), length;
    for (size_t line = 0; line < heading_lines(grid->columns[column].name); line++) {
        heading_word(grid->columns[column].name, line, &length);
        width = length > width ? length : width;
    }
    for (size_t i = column; i < grid->cell_count; i += grid->column_count) {
        length = text_width(grid->cells[i]);
        width = length > width ? length : width;
    }
    return width;
}

/* Widths that fit; returns the space between columns. */
static size_t fit(const report_grid *grid, size_t width[MOST_COLUMNS])
{
    size_t n = grid->column_count, total = INDENT, gap = 2;
    for (size_t i = 0; i < n; i++)
        total += width[i] = natural_width(grid, i);
    if (total + gap * (n - 1) > FV_REPORT_WIDTH)
        gap = 1;
    total += gap * (n - 1);
    while (total > FV_REPORT_WIDTH) {
        size_t widest = n;
        for (size_t i = 0; i < n; i++)
            if (grid->columns[i].left && width[i] > LEAST_WIDTH && (widest == n || width[i] > width[widest]))
                widest = i;
        if (widest == n)
            break; /* only numbers left, and they are never cut */
        width[widest]--;
        total--;
    }
    return gap;
}

/* Text in exactly `width` columns. Names are cut in the middle, since those in a row differ at their ends; words with
 * blanks at their end. */
static void put(fv_text *out, const char *text, size_t bytes, size_t width, bool left)
{
    size_t columns = report_columns(text, bytes);
    if (columns > width) {
        size_t tail = memchr(text, ' ', bytes) ? 0 : (width - 2) / 2, head = width - 2 - tail,
               resume = report_bytes(text, columns - tail);
        fv_text_add(out, "%.*s..%.*s", (int)report_bytes(text, head), text, (int)(bytes - resume), text + resume);
        return;
    }
    int pad = (int)(width - columns);
    fv_text_add(out, "%*s%.*s%*s", left ? 0 : pad, "", (int)bytes, text, left ? pad : 0, "");
}

/* Drops the blanks that the last column left. */
static void end_row(fv_text *out)
{
    while (!out->failed && out->length > 0 && out->text[out->length - 1] == ' ')
        out->text[--out->length] = '\0';
    fv_text_add(out, "\n");
}

static void print_heading(const report_grid *grid, const size_t *width, size_t gap, fv_text *out)
{
    size_t lines = 0;
    bool units = false;
    for (size_t i = 0; i < grid->column_count; i++) {
        size_t own = heading_lines(grid->columns[i].name);
        lines = own > lines ? own : lines;
        units = units || grid->columns[i].unit[0];
    }
    for (size_t line = 0; line < lines + units; line++) {
        fv_text_add(out, "%*s", INDENT, "");
        for (size_t i = 0; i < grid->column_count; i++) {
            size_t own = heading_lines(grid->columns[i].name), above = lines - own, length = 0;
            const char *word = "";
            if (line == lines)
                length = strlen(word = grid->columns[i].unit);
            else if (line >= above)
                word = heading_word(grid->columns[i].name, line - above, &length);
            put(out, word, length, width[i], grid->columns[i].left);
            fv_text_add(out, "%*s", i + 1 < grid->column_count ? (int)gap : 0, "");
        }
        end_row(out);
    }
}

void report_grid_print(const report_grid *grid, fv_text *out)
{
    if (!grid || grid->failed) {
        out->failed = true;
        return;
    }
    size_t width[MOST_COLUMNS] = {0}, gap = fit(grid, width);
    print_heading(grid, width, gap, out);
    for (size_t i = 0; i < grid->cell_count; i++) {
        size_t column = i % grid->column_count;
        fv_text_add(out, "%*s", column == 0 ? INDENT : (int)gap, "");
        put(out, grid->cells[i], strlen(grid->cells[i]), width[column], grid->columns[column].left);
        if (column + 1 == grid->column_count)
            end_row(out);
    }
}
