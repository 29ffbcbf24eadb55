import { InputError } from "../core/errors.js";
import { VERSION } from "../sweep/version.js";
import { COMMAND_HELP, HELP } from "./help.js";
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

const COMMANDS: Readonly<Record<keyof typeof COMMAND_HELP, Command>> = {
  plan: planCommand,
  compare: compareCommand,
  sweep: sweepCommand,
  watch: watchCommand,
  schema: schemaCommand,
};

/** Commands that write files; of the others it need not be said that they did not. */
const WRITES: ReadonlySet<string> = new Set(["plan", "sweep"]);

const isCommand = (name: string): name is keyof typeof COMMANDS => Object.hasOwn(COMMANDS, name);
const asksHelp = (arg: string | undefined): boolean => arg === "--help" || arg === "-h";

/** Options end at `--`: what follows is the name of a file, even where it begins with a hyphen. */
const options = (args: readonly string[]): readonly string[] =>
  args.includes("--") ? args.slice(0, args.indexOf("--")) : args;

function noCommand(name: string, terminal: Terminal): number {
  terminal.err(`hawse: there is no command "${name}"\n\n${HELP}`);
  return 2;
}

/** Run the command line; the answer is the exit code. */
export async function run(args: string[], terminal: Terminal): Promise<number> {
  const [name, ...rest] = args;
  if (name === undefined || asksHelp(name) || name === "help") {
    const about = rest[0];
    if (about !== undefined && !isCommand(about) && name === "help")
      return noCommand(about, terminal);
    terminal.out(about !== undefined && isCommand(about) ? COMMAND_HELP[about] : HELP);
    return name === undefined ? 2 : 0;
  }
  if (name === "--version") {
    terminal.out(`${VERSION}\n`);
    return 0;
  }
  if (!isCommand(name)) return noCommand(name, terminal);
  if (options(rest).some(asksHelp)) {
    terminal.out(COMMAND_HELP[name]);
    return 0;
  }
  try {
    return await COMMANDS[name](rest, terminal);
  } catch (error) {
    return failed(error, name, terminal);
  }
}

/** A wrong option in our own words; whatever else is wrong with the call in those of the reader of options. */
const wrongCall = (code: string, message = ""): string =>
  code === "ERR_PARSE_ARGS_UNKNOWN_OPTION"
    ? `there is no option ${/'([^']+)'/.exec(message)?.[1] ?? message}`
    : message;

function failed(error: unknown, name: keyof typeof COMMANDS, terminal: Terminal): number {
  if (error instanceof InputError) {
    const lines = error.issues.map((i) => `  ${i.path === "" ? "" : `${i.path}: `}${i.message}`);
    const written = WRITES.has(name) ? ", nothing was written" : "";
    terminal.err(`The input is not right${written}:\n${lines.join("\n")}\n`);
    return 2;
  }
  const { code, message } = error as { code?: string; message?: string };
  if (code?.startsWith("ERR_PARSE_ARGS") === true) {
    terminal.err(`hawse: ${wrongCall(code, message)}\n\n${COMMAND_HELP[name]}`);
    return 2;
  }
  terminal.err(`hawse: ${message ?? String(error)}\n`);
  return 1;
}
