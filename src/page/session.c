/* SPDX-License-Identifier: MIT */
/* What makes a report a page to write in: the list of changes with what they brought, the values as fields, and a bar
 * that stays in sight. Every command is an ordinary form, so that it works without the script, too. */
#include "page/parts.h"
#include "print/safe.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const fv_page_session *session_of(const page_doc *d)
{
    return d->v->content->session;
}

static void hidden(page_doc *d, const char *name, const char *value)
{
    page_markup_void(d->m, "input", "type", "hidden", "name", name, "value", value, NULL);
}

static void button(page_doc *d, const char *what, const char *words, bool able)
{
    page_markup_open(d->m, "form", "method", "post", "action", "do", NULL);
    hidden(d, "do", what);
    page_markup_leaf(d->m, "button", words, "type", "submit", "disabled", able ? NULL : "disabled", NULL);
    page_markup_close(d->m);
}

/* ---- what the changes brought ---- */

static print_shown arrival(const report_heat *words, size_t vessel)
{
    static const print_shown not_yet = {"not yet"}, never = {"never"}, shut = {"shut"};
    const double took = report_heat_took(words, vessel);
    if (!isnan(took))
        return print_shown_time(took);
    return words->outcomes[vessel] == OUTCOME_SHUT      ? shut
           : words->outcomes[vessel] == OUTCOME_PENDING ? not_yet
                                                        : never;
}

/* The times to the core before, in words; false: there are none. */
static bool begin_before(const page_doc *d, report_heat *before)
{
    const fv_heat_result *was = session_of(d)->before;
    const fv_report_options options = {
        .units = d->v->units, .clock = d->v->options->clock, .twelve_hours = d->v->options->twelve_hours};
    *before = (report_heat){.result = NULL};
    return was && d->v->heat && report_heat_make(was, &options, before);
}

static print_shown arrival_before(const page_doc *d, const report_heat *before, size_t vessel)
{
    const int was = page_vessel_of(before->result, page_view_vessel(d->v, vessel));
    return was < 0 ? (print_shown){"not there"} : arrival(before, (size_t)was);
}

static void before_and_now(page_doc *d)
{
    static const page_doc_column columns[] = {
        {"vessel", "", DOC_WORD}, {"in the file", "", DOC_WORD}, {"now", "", DOC_WORD}};
    report_heat before;
    if (begin_before(d, &before)) {
        page_doc_table(d, "Time to the core", columns, sizeof columns / sizeof *columns);
        for (size_t i = 0; i < d->v->heat->vessel_count; i++) {
            page_doc_cell(d, "%s", page_view_vessel(d->v, i));
            page_doc_cell(d, "%s", arrival_before(d, &before, i).text);
            const print_shown now = arrival(&d->v->words, i);
            char words[sizeof now.text + 32];
            snprintf(words, sizeof words, "%s, %s", now.text, page_view_outcome(d->v, i));
            page_doc_cell_verdict(d, page_view_verdict(d->v, i), words);
        }
        page_doc_table_end(d);
    }
    report_heat_free(&before);
}

/* What each change does alone is worked out afterwards, one by one, for each takes a run. */
static void effects_to_come(page_doc *d)
{
    const fv_page_session *s = session_of(d);
    size_t known = 0;
    while (known < s->change_count && s->changes[known].alone)
        known++;
    if (known == s->change_count)
        return;
    page_markup_open(d->m, "form", "method", "post", "action", "do", "class", "effects", NULL);
    hidden(d, "do", "effects");
    hidden(d, "all", "yes");
    page_markup_leaf(d->m, "button", "What each does alone", "type", "submit", NULL);
    page_markup_close(d->m);
}

static void list_of_changes(page_doc *d)
{
    const fv_page_session *s = session_of(d);
    fv_text command = {0};
    bool sayable = true; /* by options of the command line, all of it */
    fv_text_add(&command, "farvessel heat ");
    print_shell_word(s->file, &command);
    page_markup_open(d->m, "ol", "class", "commands", NULL);
    for (size_t i = 0; i < s->change_count; i++) {
        char number[24], words[200];
        snprintf(number, sizeof number, "%zu", i);
        snprintf(words, sizeof words, "Take back: %s", fv_shorten(s->changes[i].what, 80).text);
        page_markup_open(d->m, "li", NULL);
        page_markup_leaf(d->m, "span", s->changes[i].what, NULL);
        if (s->changes[i].alone) {
            page_markup_open(d->m, "span", "class", "alone", NULL);
            page_markup_say(d->m, "alone: %s", s->changes[i].alone);
            page_markup_close(d->m);
        }
        page_markup_open(d->m, "form", "method", "post", "action", "do", NULL);
        hidden(d, "do", "back");
        hidden(d, "change", number);
        page_markup_leaf(d->m, "button", "Take back", "type", "submit", "aria-label", words, NULL);
        page_markup_close(d->m);
        page_markup_close(d->m);
        sayable = sayable && s->changes[i].setting;
        if (sayable)
            fv_text_add(&command, " %s", s->changes[i].setting);
    }
    page_markup_close(d->m);
    effects_to_come(d);
    if (sayable)
        page_doc_paragraph(d, "hint", "On the command line: `%s`", page_doc_words(d, &command));
    fv_text_free(&command);
}

