#!/bin/sh
# One plant, 16 parts, as many at a time as there are processors (GNU parallel); the parts put together are the whole.
# sh sweep-parallel.sh plant.xml "s1.bore = 19 mm, 25 mm" > sweep.csv
parallel --quote --keep-order farvessel sweep "$1" --vary "$2" --threads 1 --part {}/16 ::: $(seq 16)
