/* SPDX-License-Identifier: MIT */
/* Writes the saturation tables as C to standard output: a program of its own, run when the library is built. Numbers
 * are hexadecimal, so that they are the very ones that were found. */
#include "props/sat.h"

#include <stdio.h>
#include <stdlib.h>

static void write_polys(const props_sat_poly *poly, int count)
{
    for (int i = 0; i < count; i++) {
        const double *c = poly[i].c;
        printf("{{%a, %a, %a, %a, %a, %a}},\n", c[0], c[1], c[2], c[3], c[4], c[5]);
    }
}

static void write_ends(const char *name, const props_sat_end *end, int count)
{
    printf(".%s = {", name);
    for (int i = 0; i < count; i++)
        printf("{%a, %a, %s},\n", end[i].value, end[i].slope, end[i].positive ? "true" : "false");
    printf("},\n");
}

static void write_table(const fv_sat *sat)
{
    printf("#include \"props/sat.h\"\n\nstatic const fv_sat line = {\n.by_p = {");
    for (int cell = 0; cell < PROPS_SAT_P_CELLS; cell++) {
        printf("{");
        write_polys(sat->by_p[cell], PROPS_SAT_BY_P);
        printf("},\n");
    }
    printf("},\n.by_t = {");
    for (int cell = 0; cell < PROPS_SAT_T_CELLS; cell++) {
        printf("{");
        write_polys(sat->by_t[cell], PROPS_SAT_BY_T);
        printf("},\n");
    }
    printf("},\n");
    write_ends("p_low", sat->p_low, PROPS_SAT_BY_P);
    write_ends("p_high", sat->p_high, PROPS_SAT_BY_P);
    write_ends("t_low", sat->t_low, PROPS_SAT_BY_T);
    write_ends("t_high", sat->t_high, PROPS_SAT_BY_T);
    printf(".p_tail = %a,\n.phi = {", sat->p_tail);
    for (int piece = 0; piece < PROPS_SAT_PIECES; piece++)
        printf("%a,\n", sat->phi[piece]);
    printf("},\n};\n\nconst fv_sat *fv_sat_line(void)\n{\n    return &line;\n}\n");
}

int main(void)
{
    fv_sat *sat = calloc(1, sizeof *sat);
    if (!sat)
        return EXIT_FAILURE;
    props_sat_build(sat);
    write_table(sat);
    free(sat);
    return fflush(stdout) == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
