/* SPDX-License-Identifier: MIT */
/* XML to a tree of our own, with libxml2's SAX interface. The tree knows the
 * line of every attribute, which no DOM does, and files of any length keep their line numbers. */
#include "plantfile/tree.h"

#include <ctype.h>
#include <pthread.h>
#include <stdio.h>
#include <string.h>

#include <libxml/parser.h>
#include <libxml/parserInternals.h>

typedef struct {
    tree *t;
    xmlParserCtxtPtr xml;
    tree_node *open; /* innermost element that is not closed */
    size_t depth, elements;
    bool stopped; /* by us, the reason is in the faults */
    bool failed;  /* out of memory */
} parser;

static int line_now(const parser *p)
{
    return p->xml->input ? p->xml->input->line : 0;
}

static void stop(parser *p, int line, const char *text)
{
    if (!p->stopped)
        fv_error(p->t->faults, FV_ERR_INPUT, (fv_loc){p->t->file, line}, "%s", text);
    p->stopped = true;
    xmlStopParser(p->xml);
}

static void out_of_memory(parser *p)
{
    p->failed = p->stopped = true;
    xmlStopParser(p->xml);
}

/* A place in the parser's buffer whose line is known; `at` NULL: none. */
typedef struct {
    const xmlChar *at;
    int line;
} place;

static int newlines(const xmlChar *from, const xmlChar *to)
{
    int count = 0;
    for (; from < to; from++)
        count += *from == '\n';
    return count;
}

/* No '<' can stand inside a tag, so the last one before here opened it. */
static place start_of_tag(const parser *p)
{
    xmlParserInputPtr input = p->xml->input;
    for (const xmlChar *c = input ? input->cur : NULL; c && c > input->base; c--)
        if (c[-1] == '<')
            return (place){c - 1, input->line - newlines(c - 1, input->cur)};
    return (place){NULL, line_now(p)};
}

/* Moves on to a later place. Values with entities in them are not in the buffer; they count to where it stands. */
static void move_on(const parser *p, place *here, const xmlChar *to)
{
    if (!here->at || to < here->at || to > p->xml->input->cur)
        return;
    here->line += newlines(here->at, to);
    here->at = to;
}

static const char *copy(parser *p, const xmlChar *text, size_t length)
{
    char *made = fv_arena_alloc(p->t->arena, length + 1, 1);
    if (!made) {
        out_of_memory(p);
        return "";
    }
    memcpy(made, text, length);
    return made;
}

static const char *copy_all(parser *p, const xmlChar *text)
{
    return copy(p, text, strlen((const char *)text));
}

/* xsi:schemaLocation, by which an editor finds the XSD. */
static bool is_for_editors(const xmlChar *const *given)
{
    const char *name = (const char *)given[0], *space = (const char *)given[2];
    return space && strcmp(space, "http://www.w3.org/2001/XMLSchema-instance") == 0 &&
           (strcmp(name, "schemaLocation") == 0 || strcmp(name, "noNamespaceSchemaLocation") == 0);
}

static bool is_short_enough(parser *p, const xmlChar *const *given, int line)
{
    char text[200];
    const size_t length = (size_t)(given[4] - given[3]), most = p->t->limits->value_most;
    if (length > most) {
        snprintf(text, sizeof text, "%s is %zu bytes long; at most %zu can be read",
                 fv_shorten((const char *)given[0], 40).text, length, most);
        stop(p, line, text);
    }
    return length <= most;
}

static void add_attr(parser *p, tree_node *node, const xmlChar *const *given, int line)
{
    tree_attr *attr = fv_arena_alloc(p->t->arena, 1, sizeof *attr);
    if (!attr) {
        out_of_memory(p);
        return;
    }
    attr->line = line;
    attr->value = copy(p, given[3], (size_t)(given[4] - given[3]));
    if (given[1]) {
        fv_text name = {0};
        fv_text_add(&name, "%s:%s", (const char *)given[1], (const char *)given[0]);
        attr->name = name.failed ? NULL : fv_arena_copy(p->t->arena, name.text);
        fv_text_free(&name);
        if (!attr->name)
            out_of_memory(p);
    } else {
        attr->name = copy_all(p, given[0]);
    }
    if (node->last_attr)
        node->last_attr->next = attr;
    else
        node->attrs = attr;
    node->last_attr = attr;
}

static void hang_in(parser *p, tree_node *node)
{
    node->parent = p->open;
    if (!p->open)
        p->t->root = node;
    else if (p->open->last_child)
        p->open->last_child->next = node;
    else
        p->open->child = node;
    if (p->open)
        p->open->last_child = node;
    p->open = node;
}

static bool is_within_limits(parser *p, size_t attributes, int line)
{
    char text[128];
    if (++p->elements > p->t->limits->elements_most) {
        snprintf(text, sizeof text, "more than %zu elements", p->t->limits->elements_most);
        stop(p, line, text);
        return false;
    }
    if (attributes > p->t->limits->attributes_most) {
        snprintf(text, sizeof text, "more than %zu attributes of an element", p->t->limits->attributes_most);
        stop(p, line, text);
        return false;
    }
    if (++p->depth > p->t->limits->depth_most) {
        snprintf(text, sizeof text, "elements more than %zu deep inside each other", p->t->limits->depth_most);
        stop(p, line, text);
        return false;
    }
    return true;
}

