/* SPDX-License-Identifier: MIT */
/* new: a plant file from eight questions, by options or asked in the terminal. */
#include "cli/cli.h"

#include "farvessel/desk.h"
#include "farvessel/plantfile.h"

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static const cli_option_id option_of[FV_NEW_QUESTIONS] = {OPTION_UNITS, OPTION_BOILER, OPTION_HEADER, OPTION_VESSELS,
                                                          OPTION_HOSE,  OPTION_COIL,   OPTION_LOAD,   OPTION_WALLS};

/* Asks until the answer can be read; an empty line, or the end of what is typed: nobody knows. */
static cli_exit ask(fv_new *plant, fv_new_question question, char **line, size_t *room)
{
    const fv_new_words words = fv_new_words_of(question, fv_new_units(plant));
    fprintf(stderr, "\n%s\n  %s, such as: %s\n", words.question, words.parts, words.example);
    for (;;) {
        fprintf(stderr, "  > ");
        const ssize_t length = getline(line, room, stdin);
        if (length < 0)
            return fv_new_answer(plant, question, "", NULL) == FV_OK ? CLI_GOOD : cli_no_memory();
        (*line)[strcspn(*line, "\r\n")] = '\0';
        fv_faults *faults = fv_faults_new();
        if (!faults)
            return cli_no_memory();
        const bool good = fv_new_answer(plant, question, *line, faults) == FV_OK;
        if (!good)
            cli_say_faults(faults);
        fv_faults_free(faults);
        if (good)
            return CLI_GOOD;
    }
}

static cli_exit answer_all(const cli_request *request, fv_new *plant, fv_faults *faults)
{
    const bool asks = isatty(STDIN_FILENO) == 1 && isatty(STDERR_FILENO) == 1 && !request->value[OPTION_DEFAULTS];
    char *line = NULL;
    size_t room = 0;
    cli_exit code = CLI_GOOD;
    if (asks)
        fprintf(stderr,
                "Eight questions; Enter where you do not know: a usual value is taken and marked as a guess.\n");
    for (int q = 0; q < FV_NEW_QUESTIONS && code == CLI_GOOD; q++) {
        const char *given = request->value[option_of[q]];
        if (given && fv_new_answer(plant, (fv_new_question)q, given, faults) == FV_FAIL)
            code = cli_say_faults(faults);
        else if (!given && asks)
            code = ask(plant, (fv_new_question)q, &line, &room);
    }
    free(line);
    return code;
}

/* What is written must be a plant that can be read; it may leave cautions. */
static cli_exit check(const char *path, const fv_text *xml)
{
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = faults ? fv_plantfile_read_memory(xml->text, xml->length, path, NULL, faults) : NULL;
    const cli_exit code = plant ? CLI_GOOD : cli_say_faults(faults);
    fv_plant_free(plant);
    fv_faults_free(faults);
    return code;
}

static cli_exit write_plant(const cli_request *request, const fv_text *xml, fv_faults *faults)
{
    const char *path = request->operand;
    if (access(path, F_OK) == 0)
        return cli_usage("%s is there already, and somebody's measurements are in it; choose another name", path);
    cli_exit code = check(path, xml);
    if (code != CLI_GOOD)
        return code;
    cli_signals_hold();
    const bool good = fv_write_whole(path, xml->text, xml->length, faults);
    cli_signals_release();
    if (!good)
        return cli_say_faults(faults);
    fprintf(stderr,
            "\n%s is written. Put your own measurements in, in an editor or on the page that try opens, then ask:\n"
            "  farvessel try %s\n  farvessel heat %s\n",
            path, path, path);
    return CLI_GOOD;
}

cli_exit cli_new(const cli_request *request)
{
    fv_text xml = {0};
    if (!request->operand)
        return cli_usage("what is the new file to be called? As in `farvessel new plant.xml`");
    fv_new *plant = fv_new_begin(request->value[OPTION_TITLE]);
    fv_faults *faults = fv_faults_new();
    cli_exit code = plant && faults ? answer_all(request, plant, faults) : cli_no_memory();
    if (code == CLI_GOOD) {
        fv_new_write(plant, &xml);
        code = xml.failed ? cli_no_memory() : write_plant(request, &xml, faults);
    }
    fv_text_free(&xml);
    fv_new_free(plant);
    fv_faults_free(faults);
    return code;
}
