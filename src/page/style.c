/* SPDX-License-Identifier: MIT */
/* How the page looks: drawing.css and style.css, with the palette's colours. A file with one drawing gets its colours
 * written out, for programs that know no variables. */
#include "page/embedded.h"
#include "page/palette.h"
#include "page/parts.h"

#include <string.h>

/* Colours in the place of var(--name). */
void page_drawing_css(fv_text *out)
{
    const char *rest = page_drawing_rules, *open;
    while ((open = strstr(rest, "var(--")) != NULL) {
        const char *name = open + strlen("var(--");
        size_t length = strcspn(name, ")");
        fv_text_add(out, "%.*s", (int)(open - rest), rest);
        for (int i = 0; i < PALETTE_COUNT; i++)
            if (strlen(page_palette[i].name) == length && strncmp(page_palette[i].name, name, length) == 0)
                fv_text_add(out, "%s", page_palette[i].light);
        rest = name + length + 1;
    }
    fv_text_add(out, "%s", rest);
}

void page_css(fv_text *out)
{
    fv_text_add(out, "\n:root{");
    page_palette_css(false, out);
    fv_text_add(out, "}\n@media (prefers-color-scheme:dark){:root{");
    page_palette_css(true, out);
    fv_text_add(out, "}}\n@media print{:root{");
    page_palette_css(false, out);
    fv_text_add(out, "}}\n%s%s", page_drawing_rules, page_style_rules);
}
