/* SPDX-License-Identifier: MIT */
/* --version: what this is, what it was built with, and under which licences it may be handed on. */
#include "cli/cli.h"

/* For their versions alone. */
#include <csv.h>
#include <gsl/gsl_version.h>
#include <jansson.h>
#include <klu.h>
#include <libical/ical.h>
#include <libxml/xmlversion.h>
#include <microhttpd.h>
#include <nettle/version.h>

#define WORD(value) #value
#define NUMBER(value) WORD(value)
#define DOTTED(major, minor) NUMBER(major) "." NUMBER(minor)

cli_exit cli_version(const cli_request *request)
{
    /* Licences by their SPDX names; tests/lint/licences.txt holds those of all that is linked. */
    const struct {
        const char *name, *version, *licence, *what_for;
    } libraries[] = {
        {"GSL", GSL_VERSION, "GPL-3.0-or-later", "special functions, fits, samples"},
        {"KLU", DOTTED(KLU_MAIN_VERSION, KLU_SUB_VERSION), "LGPL-2.1-or-later", "sparse linear systems"},
        {"AMD, COLAMD", "with KLU", "BSD-3-Clause", "the order of their rows"},
        {"BTF", "with KLU", "LGPL-2.1-or-later", "their blocks"},
        {"libxml2", LIBXML_DOTTED_VERSION, "MIT", "plant files in, pages out"},
        {"UDUNITS-2", UDUNITS_VERSION, "UDUNITS-2", "units that are not built in"},
        {"Jansson", JANSSON_VERSION, "MIT", "JSON"},
        {"libcsv", DOTTED(CSV_MAJOR, CSV_MINOR), "LGPL-2.1-or-later", "loggers' files"},
        {"libical", ICAL_VERSION, "LGPL-2.1-only OR MPL-2.0", "calendars"},
        {"Nettle", DOTTED(NETTLE_VERSION_MAJOR, NETTLE_VERSION_MINOR), "LGPL-3.0-or-later OR GPL-2.0-or-later",
         "SHA-256"},
        {"libmicrohttpd", MHD_get_version(), "LGPL-2.1-or-later", "the page that is written in"},
    };
    fv_text text = {0};
    fv_text_add(&text,
                "farvessel %s\n"
                "Its source is under the MIT licence. Built with GSL, the program as a whole is\n"
                "handed on under the GPL, version 3 or later.\n\n"
                "Built with\n",
                FV_VERSION);
    for (size_t i = 0; i < sizeof libraries / sizeof *libraries; i++)
        fv_text_add(&text, "  %-13s %-8s %s\n%25s%s\n", libraries[i].name, libraries[i].version, libraries[i].licence,
                    "", libraries[i].what_for);
    cli_exit code = cli_deliver(request, NULL, &text);
    fv_text_free(&text);
    return code;
}
