/* SPDX-License-Identifier: MIT */
/* Answers become a plant file. What was typed is kept as it was typed; a bare number gets its question's unit. */
#include "desk/questions.h"

#include "farvessel/constants.h"
#include "farvessel/model.h"
#include "plantfile/encoding.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
    char text[DESK_PARTS_MOST + DESK_LENGTHS_MOST][DESK_TEXT_SIZE];
    size_t count;
    bool guess; /* nobody knew */
} desk_answer;

struct fv_new {
    char *title;
    fv_unit_system units;
    desk_answer answers[FV_NEW_QUESTIONS];
};

fv_new *fv_new_begin(const char *title)
{
    fv_new *plant = calloc(1, sizeof *plant);
    if (!plant)
        return NULL;
    plant->title = title ? strdup(title) : NULL;
    bool good = !title || plant->title;
    for (int q = 0; q < FV_NEW_QUESTIONS && good; q++)
        good = fv_new_answer(plant, (fv_new_question)q, "", NULL) == FV_OK;
    if (good)
        return plant;
    fv_new_free(plant);
    return NULL;
}

void fv_new_free(fv_new *plant)
{
    if (plant)
        free(plant->title);
    free(plant);
}

fv_unit_system fv_new_units(const fv_new *plant)
{
    return plant ? plant->units : FV_METRIC;
}

/* ---- taking an answer apart ---- */

static const fv_loc nowhere = {NULL, 0};

static void say(fv_faults *faults, const desk_question *q, fv_unit_system units, const char *text, const char *what)
{
    fv_error(faults, FV_ERR_INPUT, nowhere, "%s \"%.60s\": %s; write %s, as in %s", q->name, text, what, q->parts,
             q->example[units]);
}

/* The next part of `*at`, without the blanks around it; false: there is none, or it is too long to be one. */
static bool next_part(const char **at, const char *between, char part[DESK_TEXT_SIZE])
{
    *at += strspn(*at, " \t");
    if (!**at)
        return false;
    size_t length = strcspn(*at, between), end = length;
    while (end > 0 && isspace((unsigned char)(*at)[end - 1]))
        end--;
    if (end >= DESK_TEXT_SIZE)
        return false;
    memcpy(part, *at, end);
    part[end] = '\0';
    *at += length;
    *at += **at != '\0';
    return true;
}

static bool is_number(const char *text)
{
    return text[0] && text[strspn(text, "0123456789./")] == '\0';
}

/* With a unit where it has none: "19" -> "19 mm". */
static void with_unit(char text[DESK_TEXT_SIZE], const char *unit)
{
    const size_t length = strlen(text);
    if (is_number(text) && unit[0] && length + strlen(unit) + 2 <= DESK_TEXT_SIZE)
        snprintf(text + length, DESK_TEXT_SIZE - length, " %s", unit);
}

static bool reads(const desk_part *part, const char *text, char **why)
{
    double si;
    *why = NULL;
    return fv_quantity_parse(NULL, part->dim, text, &si, why) == FV_OK && si > 0.0;
}

/* "13 x 13 x 20 cm" -> "13 cm", "13 cm", "20 cm": how many lengths there are, two or three; 0: not a size. */
static size_t split_size(char sides[3][DESK_TEXT_SIZE], const char *text, const char *unit)
{
    char copy[DESK_TEXT_SIZE], own[16] = "";
    snprintf(copy, sizeof copy, "%s", text);
    char *tail = copy + strlen(copy);
    while (tail > copy && isalpha((unsigned char)tail[-1]))
        tail--;
    if (tail > copy && strcmp(tail, "x") != 0) {
        snprintf(own, sizeof own, "%.15s", tail);
        *tail = '\0';
    }
    const char *at = copy;
    size_t n = 0;
    char *why;
    for (; n < 3 && next_part(&at, "x", sides[n]); n++) {
        with_unit(sides[n], own[0] ? own : unit);
        const desk_part side = {DESK_QUANTITY, FV_DIM_LENGTH, {"", ""}, NULL, false};
        const bool good = reads(&side, sides[n], &why);
        free(why);
        if (!good)
            return 0;
    }
    return n >= 2 && !*at ? n : 0;
}

