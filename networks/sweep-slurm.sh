#!/bin/sh
#SBATCH --array=1-16 --output=sweep-%a.csv
# sbatch sweep-slurm.sh plant.xml "s1.bore = 19 mm, 25 mm"; then: for k in $(seq 16); do cat sweep-$k.csv; done > sweep.csv
exec farvessel sweep "$1" --vary "$2" --part "$SLURM_ARRAY_TASK_ID/16"
