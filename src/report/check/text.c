/* SPDX-License-Identifier: MIT */
/* The check answer as a screen: what was understood, then everything that is not the user's own measurement. */
#include "report/check/report.h"

#include "farvessel/constants.h"
#include "farvessel/unknowns.h"
#include "print/screen.h"
#include "print/show.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *plural(size_t count)
{
    return count == 1 ? "" : "s";
}

static void sentences(const report_check *check, fv_text *out)
{
    const fv_check_answer *a = check->answer;
    const fv_plant *plant = a->plant;
    fv_text line = {0};
    fv_text_add(&line, "%s reads well: %zu boiler%s of %s", plant->file ? plant->file : "The plant",
                plant->boiler_count, plural(plant->boiler_count),
                print_shown_as(check->units, FV_SHOW_POWER, a->boiler_output).text);
    fv_text_add(&line, ", %zu vessel%s with %s to treat", plant->vessel_count, plural(plant->vessel_count),
                print_shown_as(check->units, FV_SHOW_MASS, a->load_mass).text);
    fv_text_add(&line, ", %zu line%s of %s in all, %zu joints.", plant->line_count, plural(plant->line_count),
                print_shown_as(check->units, FV_SHOW_LENGTH, a->line_length).text, plant->node_count);
    print_say(out, "", &line);
    fv_text_add(&line, "Water boils at %s here, at an air pressure of %s absolute. ",
                print_shown_as(check->units, FV_SHOW_TEMPERATURE, a->boiling_point).text,
                print_shown_as(check->units, FV_SHOW_PRESSURE, a->site_pressure).text);
    fv_text_add(&line, "Within the times allowed the vessels need %s together",
                print_shown_as(check->units, FV_SHOW_POWER, a->need).text);
    fv_text_add(&line, a->need > a->boiler_output ? ": more than the boilers give." : ".");
    print_say(out, "", &line);
}

/* The reason without its sources in brackets and without what comes after a semicolon; JSON and CSV have all. */
static const char *short_reason(const char *reason, char *buffer, size_t size)
{
    size_t used = 0, depth = 0;
    for (; *reason && *reason != ';' && used + 1 < size; reason++) {
        depth += *reason == '(';
        if (depth == 0 && !(*reason == ' ' && (reason[1] == '(' || reason[1] == '\0')))
            buffer[used++] = *reason;
        depth -= *reason == ')' && depth > 0;
    }
    buffer[used] = '\0';
    return buffer;
}

/* To two digits, temperatures to whole degrees. */
static double rounded(bool temperature, double value)
{
    char digits[32];
    snprintf(digits, sizeof digits, "%.2g", value);
    return temperature ? round(value) : strtod(digits, NULL);
}

/* Rounded in SI, which chooses the unit, and as it is shown, which may be another. */
static print_shown rough(const report_check *check, const fv_attr *attr, double si)
{
    const bool temperature = attr->dim == FV_DIM_TEMPERATURE;
    const double zero = temperature ? FV_CELSIUS : 0;
    const print_shown shown = print_shown_value(check->units, attr, zero + rounded(temperature, si - zero));
    print_shown out;
    char *unit;
    const double value = strtod(shown.text, &unit);
    snprintf(out.text, sizeof out.text, "%g%.40s", rounded(temperature, value), unit);
    return out;
}

/* "0.1 to 0.6 mm" */
static const char *band_of(const report_check *check, const print_said_row *row, double low, double high, char *buffer,
                           size_t size)
{
    const print_shown from = rough(check, row->attr, low), to = rough(check, row->attr, high);
    const char *unit = strchr(from.text, ' '), *other = strchr(to.text, ' ');
    const bool same = unit && other && strcmp(unit, other) == 0;
    snprintf(buffer, size, "%.*s to %s", same ? (int)(unit - from.text) : (int)strlen(from.text), from.text, to.text);
    return buffer;
}

