#!/bin/bash
# Runs the recipes of docs/recipes on real engines and compares every result by its hash:
# one process, GNU parallel with a shard killed, a Slurm array on this machine, Node 22 and 24, Chromium,
# and memory over 10^8 rows. Takes some minutes. What cannot be had here is skipped and said so.
set -u
cd "$(dirname "$0")/.."
root=$PWD
work=$(mktemp -d)
pids=()
failed=0
cleanup() {
  for pid in "${pids[@]}"; do kill "$pid" 2>/dev/null; done
  wait 2>/dev/null
  rm -rf "$work"
}
trap cleanup EXIT
say() { printf '%-34s %s\n' "$1" "$2"; }
fail() { say "$1" "FAILED: $2"; failed=1; }

# The command by itself, so that nothing else has to be built.
cat > "$work/entry.ts" <<TS
import { sweepCommand } from "$root/src/cli/sweepCommand.ts";
const [, ...args] = process.argv.slice(2);
try {
  process.exitCode = await sweepCommand(args, {
    out: (t) => process.stdout.write(t),
    err: (t) => process.stderr.write(t),
  });
} catch (error) {
  console.error(error.message);
  process.exitCode = 2;
}
TS
npx esbuild "$work/entry.ts" --bundle --platform=node --format=esm --outfile="$work/hawse.mjs" \
  --external:tinypool --external:apache-arrow --external:hyparquet --external:hyparquet-writer --log-level=error || exit 1
npx esbuild src/sweep/node/worker.ts --bundle --platform=node --format=esm --outfile="$work/sweep-worker.js" --log-level=error || exit 1
ln -s "$root/node_modules" "$work/node_modules"
export HAWSE="node $work/hawse.mjs"
spec=$root/docs/recipes/spec.json
hash_of() { sha256sum "$1" | cut -d' ' -f1; }

$HAWSE sweep run "$spec" --out "$work/one" > /dev/null && $HAWSE sweep merge "$work/one" > /dev/null || exit 1
expected=$(hash_of "$work/one/sweep.csv")
say "one process, Node $(node -v)" "$expected"
same() { if [ "$(hash_of "$2")" = "$expected" ]; then say "$1" "the same"; else fail "$1" "another hash"; fi; }

$HAWSE sweep run "$spec" --out "$work/two" --threads 2 > /dev/null && $HAWSE sweep merge "$work/two" > /dev/null
same "two threads" "$work/two/sweep.csv"

if command -v parallel > /dev/null; then
  # A shard is started, killed without warning, and must leave nothing behind under its name.
  mkdir -p "$work/par"
  node "$work/hawse.mjs" sweep run "$spec" --shard 1/2 --out "$work/killed" > /dev/null & victim=$!
  for _ in $(seq 400); do ls "$work"/killed/.shard-* > /dev/null 2>&1 && break; sleep 0.02; done
  kill -9 "$victim"; wait "$victim" 2>/dev/null
  if ls "$work"/killed/shard-* > /dev/null 2>&1; then fail "shard killed" "it left a file"; else say "shard killed" "nothing under its name"; fi
  # The first pass loses shard 5: the merge must refuse, the second pass must do that shard alone.
  seq 16 | grep -v '^5$' | parallel "$HAWSE sweep run $spec --shard {}/16 --out $work/par" > /dev/null
  if $HAWSE sweep merge "$work/par" > /dev/null 2>&1; then fail "merge with a shard missing" "it was not refused"; else say "merge with a shard missing" "refused"; fi
  sh docs/recipes/parallel.sh "$spec" "$work/par" > "$work/par.log" 2>&1
  if [ "$(grep -c 'there already' "$work/par.log")" = 15 ]; then say "resumed" "15 of 16 there already"; else fail "resumed" "$(tail -1 "$work/par.log")"; fi
  same "GNU parallel, 16 shards" "$work/par/sweep.csv"
else
  say "GNU parallel" "skipped: apt-get install parallel"
fi

