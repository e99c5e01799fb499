/* SPDX-License-Identifier: MIT */
/* help: how is a verb used? Also what --help says beside any verb. */
#include "cli/cli.h"

#include <string.h>

static const cli_topic *find_topic(const char *name)
{
    for (const cli_topic *topic = cli_topics; name && topic->name; topic++)
        if (strcmp(topic->name, name) == 0)
            return topic;
    return NULL;
}

cli_exit cli_help_verb(const cli_request *request)
{
    const bool beside = request->verb != &cli_verbs[VERB_HELP];
    const char *name = !beside && !request->value[OPTION_HELP] ? request->operand : NULL;
    const cli_verb *verb = beside ? request->verb : cli_find_verb(name);
    const cli_topic *topic = find_topic(name);
    if (name && !verb && !topic)
        return cli_unknown_verb(name, true);
    fv_text text = {0};
    const char *format = beside ? NULL : request->value[OPTION_FORMAT];
    const cli_sheet sheet = {&text, format && strcmp(format, "man") == 0};
    if (topic && sheet.man && topic->section == 0)
        return cli_usage("there is no manual page of '%s'; `farvessel help pages` lists them", name);
    if (verb || !topic)
        cli_help(verb, cli_topics_say, &sheet);
    else
        cli_topic_write(topic, &sheet);
    cli_exit code = cli_deliver(request, NULL, &text);
    fv_text_free(&text);
    return code;
}
