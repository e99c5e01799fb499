/* SPDX-License-Identifier: MIT */
/* Tables of text whose rows fit the terminal whatever the names are. */
#include "print/screen.h"
#include "print/safe.h"
#include "print/table.h"

#include "farvessel/print.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

enum { MOST_COLUMNS = 16, LEAST_WIDTH = 6, INDENT = 2 };

struct print_grid {
    const print_grid_column *columns;
    size_t column_count;
    fv_arena *arena;
    char **cells;
    size_t cell_count, capacity;
    bool failed;
};

print_grid *print_grid_new(const print_grid_column *columns, size_t count)
{
    print_grid *grid = count <= MOST_COLUMNS ? calloc(1, sizeof *grid) : NULL;
    if (!grid)
        return NULL;
    grid->columns = columns;
    grid->column_count = count;
    grid->arena = fv_arena_new();
    grid->failed = !grid->arena;
    return grid;
}

void print_grid_free(print_grid *grid)
{
    if (!grid)
        return;
    fv_arena_free(grid->arena);
    free(grid->cells);
    free(grid);
}

void print_grid_add(print_grid *grid, const char *text)
{
    if (!grid || grid->failed)
        return;
    void *cells = grid->cells;
    fv_text safe = {0};
    print_safe(text, &safe);
    char *copy = safe.failed ? NULL : fv_arena_copy(grid->arena, safe.text);
    fv_text_free(&safe);
    grid->failed =
        !copy || text == print_no_memory || !fv_grow(&cells, &grid->capacity, grid->cell_count + 1, sizeof(char *));
    if (grid->failed)
        return;
    grid->cells = cells;
    grid->cells[grid->cell_count++] = copy;
}

void print_grid_addf(print_grid *grid, const char *fmt, ...)
{
    fv_text text = {0};
    va_list args;
    va_start(args, fmt);
    fv_text_addv(&text, fmt, args);
    va_end(args);
    if (grid && text.failed)
        grid->failed = true;
    print_grid_add(grid, text.text ? text.text : "");
    fv_text_free(&text);
}

void print_grid_show(print_grid *grid, fv_unit_system units, fv_show show, double si)
{
    enum { SIZE = 64 };
    char number[SIZE];
    print_grid_add(grid, fv_show_number(units, show, si, number, sizeof number));
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
    return print_columns(text, strlen(text));
}

static size_t natural_width(const print_grid *grid, size_t column)
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
static size_t fit(const print_grid *grid, size_t width[MOST_COLUMNS])
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

/* Bytes that the cells to be cut have in common at their beginning, and at their end beyond that. */
typedef struct {
    size_t before, after;
} shared_ends;

static size_t least(size_t a, size_t b)
{
    return a < b ? a : b;
}

static bool is_inside_letter(char byte)
{
    return ((unsigned char)byte & 0xC0u) == 0x80u;
}

static shared_ends find_shared(const print_grid *grid, size_t column, size_t width)
{
    const char *first = NULL;
    shared_ends ends = {0, 0};
    size_t shortest = SIZE_MAX;
    for (size_t i = column; i < grid->cell_count; i += grid->column_count) {
        const char *cell = grid->cells[i];
        if (text_width(cell) <= width)
            continue;
        size_t own = strlen(cell), length, n = 0;
        if (!first) {
            first = cell;
            ends = (shared_ends){own, own};
        }
        length = strlen(first);
        while (n < least(ends.before, own) && cell[n] == first[n])
            n++;
        ends.before = n;
        for (n = 0; n < least(ends.after, own) && cell[own - 1 - n] == first[length - 1 - n];)
            n++;
        ends.after = n;
        shortest = least(shortest, own);
    }
    ends.after = least(ends.after, shortest - least(shortest, ends.before));
    /* Whole letters only. */
    while (first && ends.before > 0 && is_inside_letter(first[ends.before]))
        ends.before--;
    while (first && ends.after > 0 && is_inside_letter(first[strlen(first) - ends.after]))
        ends.after--;
    return ends;
}

