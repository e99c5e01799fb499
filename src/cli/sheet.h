/* SPDX-License-Identifier: MIT */
/* What help writes on: text for a terminal, or a manual page in man(7)'s macros, from the same calls. In texts,
 * `backquotes` stand around what is typed. */
#ifndef CLI_SHEET_H
#define CLI_SHEET_H

#include "farvessel/base.h"

typedef struct {
    fv_text *out;
    bool man;
} cli_sheet;

/* `page`: its name in the manual, and `section` there; `synopsis`: how it is called; `what` it is, one line. */
void cli_sheet_begin(const cli_sheet *sheet, const char *page, int section, const char *synopsis, const char *what);
void cli_sheet_section(const cli_sheet *sheet, const char *title);
void cli_sheet_say(const cli_sheet *sheet, const char *text);
/* A word or an option, and what it means. */
void cli_sheet_item(const cli_sheet *sheet, const char *term, const char *text);
void cli_sheet_example(const cli_sheet *sheet, const char *line);
/* A text of paragraphs, "# " headings and lines of examples, which begin with four blanks. */
void cli_sheet_text(const cli_sheet *sheet, const char *text);

#endif
