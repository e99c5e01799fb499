/* SPDX-License-Identifier: MIT */
/* Floor 3: the plant as plain structs in SI. No maths here: only what the user said, where it stands, how it is known,
 * and what is assumed where nothing was said. Everything belongs to the plant and is freed with it.
 *
 * Every value is an fv_value: a double in SI with its origin. A value that is FV_UNSET has no default: a correlation
 * supplies it, or the feature is absent; the schema's doc line says which. Words are stored as the index into the list
 * of words. */
#ifndef FARVESSEL_MODEL_H
#define FARVESSEL_MODEL_H

#include "farvessel/base.h"
#include "farvessel/units.h"

FV_C_BEGIN

typedef enum {
    FV_UNSET,   /* not said, no default: NaN */
    FV_ASSUMED, /* the documented default */
    FV_KIND,    /* taken over from the kind or the part it is like */
    FV_GIVEN,   /* stands in the file */
    FV_SETTING  /* given on top of the file (--set), or by a study */
} fv_origin;
typedef enum { FV_KNOWN_UNSAID, FV_KNOWN_TAPE, FV_KNOWN_NAMEPLATE, FV_KNOWN_PROBE, FV_KNOWN_GUESS } fv_known;

/* How uncertain the user says a value is: a share of it (of a temperature or share: none), in its own unit (K, points),
 * or up to so many times more or less. */
typedef enum { FV_SPREAD_UNSAID, FV_SPREAD_RELATIVE, FV_SPREAD_ABSOLUTE, FV_SPREAD_FACTOR } fv_spread;

typedef struct {
    double v;
    unsigned char origin;    /* fv_origin */
    unsigned char known;     /* fv_known */
    unsigned char spread_as; /* fv_spread, of: */
    float spread;
} fv_value;

static inline bool fv_is_set(fv_value value)
{
    return value.origin != FV_UNSET;
}
static inline int fv_word(fv_value value)
{
    return value.v >= 0 ? (int)value.v : -1; /* -1: not said, or a word that is none */
}
/* The value, or `otherwise` where nothing was said. */
static inline double fv_or(fv_value value, double otherwise)
{
    return fv_is_set(value) ? value.v : otherwise;
}

/* First member of every element but the plant. */
typedef struct {
    const struct fv_element *element; /* which one it is; set when it is made */
    const char *id;                   /* NULL where the element has none */
    const char *like;                 /* id of the kind or part it takes after, or NULL */
    fv_loc loc;
    /* Kept by fv_plant_link, so that linking again follows a changed kind. */
    unsigned texts_from_kind; /* bit n: the text in row n of the schema came from the kind */
    unsigned lists_from_kind; /* bit 0: walls, fittings, holes, layers; bit 1: openings */
    bool settled;             /* has taken over what another part of the plant said, and keeps it when that changes */
} fv_part;

typedef struct {
    fv_part part;
    fv_value at, air, wind; /* weather from this time on, linear between rows */
} fv_weather;

typedef enum { FV_OUTDOORS, FV_INDOORS } fv_stands;
typedef enum { FV_TEES_FOUND, FV_TEES_NONE } fv_tees;
#define FV_WIND_OUTDOORS 1.5 /* m/s, where none is said */
typedef struct {
    fv_part part;
    fv_value altitude, pressure, air, wind, stands, tees;
    fv_weather **weather;
    size_t weather_count;
} fv_site;

typedef enum { FV_FUEL_PROPANE, FV_FUEL_GAS, FV_FUEL_OIL, FV_FUEL_WOOD, FV_FUEL_PELLETS, FV_FUEL_ELECTRICITY } fv_fuel;
typedef enum { FV_FEED_AUTOMATIC, FV_FEED_BY_HAND } fv_feeding;
typedef struct {
    fv_part part;
    fv_value at, volume, temperature;
} fv_refill;

typedef struct {
    fv_part part;
    const char *at;
    int node;
    fv_value output, holds, relief, feed, water, usable, steel, loss, efficiency, fuel, heating_value, fire, dryness,
        feeding, start, start_temperature;
    fv_refill **refills; /* of a boiler that is fed by hand */
    size_t refill_count;
} fv_boiler;

typedef enum { FV_FITTING_TYPE, FV_FITTING_BARB, FV_FITTING_UNION, FV_FITTING_VALVE, FV_FITTING_LOSS } fv_fitting_kind;
typedef struct {
    fv_part part;
    fv_fitting_kind kind;
    const char *type; /* name in the catalogue, for fitting and valve */
    fv_value count, bore, length, k, kv, open;
} fv_fitting;

