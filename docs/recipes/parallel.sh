#!/bin/sh
# A sweep in 16 shards with GNU parallel: sh parallel.sh SPEC DIR
# Started again after a stop, it does only what is not done yet.
set -eu
spec=$1
dir=$2
export spec dir
seq 16 | parallel '${HAWSE:-hawse} sweep run "$spec" --shard {}/16 --out "$dir"'
[ -e "$dir/sweep.csv" ] || ${HAWSE:-hawse} sweep merge "$dir"