static bool check_part(const desk_question *q, const desk_part *part, fv_unit_system units, char text[DESK_TEXT_SIZE],
                       fv_faults *faults)
{
    char sides[3][DESK_TEXT_SIZE];
    char *why = NULL;
    bool good = true;
    switch (part->sort) {
    case DESK_WORD:
        good = fv_word_find(part->words, text) >= 0;
        break;
    case DESK_MATERIAL:
        good = fv_material_find(text) != NULL;
        break;
    case DESK_SIZE:
        good = split_size(sides, text, part->unit[units]) > 0;
        break;
    case DESK_QUANTITY:
        with_unit(text, part->unit[units]);
        good = reads(part, text, &why);
        break;
    }
    if (!good)
        say(faults, q, units, text, why ? why : part->sort == DESK_MATERIAL ? "no such material" : "cannot be read");
    free(why);
    return good;
}

static bool read_answer(const desk_question *q, fv_unit_system units, const char *text, desk_answer *answer,
                        fv_faults *faults)
{
    const char *between = q->part_count == 1 ? "" : strchr(text, ',') ? "," : " ", *at = text;
    char part[DESK_TEXT_SIZE];
    while (next_part(&at, between, part)) {
        const size_t last = q->part_count - 1, which = answer->count < last ? answer->count : last;
        if ((answer->count > last && !q->part[last].many) || answer->count == DESK_LENGTHS_MOST) {
            say(faults, q, units, text, "too many parts");
            return false;
        }
        if (!check_part(q, &q->part[which], units, part, faults))
            return false;
        memcpy(answer->text[answer->count++], part, sizeof part);
    }
    if (*at || answer->count < q->least) {
        say(faults, q, units, text, *at ? "a part is too long" : "a part is missing");
        return false;
    }
    return true;
}

static size_t sides_of(const desk_answer *load, fv_unit_system units, char sides[3][DESK_TEXT_SIZE])
{
    return split_size(sides, load->text[1], desk_question_of(FV_NEW_LOAD)->part[1].unit[units]);
}

static bool is_bed(const desk_answer *load)
{
    return strcmp(load->text[4], "bed") == 0;
}

/* What no part shows by itself. */
static const char *clash(fv_new_question question, const desk_answer *answer, fv_unit_system units)
{
    char sides[3][DESK_TEXT_SIZE];
    if (question == FV_NEW_VESSELS && strtoul(answer->text[0], NULL, 10) > DESK_LENGTHS_MOST - 1)
        return "at most 23 vessels here; more are added in the file";
    if (question != FV_NEW_LOAD || !is_bed(answer))
        return NULL;
    if (strtoul(answer->text[2], NULL, 10) != 1)
        return "a vessel has one bed";
    return sides_of(answer, units, sides) < 3 ? "a bed has a length, a width and a depth" : NULL;
}

fv_status fv_new_answer(fv_new *plant, fv_new_question question, const char *text, fv_faults *faults)
{
    if (!plant || !text)
        return fv_error_null(faults, __func__);
    const desk_question *q = desk_question_of(question);
    desk_answer answer = {.guess = text[strspn(text, " \t")] == '\0'};
    if (!read_answer(q, plant->units, answer.guess ? q->example[plant->units] : text, &answer, faults))
        return FV_FAIL;
    const char *what = clash(question, &answer, plant->units);
    if (what) {
        say(faults, q, plant->units, text, what);
        return FV_FAIL;
    }
    plant->answers[question] = answer;
    if (question == FV_NEW_UNITS) {
        plant->units = strcmp(answer.text[0], "us") == 0 ? FV_US : FV_METRIC;
        for (int other = 0; other < FV_NEW_QUESTIONS; other++)
            if (plant->answers[other].guess && other != FV_NEW_UNITS)
                fv_new_answer(plant, (fv_new_question)other, "", faults);
    }
    return FV_OK;
}

/* ---- writing ---- */

static const char *part(const fv_new *plant, fv_new_question question, size_t i)
{
    return plant->answers[question].text[i];
}

/* ` known="tape"`, or guess. */
static const char *known(const fv_new *plant, fv_new_question question, const char *how)
{
    return plant->answers[question].guess ? "guess" : how;
}

static size_t vessel_count(const fv_new *plant)
{
    return (size_t)strtoul(part(plant, FV_NEW_VESSELS, 0), NULL, 10);
}

static double si_of(fv_dim dim, const char *text)
{
    double si = NAN;
    fv_quantity_parse(NULL, dim, text, &si, NULL);
    return si;
}

/* To so many parts of a unit; divided, for a tenth is no exact step. */
static double rounded(double si, double unit, double parts)
{
    return round(si / unit * parts) / parts * unit;
}

