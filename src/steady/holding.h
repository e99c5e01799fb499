/* SPDX-License-Identifier: MIT */
/* A chamber that holds: what its temperature settles at with a steady flow of steam, and what flow keeps it at one. */
#ifndef STEADY_HOLDING_H
#define STEADY_HOLDING_H

#include "steady/network.h"

typedef struct {
    const fv_plant *plant;
    const fv_vessel *vessel;
    const fv_sat *sat;
    const steady_net_opening *openings;
    int opening_count;
    double site_pressure, t_air;
} steady_holding;

typedef struct {
    double t;         /* K */
    double pressure;  /* Pa gauge at the coil's level */
    bool pure;        /* steam alone; else mixed with air that is drawn in */
    double density;   /* kg/m3 of the gas */
    double loss;      /* W of the walls, soaked through, or the uptake that is said */
    double vented;    /* kg/s of gas out of the openings */
    double vapour;    /* of that, steam */
    double air;       /* kg/s drawn in */
    double h_f, h_fg; /* J/kg at t */
} steady_held;

/* With `steam` kg/s of enthalpy h_v, J/kg. FV_FAIL: no balance was found. */
fv_status steady_hold_with(const steady_holding *h, double steam, double h_v, steady_held *out);
/* kg/s of enthalpy h_v that keep the chamber at t, K; of the boiling point and above: that keep all air out. */
fv_status steady_hold_need(const steady_holding *h, double t, double h_v, double *steam);

#endif