typedef enum { FV_LINE_HEADER, FV_LINE_PIPE, FV_LINE_HOSE } fv_line_kind;
typedef enum { FV_CONDENSATE_WITH, FV_CONDENSATE_BACK, FV_CONDENSATE_DRIP } fv_condensate;
typedef struct {
    fv_part part;
    fv_line_kind kind;
    const char *from, *to;
    int node_from, node_to;
    const char *material, *lagging_material;
    fv_value length, bore, wall, roughness, wall_conductivity, lagging, lagging_conductivity, emissivity, outside,
        heat_loss, air, wind, rise, sag, friction, k, washer, condensate, heat_capacity;
    fv_fitting **fittings;
    size_t fitting_count;
} fv_line;

typedef struct {
    fv_part part;
    const char *at, *main, *run, *branch; /* node and the three lines that meet */
    int node, line[3];
    fv_value angle;
} fv_tee;

typedef struct {
    fv_part part;
    const char *at;
    int node;
} fv_drip;

typedef struct {
    fv_part part;
    fv_value at, drill, count; /* position from the coil's inlet */
} fv_hole;

typedef enum { FV_COIL_DEAD_END, FV_COIL_RING } fv_coil_shape;
typedef struct {
    fv_part part;
    fv_value shape, bore, wall, length, holes, drill, spacing, first, roughness, friction, entry, regain, cd, clogged;
    fv_hole **hole;
    size_t hole_count;
} fv_coil;

typedef enum { FV_FORM_BLOCK, FV_FORM_SLAB, FV_FORM_CYLINDER, FV_FORM_SPHERE, FV_FORM_BED } fv_form;
typedef enum { FV_PACKING_LOOSE, FV_PACKING_PACKED, FV_PACKING_ROWS } fv_packing;
typedef enum { FV_FILM_LDPE, FV_FILM_HDPE, FV_FILM_PP } fv_film;
typedef enum { FV_WRAP_BAG, FV_WRAP_POT, FV_WRAP_TRAY, FV_WRAP_BARE } fv_wrap;
typedef struct {
    fv_part part;
    fv_value form, medium, a, b, c, diameter, height, count, mass, mass_each, moisture, density, specific_heat,
        conductivity, surface, cooling_surface, wrap, bag, film_gap, packing, contact, stack_a, stack_b, stack_c,
        start_temperature, depth, area, takes_condensate;
    fv_value front_factor;
    const char *of; /* "2 x 2 x 5": pieces to a block of rows */
} fv_load;

typedef struct {
    fv_part part;
    const char *material;
    fv_value thickness, conductivity, density, specific_heat;
    fv_value vapour_resistance, wet_conductivity, pores, soaked; /* unset: no layer of its wall lets vapour through */
} fv_wall_layer;
typedef struct {
    fv_part part;
    fv_value area, height, inside, outside, emissivity, air, wind;
    fv_wall_layer **layers; /* from the inside out */
    size_t layer_count;
} fv_wall;

typedef struct {
    fv_part part;
    fv_value mass, specific_heat;
} fv_shell;

typedef enum { FV_OPENING_VENT, FV_OPENING_DRAIN, FV_OPENING_GAP } fv_opening_kind;
typedef struct {
    fv_part part;
    fv_opening_kind kind;
    fv_value area, diameter, cd, height, purge, seal;
    fv_value faces, thickness, exchange;
} fv_opening;
typedef enum { FV_FACES_UP, FV_FACES_SIDEWAYS } fv_faces;

typedef enum { FV_PHASE_HEATING, FV_PHASE_HOLDING, FV_PHASE_SHUT } fv_phase;
typedef enum { FV_COOL_ATTACHED, FV_COOL_DETACHED, FV_COOL_SHELVES } fv_cooling;
typedef enum { FV_COIL_CAPPED, FV_COIL_OPEN } fv_coil_end;
typedef enum { FV_LID_ON, FV_LID_CRACKED, FV_LID_OFF } fv_lid;
typedef struct {
    fv_part part;
    bool is_kind; /* a template, not a vessel of the plant */
    const char *at, *start_after;
    int node;
    fv_value at_most;
    fv_value stands;                                        /* unset: as the site */
    fv_value air, wind, coil_end, lid, lid_gap, lid_height; /* once it is off the line */
    fv_value changeover;                                    /* until its place is free */
    fv_value shelf_air, shelf_surface, evaporates;          /* of its load in the open */
    fv_value volume, water, target, hold, within, cool, cooling, start, phase, uptake, reference_temperature, z,
        sump_area;
    fv_coil coil;
    fv_load load;
    fv_shell shell;
    fv_wall **walls;
    size_t wall_count;
    fv_opening **openings;
    size_t opening_count;
} fv_vessel;

