/* SPDX-License-Identifier: MIT */
/* size: which holes, which hose, which header? */
#include "cli/cli.h"

#include "farvessel/size.h"

#include <stdlib.h>
#include <string.h>

enum { WORD_LONGEST = 32 };

/* "drill,hose" */
static cli_exit read_vary(const cli_request *request, unsigned *vary)
{
    const char *text = request->value[OPTION_VARY];
    for (const char *at = text; at && *at;) {
        char word[WORD_LONGEST];
        const size_t length = strcspn(at, ", ");
        snprintf(word, sizeof word, "%.*s", (int)length, at);
        const int part = length < sizeof word ? fv_word_find(FV_SIZE_WORDS, word) : -1;
        if (part < 0)
            return cli_usage("--vary \"%s\": '%s' is none of " FV_SIZE_WORDS "; several are joined by commas", text,
                             word);
        *vary |= 1u << part;
        at += length;
        at += strspn(at, ", ");
    }
    return text && !*vary ? cli_usage("--vary takes some of " FV_SIZE_WORDS ", joined by commas") : CLI_GOOD;
}

static cli_exit read_number(const cli_request *request, cli_option_id option, const char *name, fv_dim dim,
                            double *value)
{
    const char *text = request->value[option];
    char *why = NULL;
    cli_exit code = CLI_GOOD;
    if (!text)
        return CLI_GOOD;
    if (fv_quantity_parse(NULL, dim, text, value, &why) == FV_FAIL)
        code = cli_usage("--%s \"%s\": %s", name, text, why ? why : "no such value");
    else if (!(*value > 0.0))
        code = cli_usage("--%s \"%s\": a value above 0 was expected", name, text);
    free(why);
    return code;
}

static cli_exit read_options(const cli_request *request, fv_size_options *options)
{
    fv_size_limits *l = &options->limits;
    fv_size_defaults(options);
    options->each = request->value[OPTION_EACH] != NULL;
    if (request->value[OPTION_FOR])
        options->goal = (fv_size_goal)fv_word_find(FV_SIZE_GOAL_WORDS, request->value[OPTION_FOR]);
    const struct {
        cli_option_id id;
        const char *name;
        fv_dim dim;
        double *value;
    } numbers[] = {{OPTION_SPREAD, "spread", FV_DIM_NUMBER, &l->spread_most},
                   {OPTION_EVENNESS, "evenness", FV_DIM_NUMBER, &l->evenness_least},
                   {OPTION_HOLE_AREA, "hole-area", FV_DIM_NUMBER, &l->area_most},
                   {OPTION_VELOCITY, "velocity", FV_DIM_VELOCITY, &l->velocity_most}};
    cli_exit code = read_vary(request, &options->vary);
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers && code == CLI_GOOD; i++)
        code = read_number(request, numbers[i].id, numbers[i].name, numbers[i].dim, numbers[i].value);
    if (code == CLI_GOOD && l->spread_most < 1.0)
        code = cli_usage("--spread \"%s\": slowest / fastest vessel is 1 at best", request->value[OPTION_SPREAD]);
    if (code == CLI_GOOD && l->evenness_least > 1.0)
        code = cli_usage("--evenness \"%s\": smallest / largest flow of a hole is 1 at best",
                         request->value[OPTION_EVENNESS]);
    return code == CLI_GOOD ? cli_read_threads(request, &options->threads) : code;
}

/* What --save writes: the plant with the answer's sizes. */
static fv_plant *chosen(const fv_size_answer *size, fv_faults *faults)
{
    const fv_change nothing = {0};
    return fv_change_copy(size->best >= 0 ? &size->rows[size->best].change : &nothing, size->plant, faults);
}

static cli_exit answer(const cli_request *request, const fv_size_options *size, const fv_plant *plant,
                       fv_faults *faults)
{
    fv_report_options options = cli_report_options(request);
    cli_work work;
    fv_text text = {0};
    cli_exit code = CLI_GOOD;
    if (fv_steady_remarks(plant, NULL, faults) == FV_FAIL)
        return cli_say_faults(faults);
    cli_work_begin(&work);
    fv_size_answer *found = fv_size_run(plant, size, &work.progress, faults);
    cli_work_end(&work);
    fv_faults_sort(faults);
    fv_plant *saved = found && request->value[OPTION_SAVE] ? chosen(found, faults) : NULL;
    if (found && (saved || !request->value[OPTION_SAVE])) {
        fv_report_size(found, faults, &options, &text);
        code = cli_deliver(request, saved, &text);
    } else {
        code = cli_say_faults(faults);
    }
    fv_text_free(&text);
    fv_plant_free(saved);
    fv_size_free(found);
    return code;
}

cli_exit cli_size(const cli_request *request)
{
    fv_size_options size;
    cli_exit code = read_options(request, &size);
    if (code != CLI_GOOD)
        return code;
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = faults ? cli_load(request, faults) : NULL;
    code = plant ? answer(request, &size, plant, faults) : cli_say_faults(faults);
    fv_plant_free(plant);
    fv_faults_free(faults);
    return code;
}
