/** What `hawse` says of itself. */
export const HELP = `hawse: whether, and how, a small vessel lies safely at anchor

  hawse plan [STAY.json]           plan a stay; without a file: the demo
  hawse compare A.json B.json ...  berths for one and the same stay, in order
  hawse watch LOG|-                swinging or dragging, from a log or live
  hawse sweep VERB ...             a what-if many times over, into files
  hawse schema [NAME]              JSON Schema of an input, or of the plan

hawse COMMAND --help tells more and gives examples; hawse --version tells which
hawse this is.

Instants in files are texts with a zone ("2026-06-16T18:00Z") or epoch
milliseconds; everything else is metres, metres per second, newtons, kilograms,
degrees.

Exit codes: 0 done, 1 a failure of the machine, 2 the input or the call is
wrong, 3 the watch says that she drags, 4 at its end the watch was blind or
could not tell.

It advises. The chart, local rules and the skipper decide.
`;

/** What each command says of itself. */
export const COMMAND_HELP = {
  plan: `hawse plan [STAY.json] [--out DIR] [--json]

Plans one stay: the brief for the skipper to the terminal. Without a file it
plans the demo, an invented bay.

  --out DIR   writes into DIR: brief.md, crew.md and watch.md (the briefs),
              plan.json, room.geojson, and the figures depth, holding, rode,
              swing and shelter as SVG
  --json      the plan as JSON to the terminal instead of the brief

  hawse plan --out out
  hawse plan my-stay.json --json | jq .verdict

What a stay may hold: hawse schema planStay. Every mistake in the file is told
at once, with the place where it stands, and then nothing is written.
`,
  compare: `hawse compare A.json B.json [C.json ...] [--for lunch|night] [--json]

Puts berths in order for one and the same stay, and says what decides between
neighbours in the list. Each file is a stay as hawse plan reads it; berths that
cannot be told apart share a place.

  --for lunch|night   what the stop is for; night unless given
  --json              the comparison as JSON

  hawse compare islet.json creek.json spit.json --for night
`,
  watch: `hawse watch LOG|- --plan PLAN.json [--state FILE] [--json]
hawse watch LOG|- --anchor "LAT LON" --reach METRES [--state FILE] [--json]

Tells swinging from dragging: replays a log of NMEA 0183 sentences or a GPX
track, or follows a live stream on standard input (-). A line at every change:
how she lies, which alarms ring, passing the limit and coming back.

It does not ring at the limit itself. A line tells that she is past it; the
alarm rings once that is surely no swinging, which takes minutes and some tens
of metres, and longer where the anchor creeps. Set the receiver's own circle
as well.

  --plan FILE     the plan.json that hawse plan --out wrote: anchor, limits,
                  clock
  --anchor "LAT LON" --reach METRES
                  without a plan: where the anchor lies, in decimal degrees
                  or as the brief prints it, and how far the antenna may be
                  from it with the cable straight (the limit)
  --state FILE    keeps the watch in FILE, and goes on from there after a
                  crash; a watch of another anchor or other limits is refused
  --json          at every change the report as a line of JSON

On a live stream, silence rings blind; a log is told of its holes likewise.
The watch ends where the stream ends. Exit codes: 0 she lay to her anchor,
2 the call is wrong or there was no fix, 3 she drags, 4 at the end the watch
was blind or could not tell.

  hawse watch night.log --plan out/plan.json
  nc localhost 10110 | hawse watch - --anchor "47.2 -20.4" --reach 45
  hawse watch night.log --anchor "47°12.011'N 020°24.016'W" --reach 45
`,
  sweep: `hawse sweep describe SPEC.json
    how many scenarios, which columns and units; nothing is run
hawse sweep run SPEC.json --out DIR [--shard K/N]
                [--form csv|jsonl|arrow|parquet] [--threads T]
    runs shard K of N (1/1 unless given) into a file of a fixed name in DIR; a
    shard that is there already is left alone, so that a killed run is simply
    started again
hawse sweep merge DIR [--out FILE]
    one file of all shards, after making sure that every one is there, once and
    whole

  hawse sweep run spec.json --out rows --shard 3/16 --form parquet
  seq 16 | parallel hawse sweep run spec.json --out rows --shard {}/16

What a sweep may hold: hawse schema sweep.
`,
  schema: `hawse schema [NAME]

JSON Schema (draft 2020-12) of an input, or of the plan, for editors and for
checking files before they are used. Inputs go by the name of their function,
the plan is StayPlan. Without a name: the names there are.

  hawse schema planStay > stay.schema.json
  hawse schema StayPlan > plan.schema.json
`,
} as const;