/* A name too long for its column, so cut that what tells it from its neighbours stays: "north-h..17-of-the-..". */
static void cut_name(const char *name, size_t width, shared_ends shared, fv_text *out)
{
    size_t bytes = strlen(name), core_bytes = bytes - shared.before - shared.after;
    size_t core = print_columns(name + shared.before, core_bytes), before = print_columns(name, shared.before);
    if (core == 0 || core + 6 > width) { /* no core, or no room for it and a little around: cut in the middle */
        size_t columns = print_columns(name, bytes), tail = (width - 2) / 2, head = width - 2 - tail;
        fv_text_add(out, "%.*s..%s", (int)print_bytes(name, head), name, name + print_bytes(name, columns - tail));
        return;
    }
    size_t room = width - core, head = before;
    if (before + 2 > room) { /* even alone it does not fit beside the core */
        head = (room - 4) / 2;
        fv_text_add(out, "%.*s..", (int)print_bytes(name, head), name);
        room -= head + 2;
    } else {
        fv_text_add(out, "%.*s", (int)shared.before, name);
        room -= before;
    }
    const char *rest = name + shared.before;
    size_t left = print_columns(rest, strlen(rest));
    if (left <= core + room)
        fv_text_add(out, "%s", rest);
    else
        fv_text_add(out, "%.*s..", (int)print_bytes(rest, core + room - 2), rest);
}

/* Text in exactly `width` columns. Words with blanks are cut at their end. */
static void put(fv_text *out, const char *text, size_t bytes, size_t width, bool left, shared_ends shared)
{
    size_t columns = print_columns(text, bytes);
    fv_text cut = {0};
    if (columns > width && memchr(text, ' ', bytes))
        fv_text_add(&cut, "%.*s..", (int)print_bytes(text, width - 2), text);
    else if (columns > width)
        cut_name(text, width, shared, &cut);
    if (columns > width) {
        text = cut.text ? cut.text : "";
        bytes = cut.length;
        columns = print_columns(text, bytes);
    }
    int pad = columns < width ? (int)(width - columns) : 0;
    fv_text_add(out, "%*s%.*s%*s", left ? 0 : pad, "", (int)bytes, text, left ? pad : 0, "");
    out->failed = out->failed || cut.failed;
    fv_text_free(&cut);
}

/* Drops the blanks that the last column left. */
static void end_row(fv_text *out)
{
    while (!out->failed && out->length > 0 && out->text[out->length - 1] == ' ')
        out->text[--out->length] = '\0';
    fv_text_add(out, "\n");
}

/* A heading may be a unit or currency that somebody typed. */
static void put_heading(fv_text *out, const char *word, size_t bytes, size_t width, bool left)
{
    fv_text safe = {0}, copy = {0};
    fv_text_add(&copy, "%.*s", (int)bytes, word);
    print_safe(copy.text ? copy.text : "", &safe);
    out->failed = out->failed || copy.failed || safe.failed;
    if (!out->failed)
        put(out, safe.text, safe.length, width, left, (shared_ends){0, 0});
    fv_text_free(&copy);
    fv_text_free(&safe);
}

static void print_heading(const print_grid *grid, const size_t *width, size_t gap, fv_text *out)
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
            put_heading(out, word, length, width[i], grid->columns[i].left);
            fv_text_add(out, "%*s", i + 1 < grid->column_count ? (int)gap : 0, "");
        }
        end_row(out);
    }
}

static void print_rows(const print_grid *grid, fv_text *out)
{
    size_t width[MOST_COLUMNS] = {0}, gap = fit(grid, width);
    shared_ends shared[MOST_COLUMNS];
    for (size_t i = 0; i < grid->column_count; i++)
        shared[i] = find_shared(grid, i, width[i]);
    print_heading(grid, width, gap, out);
    for (size_t i = 0; i < grid->cell_count; i++) {
        size_t column = i % grid->column_count;
        fv_text_add(out, "%*s", column == 0 ? INDENT : (int)gap, "");
        put(out, grid->cells[i], strlen(grid->cells[i]), width[column], grid->columns[column].left, shared[column]);
        if (column + 1 == grid->column_count)
            end_row(out);
    }
}

void print_grid_print(print_grid *grid, fv_text *out)
{
    if (grid && !grid->failed)
        print_rows(grid, out);
    else
        out->failed = true;
    print_grid_free(grid);
}

void print_grid_section(print_grid *grid, const char *title, fv_text *out)
{
    print_section(out, title);
    print_grid_print(grid, out);
}
