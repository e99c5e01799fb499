/* SPDX-License-Identifier: MIT */
/* Words of the carry answer. */
#include "report/carry/report.h"
#include "report/remedy.h"

#include <stdio.h>

enum { NAMED_ORDINALS = 12 };

const char *report_carry_manner_word(fv_carry_manner manner)
{
    static const char *const words[] = {"together", "staggered", "throttled", "with work"};
    return words[manner];
}

const char *report_carry_manner_key(fv_carry_manner manner)
{
    return manner == FV_CARRY_WORKED ? "with_work" : report_carry_manner_word(manner);
}

bool report_carry_has(const fv_carry_row *row, fv_carry_manner manner)
{
    return manner == FV_CARRY_TOGETHER || (manner == FV_CARRY_STAGGERED && row->stagger_step_count > 0) ||
           (manner == FV_CARRY_THROTTLED && row->throttle_step_count > 0) ||
           (manner == FV_CARRY_WORKED && row->work.count > 0);
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
        fv_text_add(out, way->change.count + way->change.action_count ? "buy nothing, by hand" : "buy nothing");
        break;
    case FV_CARRY_SMALL_WORK:
        report_remedy(units, way->work, out);
        break;
    case FV_CARRY_BIGGER_BOILER:
        fv_text_add(out, "a boiler of %s instead", shown.text);
        break;
    case FV_CARRY_SECOND_BOILER:
        fv_text_add(out, "a second boiler of %s", shown.text);
        break;
    case FV_CARRY_WIDER_HEADER:
        fv_text_add(out, "a header of %s", shown.text);
        break;
    case FV_CARRY_LINING:
        fv_text_add(out, "a sealed lining in the walls");
        break;
    default:
        fv_text_add(out, "%s lagging all over", shown.text);
    }
}