void page_session_changes(page_doc *d)
{
    enum { ASIDE = 1000 }; /* so that all other sections are numbered as on a report */
    const fv_page_session *s = session_of(d);
    const int numbered = page_markup_number_from(d->m, ASIDE);
    page_doc_section(d, "changes", "Changes");
    if (s->wrong)
        page_markup_leaf(d->m, "p", s->wrong, "class", "wrong", "role", "alert", NULL);
    if (s->change_count == 0) {
        page_doc_paragraph(d, "hint",
                           "Nothing differs from the file. Write over any value below: the answer follows, and the "
                           "file stays as it is until Save.");
    } else {
        before_and_now(d);
        list_of_changes(d);
    }
    page_markup_open(d->m, "p", "class", "keep", NULL);
    page_markup_leaf(d->m, "a", "The plant file as it is now", "href", "plant.xml", "download", "plant.xml", NULL);
    page_markup_text(d->m, " ");
    page_markup_leaf(d->m, "a", "The report to keep", "href", "report.html", "download", "report.html", NULL);
    page_markup_close(d->m);
    page_markup_number_from(d->m, numbered);
    page_doc_end(d);
}

/* ---- values to write over ---- */

static bool is_wrong(const fv_page_session *s, const fv_page_field *f)
{
    return s->wrong_part && s->wrong_attribute && strcmp(s->wrong_part, f->part) == 0 &&
           strcmp(s->wrong_attribute, f->attribute) == 0;
}

static void choice(page_doc *d, const fv_page_field *f, const char *id, const char *shown)
{
    page_markup_open(d->m, "select", "id", id, "name", "value", NULL);
    if (!f->typed[0]) {
        page_markup_open(d->m, "option", "value", "", NULL);
        page_markup_say(d->m, "%s (not said)", f->counts ? f->counts : "");
        page_markup_close(d->m);
    }
    for (const char *at = f->words; *at;) {
        char word[48];
        const size_t length = strcspn(at, "|");
        snprintf(word, sizeof word, "%.*s", (int)length, at);
        page_markup_leaf(d->m, "option", word, "value", word, "selected", strcmp(word, shown) == 0 ? "selected" : NULL,
                         NULL);
        at += length + (at[length] == '|');
    }
    page_markup_close(d->m);
}

static void field(page_doc *d, size_t i, bool with_group)
{
    const fv_page_session *s = session_of(d);
    const fv_page_field *f = &s->fields[i];
    const bool wrong = is_wrong(s, f);
    const char *shown = wrong && s->wrong_value ? s->wrong_value : f->typed;
    char id[32], why[32];
    snprintf(id, sizeof id, "w%zu", i);
    snprintf(why, sizeof why, "w%zu-why", i);
    page_markup_open(d->m, "form", "class", f->changed ? "field changed" : "field", "method", "post", "action", "do",
                     NULL);
    hidden(d, "do", "set");
    hidden(d, "part", f->part);
    hidden(d, "attribute", f->attribute);
    page_markup_open(d->m, "label", "for", id, "title", f->doc, NULL);
    page_markup_say(d->m, "%s%s%s%s", with_group ? f->group : "", with_group ? ": " : "", f->attribute,
                    f->changed ? " (changed)" : "");
    page_markup_close(d->m);
    if (f->words) {
        choice(d, f, id, shown);
    } else {
        page_markup_open(d->m, "input", "id", id, "name", "value", "value", shown, "autocomplete", "off", "spellcheck",
                         "false", NULL);
        if (f->counts)
            page_markup_attr(d->m, "placeholder", "%s", f->counts);
        if (f->by_hand)
            page_markup_attr(d->m, "data-hand", "yes");
        if (wrong) {
            page_markup_attr(d->m, "aria-invalid", "true");
            page_markup_attr(d->m, "data-was", "%s", f->typed);
            page_markup_attr(d->m, "aria-describedby", "%s", why);
        }
        page_markup_end(d->m);
    }
    page_markup_leaf(d->m, "button", "Set", "type", "submit", "class", "set", NULL);
    if (wrong)
        page_markup_leaf(d->m, "p", s->wrong, "class", "wrong", "id", why, NULL);
    page_markup_close_line(d->m);
}

