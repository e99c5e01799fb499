/* SPDX-License-Identifier: MIT */
/* The table of drawings and charts. */
#include "page/pictures.h"

#include <string.h>

typedef struct {
    const char *name;
    void (*draw)(const page_view *v, page_markup *m);
    page_picture_place place;
    fv_page_time shows;
} picture;

#define ROW(name, place, shows) {#name, page_svg_##name, place, shows},
static const picture pictures[] = {PAGE_PICTURES(ROW)};
#undef ROW
enum { PICTURES = sizeof pictures / sizeof *pictures };

static const picture *find(int only)
{
    char name[24];
    fv_word_at(FV_PAGE_DRAWINGS, only, name, sizeof name);
    for (size_t i = 0; i < PICTURES; i++)
        if (strcmp(pictures[i].name, name) == 0)
            return &pictures[i];
    return NULL;
}

fv_page_time fv_page_shows(int only)
{
    const picture *found = find(only);
    return found ? found->shows : FV_PAGE_OF_EITHER;
}

static bool is_known(const page_view *v, const picture *p)
{
    switch (p->shows) {
    case FV_PAGE_OF_WEEK:
        return v->content->week != NULL;
    case FV_PAGE_OF_REMEDY:
        return v->heat && (v->content->why || v->content->plan);
    case FV_PAGE_OF_RUN:
        return v->heat != NULL;
    default:
        return true;
    }
}

void page_pictures_draw(const page_view *v, page_markup *m, page_picture_place place)
{
    for (size_t i = 0; i < PICTURES; i++)
        if (pictures[i].place == place && is_known(v, &pictures[i]))
            pictures[i].draw(v, m);
}

void page_pictures_draw_only(const page_view *v, page_markup *m)
{
    const picture *found = find(v->options->only);
    if (found && is_known(v, found))
        found->draw(v, m);
    else
        page_markup_fail(m);
}