/* Each default that odds draws, with its band and on what ground. */
static void bands(const report_check *check, fv_text *out)
{
    char band[PRINT_WORD_SIZE];
    const char *source;
    double low, high;
    print_sayf(out, "  ", "Bands of these, nine in ten of what odds draws, and on what ground:");
    for (size_t i = 0; i < check->said.row_count; i++) {
        const print_said_row *row = &check->said.rows[i];
        if (row->said == SAID_DEFAULT && fv_unknown_band(row->element, row->attr->name, row->si, &low, &high, &source))
            print_sayf(out, "  ", "%s %s %s (%s).", row->element, row->attr->name,
                       band_of(check, row, low, high, band, sizeof band), source);
    }
}

/* One block of the list of values: element, attribute, what it is, where. */
static void values(const report_check *check, print_said said, const char *title, const char *third, fv_text *out)
{
    const print_grid_column columns[] = {
        {"element", "", true}, {"attribute", "", true}, {third, "", true}, {"in", "", true}};
    enum { COLUMNS = sizeof columns / sizeof *columns, FEW = 2 }; /* names, unless there are more than these */
    if (check->said.values[said] == 0)
        return;
    fv_text_add(out, "\n%s (%zu value%s)\n", title, check->said.values[said], plural(check->said.values[said]));
    char buffer[PRINT_WORD_SIZE];
    print_grid *grid = print_grid_new(columns, COLUMNS);
    for (size_t i = 0; i < check->said.row_count; i++) {
        const print_said_row *row = &check->said.rows[i];
        if (row->said != said)
            continue;
        fv_text names = {0};
        print_names_say(&row->owners, row->owners.count > FEW ? 1 : FEW, &names);
        print_grid_add(grid, row->element);
        print_grid_add(grid, row->attr->name);
        print_grid_add(grid, isnan(row->si) ? short_reason(row->reason, buffer, sizeof buffer)
                                            : print_shown_value(check->units, row->attr, row->si).text);
        print_grid_add(grid, names.text && !names.failed ? names.text : "");
        out->failed = out->failed || names.failed;
        fv_text_free(&names);
    }
    print_grid_print(grid, out);
    if (said == SAID_DEFAULT)
        bands(check, out);
}

void report_check_table(const report_frame *frame, fv_text *out)
{
    sentences(frame->answer, out);
    report_frame_table(frame, CHECK_VESSELS,
                       "Vessels: heat to bring each to its target, and what that needs within its time", out);
}

void report_check_reasons(const report_frame *frame, fv_text *out)
{
    const report_check *check = frame->answer;
    if (check->assumed && check->assumed->too_many)
        print_sayf(
            out, "  ",
            "Which of what the file leaves open matters most is not said: that takes a run of all %zu vessels for each "
            "of many. A copy of the plant with a few of them tells.",
            check->answer->plant->vessel_count);
    if (!check->assumed || check->assumed->row_count == 0)
        return;
    report_frame_table(frame, CHECK_MATTERS, "What matters most of what the file leaves open or guesses", out);
    print_sayf(out, "  ",
               "last core: so much later (+) or earlier with the assumption changed alone as tried, against %s now; "
               "%zu runs. Measure the first ones "
               "first.",
               print_shown_time(check->assumed->last_core).text, check->assumed->runs);
}

void report_check_details(const report_frame *frame, fv_text *out)
{
    const report_check *check = frame->answer;
    report_frame_table(frame, CHECK_JOINTS, "Joints, and what meets there", out);
    values(check, SAID_SETTING, "Changed on top of the file", "value", out);
    values(check, SAID_GUESS, "Marked as a guess", "value", out);
    values(check, SAID_FIXED, "Coefficients fixed by the file", "value", out);
    values(check, SAID_LEFT, "Coefficients left to correlations", "from", out);
    values(check, SAID_DEFAULT, "Not said, so the documented default is used", "default", out);
}
