/* SPDX-License-Identifier: MIT */
/* Arguments into a request, by the tables. */
#include "cli/cli.h"
#include "model/near.h"
#include "print/safe.h"

#include <stdlib.h>
#include <string.h>

enum { NAME_SIZE = 64 };

const cli_verb *cli_find_verb(const char *name)
{
    for (size_t i = 0; name && i < VERB_COUNT; i++)
        if (strcmp(cli_verbs[i].name, name) == 0)
            return &cli_verbs[i];
    return NULL;
}

/* An option that the verb takes; any verb's where verb is NULL. */
static const cli_option *find_option(const cli_verb *verb, const char *name, size_t length)
{
    size_t count;
    const cli_option *options = cli_options(&count);
    for (size_t i = 0; i < count; i++) {
        bool short_form = length == 1 && options[i].letter == name[0];
        bool long_form = strlen(options[i].name) == length && strncmp(options[i].name, name, length) == 0;
        if ((short_form || long_form) && (!verb || options[i].verbs >> (verb - cli_verbs) & 1u))
            return &options[i];
    }
    return NULL;
}

cli_exit cli_unknown_verb(const char *word, bool of_help)
{
    model_near near = model_near_start(word);
    for (size_t i = 0; i < VERB_COUNT; i++)
        model_near_try(&near, cli_verbs[i].name);
    for (const cli_topic *topic = cli_topics; of_help && topic->name; topic++)
        model_near_try(&near, topic->name);
    if (near.best)
        return cli_usage("there is no verb '%s'; did you mean `farvessel %s%s`?", word, of_help ? "help " : "",
                         near.best);
    if (!strstr(word, ".xml"))
        return cli_usage("there is no verb '%s'; `farvessel help` lists them", word);
    fv_text file = {0};
    print_shell_word(word, &file);
    cli_usage("say what to do with it first, as in `farvessel flow %s`", file.text ? file.text : word);
    fv_text_free(&file);
    return CLI_INPUT;
}

static cli_exit unknown_option(const cli_verb *verb, const char *word, size_t length)
{
    char name[NAME_SIZE];
    size_t count;
    const cli_option *options = cli_options(&count);
    const char *dashes = length > 1 ? "--" : "-";
    snprintf(name, sizeof name, "%.*s", (int)length, word);
    if (find_option(NULL, word, length))
        return cli_usage("`farvessel %s` takes no %s%s; `farvessel help %s` lists what it takes", verb->name, dashes,
                         name, verb->name);
    model_near near = model_near_start(name);
    for (size_t i = 0; i < count; i++)
        if (options[i].verbs >> (verb - cli_verbs) & 1u)
            model_near_try(&near, options[i].name);
    if (near.best)
        return cli_usage("there is no option %s%s; did you mean --%s?", dashes, name, near.best);
    return cli_usage("there is no option %s%s; `farvessel help %s` lists them", dashes, name, verb->name);
}

typedef struct {
    const char ***list;
    size_t *count, *capacity;
} texts;

/* Where the values of a repeated option are kept. */
static texts repeated(cli_request *r, cli_option_id option)
{
    if (option == OPTION_VARY)
        return (texts){&r->varied, &r->varied_count, &r->varied_capacity};
    if (option == OPTION_DO)
        return (texts){&r->actions, &r->action_count, &r->action_capacity};
    if (option == OPTION_DID)
        return (texts){&r->did, &r->did_count, &r->did_capacity};
    if (option == OPTION_THEN)
        return (texts){&r->then, &r->then_count, &r->then_capacity};
    return (texts){&r->settings, &r->setting_count, &r->setting_capacity};
}

static bool keep(texts in, const char *value)
{
    void *list = *in.list;
    if (!fv_grow(&list, in.capacity, *in.count + 1, sizeof(char *)))
        return false;
    *in.list = list;
    (*in.list)[(*in.count)++] = value;
    return true;
}

static cli_exit take(cli_request *request, const cli_option *option, const char *value)
{
    if (option->words && fv_word_find(option->words, value) < 0)
        return cli_usage("--%s takes %s, not '%s'", option->name, option->words, value);
    if (option->repeats) {
        if (!keep(repeated(request, option->id), value))
            return cli_no_memory();
    } else if (request->value[option->id]) {
        return cli_usage("--%s is given twice", option->name);
    }
    request->value[option->id] = value;
    return CLI_GOOD;
}

