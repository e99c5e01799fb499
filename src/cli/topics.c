/* SPDX-License-Identifier: MIT */
/* What `farvessel help` tells beside the verbs, and the manual pages of it. A new topic is one row and what writes it;
 * a chapter of the guide is one row and a text in guide/. */
#include "cli/cli.h"
#include "cli/guide.h"

#include "farvessel/plantfile.h"
#include "model/contains.h"
#include "print/screen.h"

#include <ctype.h>
#include <string.h>

static void limits(const cli_sheet *s)
{
    const char *what;
    size_t most;
    fv_text_add(s->out, "What a plant file may hold at most, so that any file is answered at once\n\n");
    for (size_t i = 0; fv_plantfile_limit_at(NULL, i, &what, &most); i++)
        fv_text_add(s->out, "%10zu  %s\n", most, what);
}

/* ---- the plant file, from the schema ---- */

/* "<coil> in <kind>, <vessel>" */
static void say_place(const fv_element *element, fv_text *out)
{
    size_t count;
    const fv_element *all = fv_schema(&count), *child;
    bool first = true;
    fv_text_add(out, "<%s>", model_tag(element));
    for (size_t i = 0; i < count; i++)
        if (model_slot_find(&all[i], model_tag(element), &child) && child == element) {
            fv_text_add(out, "%s<%s>", first ? " in " : ", ", all[i].name);
            first = false;
        }
}

static void say_attribute(const cli_sheet *s, const fv_attr *attr)
{
    fv_text term = {0}, doc = {0};
    fv_text_add(&term, "%s%s", attr->name, attr->required ? " (required)" : "");
    fv_plantfile_describe(attr, &doc);
    for (const char *word = attr->words; word && *word; word += strspn(word, "|")) {
        const size_t length = strcspn(word, "|");
        fv_text_add(&doc, "%s%.*s", word == attr->words ? " One of: " : ", ", (int)length, word);
        word += length;
    }
    fv_text_add(&doc, "%s", attr->words ? "." : "");
    cli_sheet_item(s, term.failed ? "" : term.text, doc.failed ? "" : doc.text);
    s->out->failed = s->out->failed || term.failed || doc.failed;
    fv_text_free(&term);
    fv_text_free(&doc);
}

static void plant(const cli_sheet *s)
{
    size_t count;
    const fv_element *all = fv_schema(&count);
    cli_sheet_section(s, "Description");
    cli_sheet_text(s, cli_guide_plant);
    for (size_t i = 0; i < count; i++) {
        fv_text title = {0}, doc = {0};
        say_place(&all[i], &title);
        fv_text_add(&doc, "%s.", all[i].doc);
        cli_sheet_section(s, title.failed ? "" : title.text);
        cli_sheet_say(s, doc.failed ? "" : doc.text);
        fv_text_free(&title);
        fv_text_free(&doc);
        for (size_t k = 0; k < all[i].attr_count; k++)
            say_attribute(s, &all[i].attrs[k]);
    }
}

static void add_page(fv_text *out, const char *page, int section, const char *name)
{
    fv_text_add(out, "farvessel%s%s.%d %s\n", *page ? "-" : "", page, section, name);
}

static void say_pages(const cli_sheet *s)
{
    add_page(s->out, "", 1, "");
    for (size_t i = 0; i < VERB_COUNT; i++)
        add_page(s->out, cli_verbs[i].name, 1, cli_verbs[i].name);
    for (const cli_topic *topic = cli_topics; topic->name; topic++)
        if (topic->section)
            add_page(s->out, topic->page, topic->section, topic->name);
}

static void completion(const cli_sheet *s)
{
    cli_completion(cli_topics, s->out);
}

static void completion_zsh(const cli_sheet *s)
{
    cli_completion_zsh(cli_topics, s->out);
}

static void completion_fish(const cli_sheet *s)
{
    cli_completion_fish(cli_topics, s->out);
}

const cli_topic cli_topics[] = {
    {"measuring", "measuring", 7, "how to measure a plant with a tape", NULL, cli_guide_measuring},
    {"reading", "reading", 7, "how to read the answer", NULL, cli_guide_reading},
    {"probes", "probes", 7, "how a probe and a logger's file narrow the answer", NULL, cli_guide_probes},
    {"thermostats", "thermostats", 7, "how to keep a chamber between two temperatures", NULL, cli_guide_thermostats},
    {"turning-down", "turning-down", 7, "how to turn the fire down without losing a vessel", NULL,
     cli_guide_turning_down},
    {"cautions", "cautions", 7, "what can hurt, and what this program cannot answer for", NULL, cli_guide_cautions},
    {"left-out", "left-out", 7, "what the model leaves out", NULL, cli_guide_left_out},
    {"plant", "plant", 5, "what a plant file can say", plant, NULL},
    {"log-file", "log", 5, "what a logger's file may look like", NULL, cli_guide_log},
    {"limits", NULL, 0, "tells how much a plant file may hold", limits, NULL},
    {"completion", NULL, 0, "makes completion for bash", completion, NULL},
    {"completion-zsh", NULL, 0, "makes completion for zsh", completion_zsh, NULL},
    {"completion-fish", NULL, 0, "makes completion for fish", completion_fish, NULL},
    {"pages", NULL, 0, "lists the manual's pages, each with what help calls it", say_pages, NULL},
    {NULL, NULL, 0, NULL, NULL, NULL},
};

void cli_topic_write(const cli_topic *topic, const cli_sheet *s)
{
    char page[CLI_PAGE_SIZE];
    snprintf(page, sizeof page, "farvessel-%s", topic->page ? topic->page : "");
    if (topic->section > 0 && s->man)
        cli_sheet_begin(s, page, topic->section, "", topic->doc);
    else if (topic->section > 0)
        print_sayf(s->out, "", "%c%s", toupper((unsigned char)*topic->doc), topic->doc + 1);
    if (topic->write)
        topic->write(s);
    else
        cli_sheet_text(s, topic->text);
}

void cli_topics_say(const cli_sheet *s)
{
    for (const cli_topic *topic = cli_topics; topic->name; topic++) {
        fv_text line = {0};
        fv_text_add(&line, "`farvessel help %s` %s%s.", topic->name, topic->section ? "tells " : "", topic->doc);
        cli_sheet_say(s, line.failed ? "" : line.text);
        fv_text_free(&line);
    }
}