/* Something the grower does: at a clock time from the start, or `delay` after an event such as "bin1 core". */
typedef enum {
    FV_EVENT_NONE,
    FV_EVENT_FULL,
    FV_EVENT_CORE,
    FV_EVENT_HOLD,
    FV_EVENT_COOL,
    FV_EVENT_DETACHED,
    FV_EVENT_STEAM
} fv_event_kind;
typedef struct {
    fv_part part;
    const char *after; /* "<id> <event>", event: steam (boilers), full, core, hold, cool, detached (vessels); "last
                          core" and the like: of all vessels that are not shut */
    const char *boiler, *valve, *vessel; /* what is touched; valve: the id of a fitting */
    fv_value at, delay, fire, open, act; /* act: word, what happens to the vessel */
} fv_action;
typedef enum { FV_ACT_SHUT, FV_ACT_OPEN, FV_ACT_DETACH } fv_vessel_act;

/* Keeps a chamber or a core between two temperatures by a boiler's fire or a valve. */
typedef struct {
    fv_part part;
    const char *on, *boiler, *valve; /* "<vessel> chamber" or "<vessel> core"; valve: as of an action */
    int vessel_index, boiler_index;  /* made by fv_plant_link; -1: none */
    bool of_core;
    fv_value below, above, fire, else_fire, open, else_open, least_on, least_off, from, until;
} fv_thermostat;

/* Pieces to a brick of rows, along a, b and c, from `of`. False: it does not say. */
bool fv_load_rows(const fv_load *load, int n[3]);
/* Wider than 100 mm and alone at its height: air and gas pass it both ways at once. */
bool fv_opening_exchanges(const fv_vessel *vessel, const fv_opening *opening);
double fv_opening_area(const fv_opening *opening); /* m2; NaN: not said */
/* K that no part of the load should pass: at-most, else its medium's; and at which its bags' film softens. NaN: none.
 */
double fv_vessel_limit(const fv_vessel *vessel);
const char *fv_limit_effect(const fv_load *load); /* of passing the medium's; NULL: it has none */
double fv_bag_limit(const fv_load *load);

/* What was measured during a run: a column of a logger's file, or a figure for the whole run. */
typedef enum { FV_PROBE_CORE, FV_PROBE_CHAMBER, FV_PROBE_AIR, FV_PROBE_DEPTH } fv_probe_at;
typedef enum { FV_PROBE_K, FV_PROBE_T, FV_PROBE_PT100 } fv_probe_type;
typedef enum {
    FV_PROBE_CLASS_1,
    FV_PROBE_CLASS_2,
    FV_PROBE_CLASS_AA,
    FV_PROBE_CLASS_A,
    FV_PROBE_CLASS_B,
    FV_PROBE_CLASS_C
} fv_probe_class;
typedef struct {
    fv_part part;
    const char *vessel, *column;
    int vessel_index; /* -1: none */
    fv_value at, depth, type, grade, offset, error, lag;
} fv_probe;
fv_probe_at fv_probe_place(const fv_probe *probe); /* NULL: the core */

typedef struct {
    fv_part part;
    const char *at, *column;
    int boiler; /* whose joint it is */
    fv_value error;
} fv_gauge;

typedef struct {
    fv_part part;
    const char *boiler;
    int boiler_index;
    fv_value what, value, error;
} fv_meter;

