#!/bin/sh
#SBATCH --job-name=hawse-sweep
#SBATCH --array=1-16
#SBATCH --ntasks=1
#SBATCH --cpus-per-task=1
#SBATCH --requeue
# One shard a task of the array: sbatch slurm.sh SPEC DIR
# When the array is done: hawse sweep merge DIR
set -eu
exec ${HAWSE:-hawse} sweep run "$1" --out "$2" \
  --shard "$SLURM_ARRAY_TASK_ID/${SLURM_ARRAY_TASK_MAX:-16}"
