/* SPDX-License-Identifier: MIT */
/* The eight questions. The examples are usual sizes (common practice, no source); where nobody knows they are written
 * into the file and marked as guesses. */
#include "desk/questions.h"

#define LENGTH(metric, us)                                                                                             \
    {                                                                                                                  \
        DESK_QUANTITY, FV_DIM_LENGTH, {metric, us}, NULL, false                                                        \
    }
#define COUNT                                                                                                          \
    {                                                                                                                  \
        DESK_QUANTITY, FV_DIM_COUNT, {"", ""}, NULL, false                                                             \
    }
#define WORD(words)                                                                                                    \
    {                                                                                                                  \
        DESK_WORD, FV_DIM_WORD, {"", ""}, words, false                                                                 \
    }

static const desk_question questions[FV_NEW_QUESTIONS] = {
    [FV_NEW_UNITS] =
        {"units", "Which units do you measure in?", "metric or us", {"metric", "us"}, {WORD("metric|us")}, 1, 1},
    [FV_NEW_BOILER] = {"boiler",
                       "What does the boiler's nameplate say it gives?",
                       "output",
                       {"24 kW", "80 kBtu/h"},
                       {{DESK_QUANTITY, FV_DIM_POWER, {"kW", "kBtu/h"}, NULL, false}},
                       1,
                       1},
    [FV_NEW_HEADER] =
        {"header",
         "The header, the pipe along the vessels: how wide inside, and how long from the boiler to the first "
         "branch?",
         "bore, length",
         {"27 mm, 2.5 m", "1 in, 8 ft"},
         {LENGTH("mm", "in"), LENGTH("m", "ft")},
         2,
         2},
    [FV_NEW_VESSELS] = {"vessels",
                        "How many vessels, and how far is it along the header from one to the next?",
                        "count, distance",
                        {"2, 2 m", "2, 6 ft"},
                        {COUNT, LENGTH("m", "ft")},
                        2,
                        1},
    [FV_NEW_HOSE] = {"hose",
                     "The hoses: how wide inside, and how long? One length for all, or one for each.",
                     "bore, length, length ...",
                     {"19 mm, 3 m", "3/4 in, 10 ft"},
                     {LENGTH("mm", "in"), {DESK_QUANTITY, FV_DIM_LENGTH, {"m", "ft"}, NULL, true}},
                     2,
                     2},
    [FV_NEW_COIL] = {"coil",
                     "The coil on the floor of a vessel: how wide inside, how long, how many holes, drilled how wide?",
                     "bore, length, holes, drill",
                     {"25 mm, 2 m, 24, 3 mm", "1 in, 6 ft, 24, 1/8 in"},
                     {LENGTH("mm", "in"), LENGTH("m", "ft"), COUNT, LENGTH("mm", "in")},
                     4,
                     4},
    [FV_NEW_LOAD] =
        {"load",
         "What is in a vessel: of what, each piece how large (two sides: a round one, its width and its height), how "
         "many, all together how heavy, and do they stand loose, packed as one mass, or is it one bed that steam rises "
         "through (its length, width and depth)?",
         "medium (wood straw grain peat soil), size, count, mass, loose or packed or bed",
         {"wood, 13 x 13 x 20 cm, 130, 300 kg, loose", "wood, 5 x 5 x 8 in, 130, 660 lb, loose"},
         {WORD("wood|straw|grain|peat|soil"),
          {DESK_SIZE, FV_DIM_LENGTH, {"cm", "in"}, NULL, false},
          COUNT,
          {DESK_QUANTITY, FV_DIM_MASS, {"kg", "lb"}, NULL, false},
          WORD("loose|packed|bed")},
         5,
         5},
    [FV_NEW_WALLS] =
        {"walls",
         "A vessel: how much does it hold, what are its walls made of, how thick? Then, where there is one, the "
         "insulation on it and its thickness.",
         "volume, material, thickness, material, thickness",
         {"1 m3, plywood, 18 mm", "35 ft3, plywood, 3/4 in"},
         {{DESK_QUANTITY, FV_DIM_VOLUME, {"m3", "ft3"}, NULL, false},
          {DESK_MATERIAL, FV_DIM_TEXT, {"", ""}, NULL, false},
          LENGTH("mm", "in"),
          {DESK_MATERIAL, FV_DIM_TEXT, {"", ""}, NULL, false},
          LENGTH("mm", "in")},
         5,
         3},
};

const desk_question *desk_question_of(fv_new_question question)
{
    return &questions[question];
}

fv_new_words fv_new_words_of(fv_new_question question, fv_unit_system units)
{
    const desk_question *q = &questions[question];
    return (fv_new_words){q->name, q->question, q->parts, q->example[units]};
}