/* The working week. */
typedef enum { FV_UNATTENDED_NOTHING, FV_UNATTENDED_HOLD, FV_UNATTENDED_ALL } fv_unattended;
typedef struct {
    fv_part part;
    const char *days, *from, *to;
    fv_value people, wage;
    unsigned day_bits;   /* bit 0: Monday; made by fv_plant_link */
    double begins, ends; /* s after midnight; ends above begins, beyond 24 h into the next day */
} fv_crew;
typedef enum {
    FV_WORK_FILL,
    FV_WORK_HANG_ON,
    FV_WORK_LIGHT,
    FV_WORK_TAKE_OFF,
    FV_WORK_EMPTY,
    FV_WORK_LOOK,
    FV_WORK_KINDS
} fv_task_kind;
typedef struct {
    fv_part part;
    fv_value what, takes, people, every;
} fv_task;
typedef struct {
    fv_part part;
    fv_value count;
} fv_more;
typedef enum {
    FV_PRICE_FUEL,
    FV_PRICE_WATER,
    FV_PRICE_ELECTRICITY,
    FV_PRICE_MEDIUM,
    FV_PRICE_BAG,
    FV_PRICE_TREATED,
    FV_PRICE_KINDS
} fv_price_kind;
typedef enum { FV_PER_KG, FV_PER_LB, FV_PER_L, FV_PER_GAL, FV_PER_M3, FV_PER_KWH, FV_PER_EACH } fv_per;
typedef struct {
    fv_part part;
    fv_value what, per, is;
} fv_price;
typedef struct {
    fv_part part;
    fv_value unattended, fire, wish, interest;
    fv_crew **crews;
    fv_task **tasks;
    fv_more **more;
    fv_price **prices;
    size_t crew_count, task_count, more_count, price_count;
} fv_work;

typedef enum {
    FV_STOCK_HOSE,
    FV_STOCK_HEADER,
    FV_STOCK_COIL,
    FV_STOCK_DRILL,
    FV_STOCK_LAGGING,
    FV_STOCK_BOILER
} fv_stock_kind;
typedef struct {
    fv_part part;
    fv_stock_kind kind;
    const char *material;
    fv_value size, output, price; /* price: of a line's metre or foot, lagging's square metre or foot, or a piece */
    fv_value per;                 /* fv_stock_per */
} fv_stock_item;
typedef enum { FV_STOCK_PER_METRE, FV_STOCK_PER_FOOT } fv_stock_per; /* of lagging: square */

typedef struct {
    fv_arena *arena;
    size_t taken_most; /* parts that `like` may bring in, all together; 0: any number */
    const char *file, *title, *currency;
    fv_value units;      /* fv_unit_system of the answers; unset: metric */
    const char *comment; /* for the file's top, when it is written; NULL: none */
    fv_loc loc;
    fv_site site;
    fv_boiler **boilers;
    fv_line **lines;
    fv_tee **tees;
    fv_drip **drips;
    fv_vessel **vessels;
    fv_vessel **kinds;
    fv_action **actions;
    fv_thermostat **thermostats;
    fv_probe **probes;
    fv_gauge **gauges;
    fv_meter **meters;
    fv_stock_item **stock;
    fv_work work;
    size_t boiler_count, line_count, tee_count, drip_count, vessel_count, kind_count, action_count, stock_count;
    size_t probe_count, gauge_count, meter_count, thermostat_count;
    const char **nodes; /* names, made by fv_plant_link */
    size_t node_count;
} fv_plant;

/* ---- the schema: one row per attribute drives reader, writer, --set, documentation and the list of assumptions ----
 */
enum {
    FV_COEFFICIENT = 1u, /* a correlation or a table supplies it where it is not said; the user may fix it */
    FV_NAMED = 2u        /* a text that stands for a documented default where it is not said */
};

typedef struct {
    const char *name;
    fv_dim dim;
    size_t offset; /* of the fv_value, or of the const char * for FV_DIM_TEXT and FV_DIM_ID */
    bool required;
    double fallback;    /* SI default; NaN: none */
    double least, most; /* refused outside */
    double low, high;   /* cautioned outside; NaN: no opinion */
    const char *words;  /* "with|back|drip" for FV_DIM_WORD */
    const char *doc;    /* what it is; what applies where it is not said */
    unsigned is;        /* FV_COEFFICIENT, FV_NAMED */
} fv_attr;

typedef struct fv_element {
    const char *name; /* of the XML element; "stock/hose" is a <hose> in a <stock> */
    size_t size;      /* of the struct */
    const fv_attr *attrs;
    size_t attr_count;
    const char *doc;
    bool is_aside; /* a template, something to buy, to happen or to measure with: no part of the plant itself */
} fv_element;

const fv_element *fv_schema(size_t *count);          /* all elements, in the order of the documentation */
const fv_element *fv_element_find(const char *name); /* NULL: unknown */
const fv_attr *fv_attr_find(const fv_element *element, const char *name);
/* What every element may say beside its own attributes, as texts: how its values are known (`words` are the words for
 * it) and how uncertain they are. Either is of all values or of single ones, "bore:guess": known takes all but texts,
 * spread quantities alone. NULL for what is neither; false for NULL. */
