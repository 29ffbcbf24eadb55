#!/bin/sh
# A sweep in 16 shards with GNU parallel: sh parallel.sh SPEC DIR
# Started again after a stop, it does only what is not done yet.
set -eu
spec=$1
dir=$2
mkdir -p "$dir"
seq 16 | parallel --joblog "$dir/joblog" --resume-failed \
  "${HAWSE:-hawse} sweep run $spec --shard {}/16 --out $dir"
${HAWSE:-hawse} sweep merge "$dir"