static void on_start(void *context, const xmlChar *name, const xmlChar *prefix, const xmlChar *space, int space_count,
                     const xmlChar **spaces, int attr_count, int defaulted, const xmlChar **attrs)
{
    parser *p = context;
    (void)prefix, (void)spaces, (void)defaulted;
    if (p->stopped)
        return;
    place here = start_of_tag(p);
    if (!is_within_limits(p, (size_t)attr_count + (size_t)space_count, here.line))
        return;
    tree_node *node = fv_arena_alloc(p->t->arena, 1, sizeof *node);
    if (!node) {
        out_of_memory(p);
        return;
    }
    node->line = here.line;
    node->name = copy_all(p, name);
    node->space = space ? copy_all(p, space) : NULL;
    for (int i = 0; i < attr_count && !p->failed; i++) {
        const xmlChar *const *given = (const xmlChar *const *)attrs + (size_t)i * 5;
        move_on(p, &here, given[3]);
        if (!is_short_enough(p, given, here.line))
            return;
        if (!is_for_editors(given))
            add_attr(p, node, given, here.line);
    }
    hang_in(p, node);
}

static void on_end(void *context, const xmlChar *name, const xmlChar *prefix, const xmlChar *space)
{
    parser *p = context;
    (void)name, (void)prefix, (void)space;
    if (p->stopped || !p->open)
        return;
    p->open = p->open->parent;
    p->depth--;
}

static void on_text(void *context, const xmlChar *text, int length)
{
    parser *p = context;
    size_t from = 0, n = (size_t)length;
    while (from < n && isspace(text[from]))
        from++;
    if (p->stopped || !p->open || from == n)
        return;
    if (p->open->stray)
        return;
    size_t shown = n - from < 24 ? n - from : 24;
    while (shown > 0 && (isspace(text[from + shown - 1]) || (from + shown < n && (text[from + shown] & 0xC0) == 0x80)))
        shown--;
    p->open->stray = copy(p, text + from, shown);
    p->open->stray_line = line_now(p);
    for (size_t i = from; i < n; i++)
        p->open->stray_line -= text[i] == '\n';
}

static void on_doctype(void *context, const xmlChar *name, const xmlChar *external, const xmlChar *system)
{
    parser *p = context;
    (void)name, (void)external, (void)system;
    stop(p, line_now(p), "a DOCTYPE is refused: a plant file needs no DTD and no entities; take it out");
}

static void trim(char *text)
{
    for (char *c = text; *c; c++)
        if (*c == '\n')
            *c = ' ';
    for (size_t n = strlen(text); n > 0 && text[n - 1] == ' '; n--)
        text[n - 1] = '\0';
}

static void on_parse_error(void *context, xmlErrorPtr error)
{
    (void)context;
    xmlParserCtxtPtr xml = error->ctxt;
    parser *p = xml ? xml->_private : NULL;
    if (!p || p->stopped)
        return;
    if (error->code == XML_ERR_NO_MEMORY) {
        out_of_memory(p);
        return;
    }
    if (error->level < XML_ERR_ERROR)
        return;
    char text[256];
    snprintf(text, sizeof text, "not well-formed XML: %s", error->message ? error->message : "unknown error");
    trim(text);
    stop(p, error->line, text);
    p->t->broken = true;
}

static void silent(void *context, xmlErrorPtr error)
{
    (void)context, (void)error;
}

static void set_handlers(xmlSAXHandlerPtr sax)
{
    memset(sax, 0, sizeof *sax);
    sax->initialized = XML_SAX2_MAGIC;
    sax->startElementNs = on_start;
    sax->endElementNs = on_end;
    sax->characters = on_text;
    sax->ignorableWhitespace = NULL;
    sax->cdataBlock = on_text;
    sax->internalSubset = on_doctype;
    sax->serror = on_parse_error;
}

bool plantfile_tree_parse(tree *t, const char *bytes, size_t length)
{
    static pthread_once_t once = PTHREAD_ONCE_INIT;
    parser p = {.t = t};
    pthread_once(&once, xmlInitParser);
    /* Where libxml2 knows nobody to tell, out of memory for example, it would write to stderr. */
    xmlStructuredErrorFunc old = xmlStructuredError;
    void *old_context = xmlStructuredErrorContext;
    xmlSetStructuredErrorFunc(NULL, silent);
    p.xml = xmlCreateMemoryParserCtxt(bytes, (int)length);
    if (p.xml) {
        set_handlers(p.xml->sax);
        p.xml->userData = &p;
        p.xml->_private = &p;
        /* NOENT only turns &amp; and its like into what they stand for: without a DTD there are no other entities. The
         * bytes are UTF-8 by now, whatever the declaration says. */
        const char *zero = memchr(bytes, '\0', length);
        xmlCtxtUseOptions(p.xml, XML_PARSE_NONET | XML_PARSE_NOENT | XML_PARSE_IGNORE_ENC);
        /* It takes a zero byte for the end, and would leave out what follows. */
        if (zero)
            stop(&p, 1 + newlines((const xmlChar *)bytes, (const xmlChar *)zero), "a zero byte, which no text has");
        else
            xmlParseDocument(p.xml);
        if (!p.xml->wellFormed && !p.stopped)
            stop(&p, line_now(&p), "not well-formed XML");
        xmlFreeParserCtxt(p.xml);
    }
    bool failed = p.failed || !p.xml;
    xmlSetStructuredErrorFunc(old_context, old);
    if (failed)
        fv_error(t->faults, FV_ERR_SYSTEM, (fv_loc){t->file, 0}, "out of memory");
    return !failed && !p.stopped && t->root;
}