typedef enum { FV_SAYS_KNOWN, FV_SAYS_SPREAD, FV_SAYS } fv_provenance;
const fv_attr *fv_provenance_attr(fv_provenance which);
bool fv_attr_takes(const fv_attr *attr, fv_provenance which);
fv_value *fv_attr_value(void *part, const fv_attr *attr);   /* not for text */
const char **fv_attr_text(void *part, const fv_attr *attr); /* FV_DIM_TEXT, FV_DIM_ID */
int fv_word_find(const char *words, const char *word);      /* index, or -1 */
const char *fv_word_at(const char *words, int index, char *buffer, size_t size);
/* Sets every attribute of a fresh part to its default (FV_ASSUMED) or to FV_UNSET. */
void fv_element_defaults(const fv_element *element, void *part);
/* Gives `part` every attribute of `from` that `part` itself does not have (origin FV_KIND). Texts likewise. */
void fv_element_inherit(const fv_element *element, void *part, const void *from);

/* ---- building a plant, from a file or from a program ---- */
fv_plant *fv_plant_new(const char *file); /* with defaults; NULL: out of memory */
void fv_plant_free(fv_plant *plant);
fv_plant *fv_plant_copy(const fv_plant *plant); /* deep */
/* Each adds a part with its defaults and returns it (belongs to the plant; NULL: out of memory). */
fv_boiler *fv_plant_add_boiler(fv_plant *plant, const char *id, fv_loc loc);
fv_refill *fv_boiler_add_refill(fv_plant *plant, fv_boiler *boiler, fv_loc loc);
fv_line *fv_plant_add_line(fv_plant *plant, fv_line_kind kind, const char *id, fv_loc loc);
fv_fitting *fv_line_add_fitting(fv_plant *plant, fv_line *line, fv_fitting_kind kind, fv_loc loc);
fv_tee *fv_plant_add_tee(fv_plant *plant, fv_loc loc);
fv_drip *fv_plant_add_drip(fv_plant *plant, fv_loc loc);
fv_vessel *fv_plant_add_vessel(fv_plant *plant, const char *id, bool is_kind, fv_loc loc);
fv_hole *fv_vessel_add_hole(fv_plant *plant, fv_vessel *vessel, fv_loc loc);
fv_wall *fv_vessel_add_wall(fv_plant *plant, fv_vessel *vessel, fv_loc loc);
fv_wall_layer *fv_wall_add_layer(fv_plant *plant, fv_wall *wall, fv_loc loc);
fv_opening *fv_vessel_add_opening(fv_plant *plant, fv_vessel *vessel, fv_opening_kind kind, fv_loc loc);
fv_action *fv_plant_add_action(fv_plant *plant, fv_loc loc);
fv_thermostat *fv_plant_add_thermostat(fv_plant *plant, fv_loc loc);
fv_probe *fv_plant_add_probe(fv_plant *plant, const char *id, fv_loc loc);
fv_gauge *fv_plant_add_gauge(fv_plant *plant, const char *id, fv_loc loc);
fv_meter *fv_plant_add_meter(fv_plant *plant, fv_loc loc);
fv_stock_item *fv_plant_add_stock(fv_plant *plant, fv_stock_kind kind, fv_loc loc);
fv_weather *fv_plant_add_weather(fv_plant *plant, fv_loc loc);
/* Programs set values with this: origin FV_GIVEN. */
static inline fv_value fv_given(double si)
{
    const fv_value value = {si, FV_GIVEN, FV_KNOWN_UNSAID, FV_SPREAD_UNSAID, 0.0f};
    return value;
}

/* One part on a walk. `owner`: the nearest part with an id that it stands in, else the one around it; NULL at the top.
 */
typedef struct {
    const fv_element *element;
    fv_part *part;
    const fv_part *owner;
    size_t number; /* from 1 in its list inside another part; 0: there can be only one */
    int index;     /* at the top: in the plant's list */
    bool taken;    /* in a list that was taken over from a kind */
    bool aside;    /* it or what is around it is_aside */
} fv_stop;

/* Visits every part with all inside, kinds and stock included, until a visit returns false; true: went through. A coil,
 * load and shell are always there, whether anything is said of them or not. */
typedef bool fv_visit(void *context, const fv_stop *stop);
bool fv_plant_walk(const fv_plant *plant, fv_visit *visit, void *context);

