/* SPDX-License-Identifier: MIT */
/* Choices with what is not known drawn at random: the same section in each answer that was asked for it. */
#ifndef REPORT_CHOICES_H
#define REPORT_CHOICES_H

#include "farvessel/choices.h"
#include "print/clock.h"
#include "print/table.h"

typedef struct {
    const fv_choices_answer *answer;
    print_clock clock;
} report_choices;

/* Which row is which choice, and which of its vessels. */
extern const print_table report_choices_table, report_choices_vessels_table;

void report_choices_text(const report_choices *choices, fv_text *out);
json_t *report_choices_json(const report_choices *choices);
/* The pick's gain with its band, what is tied with it, the chance that all are in time. */
void report_choices_say(const report_choices *choices, fv_text *out);
void report_choices_counts(const report_choices *choices, fv_text *out);

#endif
