/* SPDX-License-Identifier: MIT */
/* Cautions. Facts behind them: skin burns in 3 s at 60 degC water (public hot-water exposure tables), ASTM C1055 and
 * ISO 13732-1 for surfaces; NFPA 54 for combustion air; ISO 6134 for steam hoses; a shut vent makes a vessel a pressure
 * vessel; half a log of resistant spores in 12 h at 100 degC (Kort et al. 2005, extrapolated). */
#include "print/cautions.h"
#include "print/screen.h"
#include "print/show.h"
#include "print/json.h"

static const double SAFE_GAS = 333.15; /* K at the lid; common practice, no source */

void print_safe_to_open(fv_unit_system units, fv_text *out)
{
    fv_text_add(out, "its steam shut, no pressure, the gas at its lid below %s, and you behind a face shield",
                print_shown_said(units, FV_SHOW_TEMPERATURE, SAFE_GAS).text);
}

static bool always(const fv_plant *plant)
{
    (void)plant;
    return true;
}

static bool has_hoses(const fv_plant *plant)
{
    for (size_t i = 0; i < plant->line_count; i++)
        if (plant->lines[i]->kind == FV_LINE_HOSE)
            return true;
    return false;
}

bool print_burns_fuel(const fv_plant *plant)
{
    for (size_t i = 0; i < plant->boiler_count; i++)
        if (!fv_is_set(plant->boilers[i]->fuel) || fv_word(plant->boilers[i]->fuel) != FV_FUEL_ELECTRICITY)
            return true;
    return false;
}

static const struct {
    const char *id, *when, *line, *text; /* `line`: the gist of it, for a screen */
    bool (*applies)(const fv_plant *plant);
} cautions[] = {
    {"codes", "always", "Local codes and licensed practice come first; this approves nothing.",
     "local codes and licensed practice come first. This is a calculation, not a design approval and not a safety "
     "device; it sizes no relief valve. Ask the inspector and the insurer.",
     always},
    {"burns", "wherever there is steam", "Steam scalds, and a jet is invisible at the hole.",
     "steam and its condensate scald at once and a jet is invisible at the hole; bare hoses, pipes and lids burn on "
     "touch. Gauntlets, face shield, long sleeves; shut the steam, wait, and crack a lid away from you.",
     always},
    {"vent", "as long as a vessel is on the steam",
     "Never close or block the last vent or drain of a vessel on the steam.",
     "never close or block its last vent or drain. With no way out it is a pressure vessel: half a bar, 7 psi, on a "
     "door of a square metre weighs 5 tonnes.",
     always},
    {"vacuum", "when a vessel cools", "A vessel that cools pulls a vacuum: keep its vent open and free.",
     "steam that condenses pulls a vacuum that can crush it: keep the vent open and free, never spray a hot vessel "
     "with cold water, put a vacuum breaker on the coil or it sucks water back towards the boiler.",
     always},
    {"boiler", "on every boiler", "A relief valve for the full output and a low-water cut-off, never bypassed.",
     "a relief valve that can pass the full output, with a free and safe discharge, and a low-water cut-off, both "
     "tested as the maker says. Never bypass either.",
     always},
    {"hose", "on every hose", "Only hose and couplings rated for steam; drain it cold.",
     "only hose and couplings rated for steam (ISO 6134) with safety clips; drain it cold, look it over before each "
     "run. Garden, fuel and air hose burst.",
     has_hoses},
    {"combustion", "where fuel burns", "Enough air, a flue that draws and a CO alarm where fuel burns.",
     "enough air to burn and a flue that draws; carbon monoxide gives no warning, so a CO alarm. No burner in a shut "
     "shed, container or tent; propane sinks and gathers in pits.",
     print_burns_fuel},
    {"spores", "at any time in a vented vessel",
     "Treated, not sterile: a checked probe in the coldest piece overrides this.",
     "steam at the air's pressure kills most growths but not reliably spores, however long. Call it treated, not "
     "sterile; a checked probe in the coldest piece overrides every forecast.",
     always},
};
enum { CAUTIONS = sizeof cautions / sizeof *cautions };

void print_cautions_text(const fv_plant *plant, bool in_full, fv_text *out)
{
    if (!plant)
        print_sayf(out, "  ! ",
                   "Steam at the air's pressure kills most growths but not reliably spores, however long. Call it "
                   "treated, not sterile; local codes and licensed practice come first.");
    for (size_t i = 0; i < CAUTIONS && plant; i++) {
        char first = (char)(cautions[i].when[0] - 'a' + 'A'); /* `when` stands inside sentences elsewhere */
        if (cautions[i].applies(plant) && in_full)
            print_sayf(out, "  ! ", "%c%s: %s", first, cautions[i].when + 1, cautions[i].text);
        else if (cautions[i].applies(plant))
            print_paragraph(out, "  ! ", cautions[i].line);
    }
}

void print_cautions_each(const fv_plant *plant, void (*say)(void *context, const char *when, const char *text),
                         void *context)
{
    for (size_t i = 0; i < CAUTIONS; i++)
        if (cautions[i].applies(plant))
            say(context, cautions[i].when, cautions[i].text);
}

json_t *print_cautions_json(const fv_plant *plant)
{
    json_t *array = json_array();
    for (size_t i = 0; array && i < CAUTIONS; i++) {
        if (!cautions[i].applies(plant))
            continue;
        json_t *object =
            json_pack("{s:s, s:s, s:s}", "id", cautions[i].id, "when", cautions[i].when, "text", cautions[i].text);
        print_json_append(&array, object);
    }
    return array;
}