/* Takes kinds over into their vessels (a list that the vessel has itself replaces the kind's), names become indices,
 * and everything that the schema's limits and plain sense refuse is said, all of it in one go. FV_FAIL if there was any
 * error; `faults` may be NULL. A caution already in the list is not repeated. Must be called again after parts or names
 * changed. */
fv_status fv_plant_link(fv_plant *plant, fv_faults *faults);

/* Finds what "id", "id.child" or "site" names: the part and its element. child: coil, load, shell, or wall, opening,
 * fitting with a number from 1 ("bin1.wall2"). NULL: no such part. Ids of fittings and openings are found, too. */
void *fv_plant_find(const fv_plant *plant, const char *path, const fv_element **element);

/* What "<id> <event>" means: steam with the boiler's index, the others with the vessel's, -1: the last of all.
 * FV_EVENT_NONE: nothing. */
fv_event_kind fv_plant_event(const fv_plant *plant, const char *text, int *index);

/* Wind on a vessel's walls where the site has `wind`, m/s: by where the vessel stands. */
double fv_vessel_wind(const fv_site *site, const fv_vessel *vessel, double wind);

/* What is counted at a joint though the file declares nothing there: a tee of 90 degrees where three lines meet, or a
 * reducer where two of unlike bores do, and nothing else (joints.c). */
typedef enum { FV_JOINT_PLAIN, FV_JOINT_TEE, FV_JOINT_REDUCER } fv_joint_kind;
typedef struct {
    fv_joint_kind kind;
    int line[3]; /* of a tee: main, run and branch; of a reducer: the wider and the narrower */
} fv_joint;
/* Fills one for each of the plant's nodes; the plant must be linked. False: out of memory. */
bool fv_plant_joints(const fv_plant *plant, fv_joint *joints);

int fv_plant_line_index(const fv_plant *plant, const char *id); /* -1: none */
int fv_plant_vessel_index(const fv_plant *plant, const char *id);
int fv_plant_boiler_index(const fv_plant *plant, const char *id);

/* ---- what can be named: materials and fittings, in one place, with sources ---- */
typedef struct {
    const char *name;
    double conductivity, density, specific_heat; /* W/m/K, kg/m3, J/kg/K */
    double roughness;                            /* m; NaN where it is no pipe */
    double most;                                 /* K: softens or is not rated above; NaN: no limit here */
    const char *source;
} fv_material;
const fv_material *fv_materials(size_t *count);
const fv_material *fv_material_find(const char *name);
/* What a line's wall is made of: steel, or epdm for a hose, where nothing is said. NULL: an unknown name. */
const fv_material *fv_line_material(const fv_line *line);

/* How a fuel is bought. */
typedef enum { FV_FUEL_LIQUID, FV_FUEL_GASEOUS, FV_FUEL_SOLID, FV_FUEL_CURRENT } fv_fuel_state;
typedef struct {
    const char *name;
    double heating_value; /* J/kg, gross; NaN: electricity */
    double density;       /* kg/m3; NaN: bought by weight */
    fv_fuel_state state;
    const char *source;
} fv_fuel_entry;
const fv_fuel_entry *fv_fuel_of(const fv_boiler *boiler); /* NULL: its fuel is not said */
/* The hold at a temperature that vented steam can reach which is as lethal as `hold`, s, at `target`, K: see
 * src/model/equal_hold.c. z, K: what takes a tenth of the time. NaN in both: there is none worth it. */
typedef struct {
    double temperature, hold; /* K, s */
} fv_equal_hold;
fv_equal_hold fv_equal_hold_of(double target, double hold, double z, double boiling_point);

/* kg of its fuel that hold `heat`, J, by the heating value said or the fuel's own; NaN where there is neither. */
double fv_fuel_mass(const fv_boiler *boiler, double heat);

typedef struct {
    const char *name;
    double n; /* K = n f_T of the line's bore; NaN: uses k */
    double k;
    bool valve;
    int curve; /* fv_valve_curve of flow.h for valves */
    const char *source;
} fv_fitting_entry;
const fv_fitting_entry *fv_fittings(size_t *count);
const fv_fitting_entry *fv_fitting_find(const char *name);
/* The entry of a <fitting> or <valve>: a ball-valve where a valve's type is not said. NULL for the other sorts. */
const fv_fitting_entry *fv_fitting_entry_of(const fv_fitting *fitting);

FV_C_END

#endif
