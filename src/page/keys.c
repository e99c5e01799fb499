/* SPDX-License-Identifier: MIT */
/* The legend of the plant's drawing: only what occurs in it. */
#include "page/parts.h"

#include <math.h>

static void key(page_doc *d, const char *css_class, const char *outline, const char *words)
{
    page_markup_open(d->m, "li", NULL);
    page_markup_open(d->m, "svg", "xmlns", "http://www.w3.org/2000/svg", "class", css_class, "viewBox", "-16 -12 32 26",
                     "width", "32", "height", "26", "aria-hidden", "true", NULL);
    page_markup_raw(d->m, outline);
    page_markup_close(d->m);
    page_markup_text(d->m, words);
    page_markup_close_line(d->m);
}

/* What occurs in the drawing. */
static void line_keys(page_doc *d)
{
    const fv_plant *plant = d->v->plant;
    bool still = false, sag = false, valve = false, choked = false;
    for (size_t i = 0; i < plant->line_count; i++) {
        const fv_line_result *r = &d->v->flow->state->lines[i];
        still = still || r->blocked || r->shut || !(fabs(r->flow_from) > 0.0 || fabs(r->flow_to) > 0.0);
        sag = sag || fv_or(plant->lines[i]->sag, 0.0) > 0.0;
        choked = choked || r->choked;
        for (size_t k = 0; k < plant->lines[i]->fitting_count; k++) {
            const fv_fitting_entry *entry = fv_fitting_entry_of(plant->lines[i]->fittings[k]);
            valve = valve || plant->lines[i]->fittings[k]->kind == FV_FITTING_VALVE || (entry && entry->valve);
        }
    }
    key(d, "plain",
        "<path class=\"wire\" stroke-width=\"8\" d=\"M-12 -4H12\"/><path class=\"wire\" stroke-width=\"2\" d=\"M-12 "
        "7H12\"/>",
        "steam: the wider, the more");
    if (still)
        key(d, "plain", "<path class=\"wire still\" d=\"M-13 0H13\"/>", "nothing passes");
    if (sag)
        key(d, "sag",
            "<path class=\"belly\" d=\"M-14 0C-8 0 -9 13 0 13S8 0 14 0\"/><path class=\"pool\" d=\"M-8.5 5C-6.5 10 "
            "-4.5 "
            "13 0 13S6.5 10 8.5 5z\"/>",
            "water in a sag");
    if (valve)
        key(d, "valve", "<path class=\"body\" d=\"M-7 -5.5L7 5.5V-5.5L-7 5.5z\"/>", "valve, filled where shut");
    if (choked)
        key(d, "pinch", "<path class=\"body\" d=\"M-6 -9H6L0 -1.5zM-6 9H6L0 1.5z\"/>", "choked");
    if (plant->drip_count > 0)
        key(d, "drip",
            "<path class=\"drop\" d=\"M0 -8C4 -1 5.5 1 5.5 3.5A5.5 5.5 0 0 1 -5.5 3.5C-5.5 1 -4 -1 0 -8z\"/>",
            "drip leg");
}

static bool occurs(const page_view *v, fv_verdict verdict)
{
    for (size_t i = 0; i < v->plant->vessel_count; i++)
        if (page_view_verdict(v, i) == verdict)
            return true;
    return false;
}

void page_drawing_keys(page_doc *d)
{
    static const fv_verdict verdicts[] = {FV_FED, FV_LAGGING, FV_STARVED, FV_SHUT_OFF};
    page_markup_open(d->m, "ul", "class", "keys", NULL);
    page_markup_newline(d->m);
    for (size_t i = 0; i < sizeof verdicts / sizeof *verdicts; i++) {
        if (!occurs(d->v, verdicts[i]))
            continue;
        page_markup_open(d->m, "li", NULL);
        page_doc_sign(d->m, verdicts[i]);
        page_markup_text(d->m, fv_verdict_word(verdicts[i]));
        page_markup_close_line(d->m);
    }
    line_keys(d);
    page_markup_close_line(d->m);
}
