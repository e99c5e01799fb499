/* SPDX-License-Identifier: MIT */
/* Words of cells that are made up as text. */
#include "print/table.h"

#include <stdio.h>

const char print_no_memory[] = "";

const char *print_word_take(fv_text *text, char buffer[PRINT_WORD_SIZE])
{
    const bool good = !text->failed;
    snprintf(buffer, PRINT_WORD_SIZE, "%s", good && text->text ? text->text : "");
    fv_text_free(text);
    return good ? buffer : print_no_memory;
}