/* One option at argv[*i], its value there or in the next argument. */
static cli_exit parse_option(int argc, char **argv, int *i, cli_request *request)
{
    bool long_form = argv[*i][1] == '-';
    const char *word = argv[*i] + (long_form ? 2 : 1);
    size_t length = long_form ? strcspn(word, "=") : 1;
    const cli_option *option = find_option(request->verb, word, length);
    if (!option)
        return unknown_option(request->verb, word, length);
    const char *attached = long_form ? (word[length] ? word + length + 1 : NULL) : (word[1] ? word + 1 : NULL);
    if (!option->argument && attached)
        return cli_usage("--%s takes no value", option->name);
    if (option->argument && !attached) {
        if (*i + 1 >= argc)
            return cli_usage("--%s needs a value: %s", option->name, option->argument);
        attached = argv[++*i];
    }
    return take(request, option, attached ? attached : "");
}

/* A second file is the log where the verb reads one and its name says so, as with --log. */
static cli_exit parse_operand(const char *word, cli_request *request)
{
    const cli_option *log = request->operand ? find_option(request->verb, "log", 3) : NULL;
    const size_t length = strlen(word);
    if (log && length > 4 && strcmp(word + length - 4, ".csv") == 0)
        return take(request, log, word);
    if (request->operand)
        return cli_usage("one plant at a time: '%s' or '%s'?", request->operand, word);
    request->operand = word;
    return CLI_GOOD;
}

static bool is_option(const char *word)
{
    return word[0] == '-' && word[1] != '\0';
}

/* Options that only make sense together. */
static cli_exit combine(const cli_request *request)
{
    const char *format = request->value[OPTION_FORMAT];
    if (request->value[OPTION_TABLE] && (!format || strcmp(format, "csv") != 0))
        return cli_usage("--table chooses a table for --format csv");
    if ((request->value[OPTION_BRIEF] || request->value[OPTION_CAUTIONS]) && format && strcmp(format, "text") != 0)
        return cli_usage("--%s is for text", request->value[OPTION_BRIEF] ? "brief" : "cautions");
    if (request->value[OPTION_SERIES] && (!format || strcmp(format, "json") != 0))
        return cli_usage("--series is for --format json");
    if (request->value[OPTION_LIST] &&
        (request->operand || request->value[OPTION_TABLE] || request->value[OPTION_SAVE] ||
         request->value[OPTION_WATCH] || request->setting_count > 0 || request->action_count > 0))
        return cli_usage("--list needs no plant, and takes only --format, --units and --output beside it");
    return CLI_GOOD;
}

cli_exit cli_parse(int argc, char **argv, cli_request *request)
{
    bool only_operands = false;
    int i = 1;
    *request = (cli_request){0};
    if (argc > 1 && !is_option(argv[1])) {
        request->verb = cli_find_verb(argv[i++]);
        if (!request->verb)
            return cli_unknown_verb(argv[1], false);
    } else {
        request->verb = &cli_verbs[VERB_HELP]; /* it takes --help and --version */
    }
    if (argc < 2)
        return cli_usage("which vessel is starved? `farvessel flow PLANT.xml` tells; `farvessel help` lists the rest");
    for (; i < argc; i++) {
        cli_exit code = CLI_GOOD;
        if (!only_operands && strcmp(argv[i], "--") == 0)
            only_operands = true;
        else if (!only_operands && is_option(argv[i]))
            code = parse_option(argc, argv, &i, request);
        else
            code = parse_operand(argv[i], request);
        if (code != CLI_GOOD)
            return code;
    }
    return combine(request);
}

void cli_request_free(cli_request *request)
{
    free(request->settings);
    free(request->varied);
    free(request->actions);
    free(request->did);
    free(request->then);
}

fv_unit_system cli_units(const cli_request *request, const fv_plant *plant)
{
    if (request->value[OPTION_UNITS])
        return strcmp(request->value[OPTION_UNITS], "us") == 0 ? FV_US : FV_METRIC;
    return plant ? (fv_unit_system)fv_or(plant->units, FV_METRIC) : FV_METRIC;
}

fv_report_options cli_report_options(const cli_request *request)
{
    fv_report_options options;
    fv_report_defaults(&options);
    if (request->value[OPTION_FORMAT])
        options.format = (fv_report_format)fv_word_find(FV_REPORT_FORMATS, request->value[OPTION_FORMAT]);
    options.units = cli_units(request, NULL);
    options.table = request->value[OPTION_TABLE];
    options.brief = request->value[OPTION_BRIEF] != NULL;
    options.cautions = request->value[OPTION_CAUTIONS] != NULL;
    options.series = request->value[OPTION_SERIES] != NULL;
    return options;
}
