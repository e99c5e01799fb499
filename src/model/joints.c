/* SPDX-License-Identifier: MIT */
/* Tees and reducers that stand at joints without being declared.
 *
 * A joint of three lines and nothing else is a tee. Where one of them is a hose and the others are rigid, or one is
 * rigid and the others are hoses, that one is the branch (a hose hangs on a header; a header that ends in two hoses
 * feeds them by its middle). Otherwise the narrowest is the branch (common practice, no source); where no one line is
 * narrowest, nothing in the file tells which way the tee stands, and nothing is counted: a <tee> says it.
 *
 * A joint of two lines of unlike bores is a reducer.
 *
 * Nothing is found where the file counts the loss already: at a joint of a declared tee, and where one of the lines
 * says k, or has a fitting that stands for a tee. */
#include "model/schema.h"

#include <stdlib.h>
#include <string.h>

typedef struct {
    int ends;
    int line[3]; /* in the order of the file */
    bool other;  /* a boiler, a coil, a drip leg, a tee of its own, or losses that are counted */
} meeting;

static bool stands_for_tee(const fv_fitting *f)
{
    return f->kind == FV_FITTING_TYPE && f->type && strncmp(f->type, "tee-", 4) == 0;
}

static bool counts_losses(const fv_line *line)
{
    bool counted = line->k.origin > FV_ASSUMED;
    for (size_t i = 0; i < line->fitting_count; i++)
        counted = counted || stands_for_tee(line->fittings[i]);
    return counted;
}

static void meet(meeting *m, int line, bool other)
{
    if (m->ends < 3)
        m->line[m->ends] = line;
    m->ends++;
    m->other = m->other || other;
}

static void find_meetings(const fv_plant *plant, meeting *all)
{
    for (size_t i = 0; i < plant->line_count; i++) {
        const fv_line *line = plant->lines[i];
        meet(&all[line->node_from], (int)i, counts_losses(line));
        meet(&all[line->node_to], (int)i, counts_losses(line));
    }
    for (size_t i = 0; i < plant->boiler_count; i++)
        all[plant->boilers[i]->node].other = true;
    for (size_t i = 0; i < plant->vessel_count; i++)
        all[plant->vessels[i]->node].other = true;
    for (size_t i = 0; i < plant->drip_count; i++)
        all[plant->drips[i]->node].other = true;
    for (size_t i = 0; i < plant->tee_count; i++)
        all[plant->tees[i]->node].other = true;
}

/* The one that hangs on the other two: 0 to 2; -1: none can be told from the others. */
static int branch_of(const fv_plant *plant, const int line[3])
{
    int hoses = 0, narrowest = 0, as_narrow = 0;
    for (int i = 0; i < 3; i++) {
        hoses += plant->lines[line[i]]->kind == FV_LINE_HOSE;
        if (plant->lines[line[i]]->bore.v < plant->lines[line[narrowest]]->bore.v)
            narrowest = i;
    }
    for (int i = 0; i < 3; i++)
        as_narrow += plant->lines[line[i]]->bore.v == plant->lines[line[narrowest]]->bore.v;
    for (int i = 0; i < 3 && (hoses == 1 || hoses == 2); i++)
        if ((plant->lines[line[i]]->kind == FV_LINE_HOSE) == (hoses == 1))
            return i;
    return as_narrow == 1 ? narrowest : -1;
}

static fv_joint joint_of(const fv_plant *plant, const meeting *m)
{
    fv_joint joint = {.kind = FV_JOINT_PLAIN, .line = {-1, -1, -1}};
    if (m->other || m->ends < 2 || m->ends > 3)
        return joint;
    if (m->ends == 2) {
        const double first = plant->lines[m->line[0]]->bore.v, second = plant->lines[m->line[1]]->bore.v;
        if (first == second)
            return joint;
        joint.kind = FV_JOINT_REDUCER;
        joint.line[0] = m->line[first > second ? 0 : 1];
        joint.line[1] = m->line[first > second ? 1 : 0];
        return joint;
    }
    const int branch = branch_of(plant, m->line);
    if (branch < 0)
        return joint;
    joint.kind = FV_JOINT_TEE;
    joint.line[0] = m->line[branch == 0 ? 1 : 0];
    joint.line[1] = m->line[branch == 2 ? 1 : 2];
    joint.line[2] = m->line[branch];
    return joint;
}

bool fv_plant_joints(const fv_plant *plant, fv_joint *joints)
{
    if (!plant || !joints)
        return false;
    const bool none = fv_word(plant->site.tees) == FV_TEES_NONE;
    meeting *all = calloc(plant->node_count + 1, sizeof *all);
    if (!all)
        return false;
    find_meetings(plant, all);
    for (size_t i = 0; i < plant->node_count; i++) {
        all[i].other = all[i].other || none;
        joints[i] = joint_of(plant, &all[i]);
    }
    free(all);
    return true;
}