/* "hose s1: bore 19 mm, length 2 m" */
static void summary(page_doc *d, size_t from, size_t to)
{
    const fv_page_field *f = session_of(d)->fields;
    fv_text words = {0};
    for (size_t i = from; i < to; i++)
        if (!f[i].by_hand)
            fv_text_add(&words, "%s%s %s", words.length ? ", " : "", f[i].attribute,
                        f[i].typed[0] ? f[i].typed
                        : f[i].counts ? f[i].counts
                                      : "-");
    page_markup_open(d->m, "summary", NULL);
    page_markup_leaf(d->m, "b", f[from].group, NULL);
    page_markup_say(d->m, ": %s", fv_shorten(page_doc_words(d, &words), 80).text);
    page_markup_close(d->m);
    fv_text_free(&words);
}

static void group(page_doc *d, size_t from, size_t to)
{
    const fv_page_session *s = session_of(d);
    bool open = false, any = false;
    for (size_t i = from; i < to; i++) {
        any = any || !s->fields[i].by_hand;
        open = open || (!s->fields[i].by_hand && (s->fields[i].changed || is_wrong(s, &s->fields[i])));
    }
    if (!any)
        return;
    page_markup_open(d->m, "details", "data-group", s->fields[from].group, "open", open ? "open" : NULL, NULL);
    summary(d, from, to);
    page_markup_open(d->m, "div", "class", "fields", NULL);
    for (size_t i = from; i < to; i++)
        if (!s->fields[i].by_hand)
            field(d, i, false);
    page_markup_close(d->m);
    page_markup_close_line(d->m);
}

/* ---- parts that come and go, in sentences ---- */

static void sentence_begin(page_doc *d, const char *command)
{
    page_markup_open(d->m, "form", "class", "sentence", "method", "post", "action", "do", NULL);
    hidden(d, "do", command);
}

static void sentence_end(page_doc *d, const char *command, const char *does)
{
    const fv_page_session *s = session_of(d);
    page_markup_leaf(d->m, "button", does, "type", "submit", NULL);
    if (s->sentence.command && strcmp(s->sentence.command, command) == 0)
        page_markup_leaf(d->m, "p", s->wrong, "class", "wrong", NULL);
    page_markup_close_line(d->m);
}

/* What was typed into a sentence that was refused; NULL: nothing. */
static const char *typed_in(page_doc *d, const char *command, const char *name)
{
    const fv_page_sentence *said = &session_of(d)->sentence;
    for (size_t i = 0; said->command && strcmp(said->command, command) == 0 && i < FV_SENTENCE_TYPED; i++)
        if (said->names[i] && strcmp(said->names[i], name) == 0)
            return said->typed[i];
    return NULL;
}

static void gap(page_doc *d, const char *command, const char *name, const char *label, const char *like)
{
    page_markup_void(d->m, "input", "name", name, "aria-label", label, "placeholder", like, "autocomplete", "off",
                     "spellcheck", "false", "value", typed_in(d, command, name), NULL);
}

static void option(page_doc *d, const char *value, const char *words, const char *chosen)
{
    page_markup_leaf(d->m, "option", words, "value", value, "selected",
                     chosen && strcmp(chosen, value) == 0 ? "selected" : NULL, NULL);
}

/* Vessels (`vessels`) and lines (`lines`) of the plant, and valves that have a name. `first`: the empty choice, or
 * NULL.
 */
static void parts_to_choose(page_doc *d, const char *command, const char *name, const char *label, const char *first,
                            bool vessels, bool lines, bool valves)
{
    const fv_plant *plant = d->v->plant;
    const char *chosen = typed_in(d, command, name);
    page_markup_open(d->m, "select", "name", name, "aria-label", label, NULL);
    if (first)
        option(d, "", first, chosen);
    for (size_t i = 0; vessels && i < plant->vessel_count; i++)
        option(d, plant->vessels[i]->part.id, plant->vessels[i]->part.id, chosen);
    for (size_t i = 0; lines && i < plant->line_count; i++) {
        const fv_line *line = plant->lines[i];
        option(d, line->part.id, line->part.id, chosen);
        for (size_t k = 0; valves && k < line->fitting_count; k++)
            if (line->fittings[k]->part.id)
                option(d, line->fittings[k]->part.id, line->fittings[k]->part.id, chosen);
    }
    page_markup_close(d->m);
}

static void words_to_choose(page_doc *d, const char *command, const char *name, const char *label,
                            const char *const *words)
{
    page_markup_open(d->m, "select", "name", name, "aria-label", label, NULL);
    for (; *words; words++)
        option(d, *words, *words, typed_in(d, command, name));
    page_markup_close(d->m);
}

