/* SPDX-License-Identifier: MIT */
/* The style sheets and scripts of this folder as texts, built in by the Makefile without their lines of comment. */
#ifndef PAGE_EMBEDDED_H
#define PAGE_EMBEDDED_H

extern const char page_drawing_rules[];
extern const char page_style_rules[];
extern const char page_script[];
extern const char page_session_rules[];
extern const char page_session_script[];

#endif
