/* SPDX-License-Identifier: MIT */
/* Words of the carry answer. */
#include "report/carry/report.h"

#include <math.h>
#include <stdio.h>

enum { NAMES_SHOWN = 3, NAMED_ORDINALS = 12 };

const char *report_carry_manner_word(report_carry_manner manner)
{
    static const char *const words[] = {"together", "staggered"};
    return words[manner];
}

const fv_carry_batch *report_carry_run(const fv_carry_row *row, report_carry_manner manner)
{
    return manner == CARRY_TOGETHER ? &row->together : &row->staggered;
}

const char *report_carry_limit_shown(fv_carry_limit limit)
{
    static const char *const words[] = {
        [FV_CARRY_LIMIT_LOAD] = "the load itself",  [FV_CARRY_LIMIT_BOILER] = "boiler output",
        [FV_CARRY_LIMIT_HEADER] = "the header",     [FV_CARRY_LIMIT_HOSES] = "the hoses",
        [FV_CARRY_LIMIT_COILS] = "coils and holes", [FV_CARRY_LIMIT_WATER] = "the boiler's water",
        [FV_CARRY_LIMIT_NONE] = "nothing",          [FV_CARRY_LIMIT_UNKNOWN] = "no single thing"};
    return words[limit];
}

const char *report_carry_vessel(const fv_plant *plant, int vessel)
{
    return vessel >= 0 ? plant->vessels[vessel]->part.id : "";
}

void report_carry_late(const fv_carry_row *row, fv_text *out)
{
    print_names names = {0};
    fv_arena *arena = fv_arena_new();
    for (size_t i = 0; arena && i < row->plant->vessel_count; i++)
        if (row->staggered.start[i] > row->together.start[i])
            out->failed = !print_names_push(&names, arena, row->plant->vessels[i]->part.id) || out->failed;
    if (names.count == 2)
        fv_text_add(out, "%s and %s", names.list[0], names.list[1]);
    else
        print_names_say(&names, NAMES_SHOWN, out);
    fv_arena_free(arena);
}

print_shown report_carry_one_more(size_t count)
{
    static const char *const words[NAMED_ORDINALS + 1] = {"",      "first",    "second",  "third",  "fourth",
                                                          "fifth", "sixth",    "seventh", "eighth", "ninth",
                                                          "tenth", "eleventh", "twelfth"};
    print_shown ordinal, shown;
    const char *ends[] = {"th", "st", "nd", "rd"};
    const size_t last = count % 10, tens = count % 100 / 10;
    if (count <= NAMED_ORDINALS)
        snprintf(ordinal.text, sizeof ordinal.text, "%s", words[count]);
    else
        snprintf(ordinal.text, sizeof ordinal.text, "%zu%s", count, last < 4 && tens != 1 ? ends[last] : ends[0]);
    /* eighth, eleventh, 18th, 80th */
    const bool vowel = *ordinal.text == 'e' || *ordinal.text == '8' || count == 18;
    snprintf(shown.text, sizeof shown.text, "%s %.30s", vowel ? "an" : "a", ordinal.text);
    return shown;
}

void report_carry_way(const fv_carry_way *way, fv_unit_system units, fv_text *out)
{
    const bool boiler = way->other == FV_CARRY_BIGGER_BOILER || way->other == FV_CARRY_SECOND_BOILER;
    const print_shown shown = print_shown_brief(units, boiler ? FV_SHOW_POWER : FV_SHOW_BORE, way->size);
    switch (way->other) {
    case FV_CARRY_STAGGER:
        fv_text_add(out, way->change.count ? "buy nothing, stagger" : "buy nothing");
        break;
    case FV_CARRY_BIGGER_BOILER:
        fv_text_add(out, "%s boiler instead", shown.text);
        break;
    case FV_CARRY_SECOND_BOILER:
        fv_text_add(out, "second boiler, %s", shown.text);
        break;
    case FV_CARRY_WIDER_HEADER:
        fv_text_add(out, "%s header", shown.text);
        break;
    default:
        fv_text_add(out, "%s lagging all over", shown.text);
    }
}