static void valves_to_choose(page_doc *d)
{
    size_t count;
    const fv_fitting_entry *all = fv_fittings(&count);
    page_markup_open(d->m, "select", "name", "what", "aria-label", "valve", NULL);
    for (size_t i = 0; i < count; i++)
        if (all[i].valve)
            option(d, all[i].name, all[i].name, typed_in(d, "put", "what"));
    page_markup_close(d->m);
}

static void add_and_take_away(page_doc *d)
{
    static const char *const lines[] = {"header", "pipe", "hose", NULL};
    page_doc_subheading(d, "Add and take away");
    sentence_begin(d, "add");
    page_markup_text(d->m, "Add a vessel like ");
    parts_to_choose(d, "add", "like", "vessel that it is like", NULL, true, false, false);
    page_markup_text(d->m, " on a hose like ");
    parts_to_choose(d, "add", "hose", "hose that its hose is like", "its own", false, true, false);
    page_markup_text(d->m, ", further along the header by ");
    gap(d, "add", "far", "how much further along", "0 m");
    sentence_end(d, "add", "Add");
    sentence_begin(d, "put");
    page_markup_text(d->m, "Put a ");
    valves_to_choose(d);
    page_markup_text(d->m, " into ");
    parts_to_choose(d, "put", "into", "line", NULL, false, true, false);
    sentence_end(d, "put", "Put");
    sentence_begin(d, "join");
    page_markup_text(d->m, "Join ");
    gap(d, "join", "from", "joint", "t6");
    page_markup_text(d->m, " and ");
    gap(d, "join", "to", "other joint", "t1");
    page_markup_text(d->m, " with a ");
    words_to_choose(d, "join", "line", "sort of line", lines);
    page_markup_text(d->m, " of ");
    gap(d, "join", "bore", "bore", "35 mm");
    page_markup_text(d->m, ", ");
    gap(d, "join", "length", "length", "8 m");
    sentence_end(d, "join", "Join");
    sentence_begin(d, "away");
    page_markup_text(d->m, "Take away ");
    parts_to_choose(d, "away", "part", "part to take away", "(choose)", true, true, true);
    sentence_end(d, "away", "Take away");
}

/* One more field for what is not listed, in the manner of --set. */
static void any_value(page_doc *d)
{
    page_doc_subheading(d, "Any other value");
    sentence_begin(d, "set");
    page_markup_text(d->m, "Of ");
    gap(d, "set", "part", "part", "bench6.coil");
    page_markup_text(d->m, " the ");
    gap(d, "set", "attribute", "attribute", "drill");
    page_markup_text(d->m, " is ");
    gap(d, "set", "value", "value", "3 mm");
    sentence_end(d, "set", "Set");
}

void page_session_fields(page_doc *d)
{
    const fv_page_session *s = session_of(d);
    page_doc_section(d, "write", "Write over");
    page_doc_paragraph(d, "hint", "As in the file, with its unit: 19 mm, 3/4 in. Empty: not said, the usual value.");
    page_doc_subheading(d, "Turned by hand");
    page_markup_open(d->m, "div", "class", "fields", NULL);
    for (size_t i = 0; i < s->field_count; i++)
        if (s->fields[i].by_hand)
            field(d, i, true);
    page_markup_close(d->m);
    page_doc_subheading(d, "Measured");
    for (size_t from = 0, to; from < s->field_count; from = to) {
        for (to = from + 1; to < s->field_count && strcmp(s->fields[to].group, s->fields[from].group) == 0;)
            to++;
        group(d, from, to);
    }
    add_and_take_away(d);
    any_value(d);
    page_doc_end(d);
}

/* ---- the bar ---- */

void page_session_bar(page_doc *d)
{
    const fv_page_session *s = session_of(d);
    report_heat before;
    const bool beside = begin_before(d, &before) && s->change_count > 0;
    page_markup_open(d->m, "section", "id", "bar", "aria-label", "Changes and Save", NULL);
    page_markup_open(d->m, "p", NULL);
    if (d->v->heat && d->v->heat->vessel_count > 0) {
        const size_t last = d->v->worst;
        page_markup_leaf(d->m, "b", page_view_vessel(d->v, last), NULL);
        page_markup_say(d->m, " last, %s", arrival(&d->v->words, last).text);
        if (beside)
            page_markup_say(d->m, "; in the file %s", arrival_before(d, &before, last).text);
    }
    page_markup_close(d->m);
    button(d, "undo", "Undo", s->can_undo);
    button(d, "redo", "Redo", s->can_redo);
    button(d, "save", s->unsaved ? "Save" : "Saved", s->unsaved);
    page_markup_close_line(d->m);
    report_heat_free(&before);
}