/* "13/16 in", "1 1/16 in": as bores are sold. */
static void write_sixteenths(double si, char *buffer, size_t size)
{
    long parts = lround(16 * si / FV_INCH), of = 16;
    for (; parts % 2 == 0 && of > 1; parts /= 2)
        of /= 2;
    const long whole = parts / of;
    if (of == 1)
        snprintf(buffer, size, "%ld in", whole);
    else
        snprintf(buffer, size, "%.0ld%s%ld/%ld in", whole, whole > 0 ? " " : "", parts % of, of);
}

static void write_lines(const fv_new *plant, fv_text *out)
{
    const size_t count = vessel_count(plant), lengths = plant->answers[FV_NEW_HOSE].count - 1;
    const char *apart = plant->answers[FV_NEW_VESSELS].count > 1 ? part(plant, FV_NEW_VESSELS, 1) : "2 m";
    fv_text_add(out, "  <!-- The header, from one branch to the next. Lagging, elbows and valves can be added. -->\n");
    for (size_t i = 1; i <= count; i++) {
        const bool first = i == 1;
        fv_text_add(out, "  <header id=\"h%zu\" from=\"%s%zu\" to=\"t%zu\" length=\"%s\" bore=\"%s\" known=\"%s\"/>\n",
                    i, first ? "b" : "t", i - 1, i, first ? part(plant, FV_NEW_HEADER, 1) : apart,
                    part(plant, FV_NEW_HEADER, 0), known(plant, first ? FV_NEW_HEADER : FV_NEW_VESSELS, "tape"));
    }
    char barb[80];
    const double bore = 0.84 * si_of(FV_DIM_LENGTH, part(plant, FV_NEW_HOSE, 0));
    if (plant->units == FV_US)
        write_sixteenths(bore, barb, sizeof barb);
    else
        fv_quantity_print(FV_DIM_LENGTH, rounded(bore, 1, 1000), barb, sizeof barb);
    fv_text_add(
        out,
        "\n  <!-- The hoses. A barb is narrower than its hose: measure it, it costs more than metres of hose. -->\n");
    for (size_t i = 1; i <= count; i++) {
        const size_t which = lengths < i ? lengths : i;
        fv_text_add(out, "  <hose id=\"s%zu\" from=\"t%zu\" to=\"c%zu\" length=\"%s\" bore=\"%s\" known=\"%s\">\n", i,
                    i, i, part(plant, FV_NEW_HOSE, which), part(plant, FV_NEW_HOSE, 0),
                    known(plant, FV_NEW_HOSE, "tape"));
        fv_text_add(out, "    <valve id=\"v%zu\"/>\n    <barb bore=\"%s\" count=\"2\" known=\"guess\"/>\n  </hose>\n",
                    i, barb);
    }
}

/* Walls of a box that is as high as it is wide, but for the floor. */
static void write_walls(const fv_new *plant, fv_text *out)
{
    char area[80];
    const double side = cbrt(si_of(FV_DIM_VOLUME, part(plant, FV_NEW_WALLS, 0)));
    const size_t parts = plant->answers[FV_NEW_WALLS].count;
    fv_quantity_print(FV_DIM_AREA,
                      plant->units == FV_US ? rounded(6 * side * side, FV_FOOT * FV_FOOT, 1)
                                            : rounded(6 * side * side, 1, 10),
                      area, sizeof area);
    fv_text_add(out, "    <!-- All six sides of a cube of that volume: measure them. -->\n");
    fv_text_add(out, "    <wall area=\"%s\" known=\"guess\">\n", area);
    for (size_t i = 1; i + 1 < parts; i += 2)
        fv_text_add(out, "      <layer material=\"%s\" thickness=\"%s\" known=\"%s\"/>\n", part(plant, FV_NEW_WALLS, i),
                    part(plant, FV_NEW_WALLS, i + 1), known(plant, FV_NEW_WALLS, "tape"));
    fv_text_add(out, "    </wall>\n");
}

/* What is usually asked of a medium. Soil and peat: 82 degC for 30 min kills weed seeds (Baker 1957, Manual 23, from a
 * copy of its table); the rest is common practice, no source. */
typedef struct {
    const char *medium, *target[2], *hold, *within; /* target by fv_unit_system */
} usual;

static const usual *usual_of(const char *medium)
{
    static const usual list[] = {{"soil", {"82 degC", "180 degF"}, "30 min", "6 h"},
                                 {"peat", {"82 degC", "180 degF"}, "30 min", "6 h"},
                                 {"straw", {"65 degC", "149 degF"}, "8 h", "8 h"},
                                 {"", {"95 degC", "203 degF"}, "4 h", "12 h"}};
    const usual *at = list;
    while (at->medium[0] && strcmp(at->medium, medium) != 0)
        at++;
    return at;
}

