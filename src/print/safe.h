/* SPDX-License-Identifier: MIT */
/* The one place where text that somebody typed becomes safe to be shown: no character of it commands the terminal,
 * changes the order of what is shown or begins a line of its own. */
#ifndef PRINT_SAFE_H
#define PRINT_SAFE_H

#include "farvessel/base.h"

/* Adds the text as part of one line: line ends and tabs become blanks, other controls and what is no UTF-8 '?'. */
void print_safe(const char *text, fv_text *out);

/* The same as \uXXXX inside JSON, which the parser turns back; JSON's own line ends stay. */
void print_safe_json(const char *text, size_t bytes, fv_text *out);

/* As a word of a command line: quoted where a shell would take it apart, "./" before what looks like an option. */
void print_shell_word(const char *word, fv_text *out);

#endif
