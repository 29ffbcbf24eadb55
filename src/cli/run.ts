import { InputError } from "../core/errors.js";
import { compareCommand } from "./compareCommand.js";
import { planCommand } from "./planCommand.js";
import { schemaCommand } from "./schemaCommand.js";
import { sweepCommand } from "./sweepCommand.js";
import { watchCommand } from "./watchCommand.js";

/** Where a command writes. */
export interface Terminal {
  out: (text: string) => void;
  err: (text: string) => void;
}

/** A command: its arguments in, its exit code out. */
export type Command = (args: string[], terminal: Terminal) => number | Promise<number>;

const COMMANDS: Readonly<Record<string, Command>> = {
  plan: planCommand,
  compare: compareCommand,
  sweep: sweepCommand,
  watch: watchCommand,
  schema: schemaCommand,
};

const HELP = `hawse: whether, and how, a small vessel lies safely at anchor

  hawse plan [STAY.json] [--out DIR]   plan a stay: brief to the terminal; briefs for skipper,
                                       crew and watch, plan.json, figures and room.geojson into
                                       DIR. Without a file: the demo.
  hawse compare A.json B.json ...      berths for one and the same stay in order, with what decides
                                       between neighbours; --for lunch|night, --json.
  hawse sweep describe|run|merge       a what-if many times over: columns into files, in shards that can
                                       be killed and run again; hawse sweep --help tells more.
  hawse watch LOG|- --plan PLAN.json   replay an NMEA 0183 or GPX log, or follow a live stream on
                                       standard input; a line at every change, exit 3 where she
                                       dragged. --anchor "LAT LON" --reach METRES without a plan;
                                       --state FILE keeps the watch across a crash; --json.
  hawse schema [NAME]                  JSON Schema of an input, or of the plan; without a name the names.

Instants in files are texts with a zone ("2026-06-16T18:00Z") or epoch milliseconds;
everything else is metres, metres per second, newtons, kilograms, degrees.

Exit codes: 0 done, 1 a failure of the machine, 2 the input or the call is wrong.

It advises. The chart, local rules and the skipper decide.
`;

/** Run the command line; the answer is the exit code. */
export async function run(args: string[], terminal: Terminal): Promise<number> {
  const [name, ...rest] = args;
  if (name === undefined || name === "--help" || name === "-h" || name === "help") {
    terminal.out(HELP);
    return name === undefined ? 2 : 0;
  }
  const command = Object.hasOwn(COMMANDS, name) ? COMMANDS[name] : undefined;
  if (command === undefined) {
    terminal.err(`hawse: there is no command "${name}"\n\n${HELP}`);
    return 2;
  }
  try {
    return await command(rest, terminal);
  } catch (error) {
    return failed(error, terminal);
  }
}

function failed(error: unknown, terminal: Terminal): number {
  if (error instanceof InputError) {
    const lines = error.issues.map((i) => `  ${i.path === "" ? "" : `${i.path}: `}${i.message}`);
    terminal.err(`The input is not right, nothing was written:\n${lines.join("\n")}\n`);
    return 2;
  }
  const { code, message } = error as { code?: string; message?: string };
  if (code?.startsWith("ERR_PARSE_ARGS") === true) {
    terminal.err(`hawse: ${message ?? ""}\n\n${HELP}`);
    return 2;
  }
  terminal.err(`hawse: ${message ?? String(error)}\n`);
  return 1;
}