slurm() {
  local etc=$work/slurm host
  host=$(hostname -s)
  mkdir -p "$etc/state" "$etc/spool" "$etc/munge"
  chmod 0755 "$work"
  head -c 1024 /dev/urandom > "$etc/munge.key"
  chmod 0400 "$etc/munge.key"
  chmod 0700 "$etc/munge"
  munged --force --foreground --socket="$etc/munge.socket" --key-file="$etc/munge.key" --log-file="$etc/munge/log" \
    --pid-file="$etc/munge/pid" --seed-file="$etc/munge/seed" 2> "$etc/munged.err" & pids+=($!)
  cat > "$etc/slurm.conf" <<CONF
ClusterName=here
SlurmctldHost=$host(127.0.0.1)
SlurmUser=root
SlurmdUser=root
AuthType=auth/munge
AuthInfo=socket=$etc/munge.socket
CredType=cred/munge
StateSaveLocation=$etc/state
SlurmdSpoolDir=$etc/spool
SlurmctldPidFile=$etc/ctld.pid
SlurmdPidFile=$etc/d.pid
SlurmctldPort=16817
SlurmdPort=16818
ProctrackType=proctrack/linuxproc
TaskPlugin=task/none
MpiDefault=none
SelectType=select/cons_tres
SelectTypeParameters=CR_Core
ReturnToService=2
NodeName=$host NodeAddr=127.0.0.1 CPUs=$(nproc) State=UNKNOWN
PartitionName=all Nodes=$host Default=YES MaxTime=INFINITE State=UP
CONF
  export SLURM_CONF=$etc/slurm.conf
  slurmctld -D -f "$SLURM_CONF" > "$etc/ctld.log" 2>&1 & pids+=($!)
  slurmd -D -f "$SLURM_CONF" > "$etc/d.log" 2>&1 & pids+=($!)
  for _ in $(seq 60); do sinfo -h -o %t 2>/dev/null | grep -q idle && break; sleep 0.5; done
  mkdir -p "$work/slurm-out"
  sbatch --wait --chdir="$work" --output="$work/slurm-%a.log" docs/recipes/slurm.sh "$spec" "$work/slurm-out" > "$etc/sbatch.log" 2>&1 ||
    { tail -3 "$etc/sbatch.log" "$etc/ctld.log" "$etc/d.log" "$work"/slurm-1.log 2>/dev/null; return 1; }
  $HAWSE sweep merge "$work/slurm-out" > /dev/null
}
if command -v sbatch slurmctld slurmd munged > /dev/null && [ "$(id -u)" = 0 ]; then
  if slurm; then same "Slurm, array of 16 on one node" "$work/slurm-out/sweep.csv"; else fail "Slurm" "see above"; fi
else
  say "Slurm" "skipped: as root, apt-get install slurm-wlm munge"
fi

for major in 22 24; do
  if npx --yes -p "node@$major" -- node -e "process.exit(process.versions.node.startsWith('$major.') ? 0 : 1)" > /dev/null 2>&1; then
    npx --yes -p "node@$major" -- node "$work/hawse.mjs" sweep run "$spec" --out "$work/n$major" > /dev/null 2>&1
    $HAWSE sweep merge "$work/n$major" > /dev/null
    same "Node $major" "$work/n$major/sweep.csv"
  else
    say "Node $major" "skipped: the package node@$major cannot be had"
  fi
done

if [ -x /usr/bin/chromium ]; then
  if found=$(node .ci/sweep-browser.mjs "$spec") && [ "$found" = "$expected" ]; then say "Chromium" "the same"; else fail "Chromium" "another hash"; fi
else
  say "Chromium" "skipped: apt-get install chromium"
fi

cat > "$work/memory.ts" <<TS
import { readFileSync } from "node:fs";
import { sweep } from "$root/src/sweep/sweep.ts";
const spec = JSON.parse(readFileSync("$spec", "utf8"));
const rss = () => process.memoryUsage().rss / 2 ** 20;
for await (const c of sweep({ ...spec, rows: 400_000 })) if (c.rows < 0) break;
const base = rss();
let peak = base;
let n = 0;
for await (const c of sweep({ ...spec, rows: Number(process.env.ROWS ?? 1e8) }, { sameMemory: true })) if (++n % 256 === 0) peak = Math.max(peak, rss());
const above = peak - base;
console.log(above.toFixed(1) + " MiB above the base");
process.exitCode = above <= 64 ? 0 : 1;
TS
npx esbuild "$work/memory.ts" --bundle --platform=node --format=esm --outfile="$work/memory.mjs" --log-level=error
if found=$(node "$work/memory.mjs"); then say "memory over ${ROWS:-10^8} rows" "$found"; else fail "memory" "$found"; fi

exit $failed
