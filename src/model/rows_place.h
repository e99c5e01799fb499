/* SPDX-License-Identifier: MIT */
/* The network itself, the site with its weather, and what can be bought. */
#include "model/rows.h"

static const fv_attr network_rows[] = {
    {"title", FV_DIM_TEXT, offsetof(fv_plant, title), false, NONE, NO_LIMIT, NULL, "what the plant is called"},
    {"units", FV_DIM_WORD, offsetof(fv_plant, units), false, NONE, NO_LIMIT, "metric|us",
     "units of the answers where --units does not say; not said: metric"},
};

static const fv_attr site_rows[] = {
    {"altitude", FV_DIM_LENGTH, offsetof(fv_site, altitude), false, 0.0, -450.0, 5000.0, -10.0, 3000.0, NULL,
     "height above sea level; the air pressure follows from it (ISO 2533 standard atmosphere)"},
    {"pressure", FV_DIM_ABSOLUTE_PRESSURE, offsetof(fv_site, pressure), false, NONE, 50000.0, 110000.0, 68000.0,
     106000.0, NULL, "air pressure on site, absolute, not reduced to sea level; not said: from the altitude"},
    {"air", FV_DIM_TEMPERATURE, offsetof(fv_site, air), false, CELSIUS(15.0), CELSIUS(-50.0), CELSIUS(60.0),
     CELSIUS(-10.0), CELSIUS(40.0), NULL,
     "air temperature; default that of the standard atmosphere at sea level (ISO 2533)"},
    {"stands", FV_DIM_WORD, offsetof(fv_site, stands), false, 0.0, NO_LIMIT, "outdoors|indoors",
     "whether wind reaches the plant; default outdoors"},
    {"wind", FV_DIM_VELOCITY, offsetof(fv_site, wind), false, NONE, 0.0, 60.0, 0.0, 20.0, NULL,
     "wind on lines and walls; not said: 1.5 m/s outdoors, a light air between buildings (0.5 to 4), and still air "
     "indoors, common practice"},
    {"tees", FV_DIM_WORD, offsetof(fv_site, tees), false, 0.0, NO_LIMIT, "found|none",
     "losses at joints of three lines and where two of unlike bores meet: found counts them from the bores where no "
     "<tee> is declared, and none of the lines says k or has a fitting that stands for a tee; default found"},
};

static const fv_attr weather_rows[] = {
    {"at", FV_DIM_TIME, offsetof(fv_weather, at), true, NONE, 0.0, YEAR, NO_OPINION, NULL,
     "time from the start; between rows the weather changes evenly"},
    {"air", FV_DIM_TEMPERATURE, offsetof(fv_weather, air), true, NONE, CELSIUS(-50.0), CELSIUS(60.0), CELSIUS(-10.0),
     CELSIUS(40.0), NULL, "air temperature from then on"},
    {"wind", FV_DIM_VELOCITY, offsetof(fv_weather, wind), false, NONE, 0.0, 60.0, 0.0, 20.0, NULL,
     "wind from then on; not said: the site's"},
};

static const fv_attr stock_rows[] = {
    {"currency", FV_DIM_TEXT, offsetof(fv_plant, currency), false, NONE, NO_LIMIT, NULL,
     "what the prices are in; not said: prices are plain numbers"},
};

/* clang-format off */
#define PRICE_ROW(doc) \
    {"price", FV_DIM_PRICE, offsetof(fv_stock_item, price), false, NONE, 0.0, 1e9, NO_OPINION, NULL, doc}
#define PER_ROW(words, doc) {"per", FV_DIM_WORD, offsetof(fv_stock_item, per), false, NONE, NO_LIMIT, words, doc}
#define STOCK_BORE_ROW \
    {"bore", FV_DIM_LENGTH, offsetof(fv_stock_item, size), true, NONE, BORE_LEAST, BORE_MOST, NO_OPINION, NULL, \
     "inside diameter that can be bought"}
/* clang-format on */

static const fv_attr stock_bore_rows[] = {
    STOCK_BORE_ROW,
    PRICE_ROW("price per metre, or as `per` says; not said: no cost is counted"),
    PER_ROW("m|ft", "length that the price is for; not said: a metre"),
};
static const fv_attr stock_drill_rows[] = {
    {"size", FV_DIM_LENGTH, offsetof(fv_stock_item, size), true, NONE, 1e-6, 0.1, NO_OPINION, NULL,
     "drill diameter at hand"},
    PRICE_ROW("price per piece; not said: no cost is counted"),
};
static const fv_attr stock_lagging_rows[] = {
    {"thickness", FV_DIM_LENGTH, offsetof(fv_stock_item, size), true, NONE, 0.0, 0.5, NO_OPINION, NULL,
     "thickness that can be bought"},
    {"material", FV_DIM_TEXT, offsetof(fv_stock_item, material), false, NONE, NO_LIMIT, NULL,
     "name in the list of materials; not said: mineral-wool"},
    PRICE_ROW("price per square metre, or as `per` says; not said: no cost is counted"),
    PER_ROW("m2|ft2", "area that the price is for; not said: a square metre"),
};
static const fv_attr stock_boiler_rows[] = {
    {"output", FV_DIM_POWER, offsetof(fv_stock_item, output), true, NONE, 1.0, 1e6, 3e3, 3e5, NULL,
     "heat to the water"},
    PRICE_ROW("price per piece; not said: no cost is counted"),
};