static void write_load(const fv_new *plant, fv_text *out)
{
    char sides[3][DESK_TEXT_SIZE], area[80];
    const desk_answer *load = &plant->answers[FV_NEW_LOAD];
    const size_t count = sides_of(load, plant->units, sides);
    fv_text_add(out, "    <load medium=\"%s\" ", load->text[0]);
    if (is_bed(load)) {
        fv_quantity_print(FV_DIM_AREA, si_of(FV_DIM_LENGTH, sides[0]) * si_of(FV_DIM_LENGTH, sides[1]), area,
                          sizeof area);
        fv_text_add(out, "form=\"bed\" depth=\"%s\" area=\"%s\" mass=\"%s\"", sides[2], area, load->text[3]);
    } else {
        if (count == 3)
            fv_text_add(out, "form=\"block\" a=\"%s\" b=\"%s\" c=\"%s\"", sides[0], sides[1], sides[2]);
        else
            fv_text_add(out, "form=\"cylinder\" diameter=\"%s\" height=\"%s\"", sides[0], sides[1]);
        fv_text_add(out, " count=\"%s\" mass=\"%s\" packing=\"%s\"", load->text[2], load->text[3], load->text[4]);
    }
    fv_text_add(out, " known=\"%s\"/>\n", known(plant, FV_NEW_LOAD, "tape"));
}

static void write_kind(const fv_new *plant, fv_text *out)
{
    const bool us = plant->units == FV_US;
    const usual *ask = usual_of(part(plant, FV_NEW_LOAD, 0));
    fv_text_add(out,
                "  <!-- What all vessels share. The target, its hold and the time allowed are yours to say. -->\n");
    fv_text_add(
        out, "  <kind id=\"vessel\" volume=\"%s\" target=\"%s\" hold=\"%s\" within=\"%s\" known=\"volume:%s\">\n",
        part(plant, FV_NEW_WALLS, 0), ask->target[us], ask->hold, ask->within, known(plant, FV_NEW_WALLS, "tape"));
    fv_text_add(out, "    <coil bore=\"%s\" length=\"%s\" holes=\"%s\" drill=\"%s\" known=\"%s\"/>\n",
                part(plant, FV_NEW_COIL, 0), part(plant, FV_NEW_COIL, 1), part(plant, FV_NEW_COIL, 2),
                part(plant, FV_NEW_COIL, 3), known(plant, FV_NEW_COIL, "tape"));
    write_load(plant, out);
    write_walls(plant, out);
    fv_text_add(out, "    <!-- Where steam and air get out. Never close the last one. -->\n");
    fv_text_add(
        out, "    <vent diameter=\"%s\" known=\"guess\"/>\n    <drain diameter=\"%s\" known=\"guess\"/>\n  </kind>\n",
        us ? "1.5 in" : "40 mm", us ? "1 in" : "25 mm");
}

void fv_new_write(const fv_new *plant, fv_text *out)
{
    if (!plant)
        return;
    const bool us = plant->units == FV_US;
    fv_text_add(out, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<network xmlns=\"urn:farvessel:network:1\" title=\"");
    plantfile_escape(plant->title ? plant->title : "My plant", '"', out);
    fv_text_add(out,
                "\"%s>\n  <!-- Made by answering questions. What nobody knew is marked known=\"guess\"; measure it, "
                "write it in, "
                "and say known=\"tape\". -->\n",
                us ? " units=\"us\"" : "");
    fv_text_add(out, "  <site altitude=\"%s\" air=\"%s\" known=\"guess\"/>\n\n", us ? "400 ft" : "120 m",
                us ? "50 degF" : "10 degC");
    fv_text_add(
        out,
        "  <!-- Pressures are above the air's: where the control holds it, and where the relief valve opens. -->\n");
    fv_text_add(
        out,
        "  <boiler id=\"boiler\" at=\"b0\" output=\"%s\" holds=\"%s\" relief=\"%s\" known=\"guess output:%s\"/>\n\n",
        part(plant, FV_NEW_BOILER, 0), us ? "3 psi" : "0.2 bar", us ? "7 psi" : "0.5 bar",
        known(plant, FV_NEW_BOILER, "nameplate"));
    write_lines(plant, out);
    fv_text_add(out, "\n");
    write_kind(plant, out);
    fv_text_add(out, "\n");
    for (size_t i = 1; i <= vessel_count(plant); i++)
        fv_text_add(out, "  <vessel id=\"vessel%zu\" like=\"vessel\" at=\"c%zu\"/>\n", i, i);
    fv_text_add(out, "</network>\n");
}
