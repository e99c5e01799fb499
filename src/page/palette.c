/* SPDX-License-Identifier: MIT */
/* Found by a random search that spread the six series colours as far as they go in CIELAB, as seen with normal sight
 * and with protanopia, deuteranopia and tritanopia, at six distinct lightnesses, so that they stay apart in grey print,
 * too. tests/page/test_palette.c holds the distances and the contrasts. Dash patterns and words carry every
 * difference besides. */
#include "page/palette.h"

const page_palette_colour page_palette[PALETTE_COUNT] = {
    [PALETTE_PAPER] = {"paper", "#fbfaf5", "#16211d"},     [PALETTE_CARD] = {"card", "#f2f0e6", "#1f2c27"},
    [PALETTE_INK] = {"ink", "#1b2b26", "#eceee6"},         [PALETTE_SOFT] = {"soft", "#4f5d57", "#b0bcb5"},
    [PALETTE_RULE] = {"rule", "#d5d2c4", "#3b4b45"},       [PALETTE_PIPE] = {"pipe", "#66766f", "#8b9f96"},
    [PALETTE_STEAM] = {"steam", "#9c4a1f", "#e6a06e"},     [PALETTE_WATER] = {"water", "#2d6a99", "#7fb9e2"},
    [PALETTE_FED] = {"fed", "#20798a", "#57befc"},         [PALETTE_LAGGING] = {"lagging", "#b0820c", "#f5d936"},
    [PALETTE_STARVED] = {"starved", "#7d0f35", "#e3735c"}, [PALETTE_SERIES] = {"s1", "#5b0c6f", "#f43a86"},
    [PALETTE_SERIES + 1] = {"s2", "#5f65e0", "#91a0f8"},   [PALETTE_SERIES + 2] = {"s3", "#4f5c04", "#fbcd43"},
    [PALETTE_SERIES + 3] = {"s4", "#df6b78", "#d6f2bf"},   [PALETTE_SERIES + 4] = {"s5", "#7f1a41", "#ec885b"},
    [PALETTE_SERIES + 5] = {"s6", "#b068aa", "#5ed7d9"},
};

void page_palette_css(bool dark, fv_text *out)
{
    for (int i = 0; i < PALETTE_COUNT; i++)
        fv_text_add(out, "--%s:%s;", page_palette[i].name, dark ? page_palette[i].dark : page_palette[i].light);
}
