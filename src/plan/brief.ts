import { fromPlan } from "./asPlan.js";
import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { adviceSections } from "./briefAdvice.js";
import { check } from "../core/check.js";
import {
  boatSections,
  depthSection,
  placeSection,
  rodeSection,
  swingSection,
} from "./briefBerth.js";
import { crewSections, keeperSections } from "./briefCrew.js";
import { cautionSection, lightsSection, watchSection, weatherSection } from "./briefWatch.js";
import { waySection } from "./briefWay.js";
import type { StayPlan } from "./planStay.js";
import { dangerText } from "./safeUntil.js";
import { clockOf, fold, hoursText, reasonText, type Clock } from "./words.js";

/** One section of a brief: a heading and its lines. */
export interface Section {
  /** Heading. */
  title: string;
  /** Its lines, in order. */
  lines: string[];
}

const options = z.strictObject({
  /** `text` for a terminal of 80 columns, `markdown` for anything else; `text` unless given. */
  form: z._default(z.enum(["markdown", "text"]), "text"),
  /** Whom it is for: the skipper, the crew, or whoever keeps watch; the skipper unless given. */
  for: z._default(z.enum(["skipper", "crew", "watch"]), "skipper"),
});
/** Options of {@link briefText}. */
export type BriefOptions = Given<typeof options>;

const VERDICT: Readonly<Record<StayPlan["verdict"], string>> = {
  suitable: "SUITABLE: nothing known speaks against lying here for the stay.",
  withCare: "WITH CARE: you can lie here for the stay if what follows is looked after.",
  unsuitable: "UNSUITABLE: do not lie here for the whole of this stay.",
  cannotTell: "CANNOT TELL: something needed is not known. Take it as unsuitable until it is.",
};

/** Mark of each severity at the head of a line. */
const MARK = {
  stop: "STOP",
  warning: "WARN",
  caution: "care",
  note: "note",
} as const;

/** The verdict in a line; with care until an hour, where the berth stops being safe then. */
function verdictText({ verdict, danger }: StayPlan, clock: Clock): string {
  if (verdict !== "withCare" || danger.atMs === null) return VERDICT[verdict];
  return `WITH CARE UNTIL ${clock.time(danger.atMs)}: till then, if what follows is looked after.`;
}

function verdictSection(p: StayPlan, clock: Clock): Section {
  const reasons = p.reasons
    .filter((r) => r.severity !== "note")
    .map((r) => {
      const hours = hoursText(r, clock, p.stay.toMs, p.stay.fromMs);
      return `${MARK[r.severity]}  ${reasonText(r)}${hours === "" ? "" : `, ${hours}`}`;
    });
  return {
    title: "Verdict",
    lines: [verdictText(p, clock), dangerText(p, clock), ...new Set(reasons)],
  };
}

const skipperSections = (p: StayPlan, clock: Clock): Section[] => [
  verdictSection(p, clock),
  ...adviceSections(p, clock),
  placeSection(p),
  rodeSection(p, clock),
  depthSection(p, clock),
  swingSection(p, clock),
  ...boatSections(p, clock),
  weatherSection(p, clock),
  lightsSection(p, clock),
  watchSection(p, clock),
  waySection(p, clock),
  cautionSection(p),
];

type Reader = z.output<typeof options>["for"];

const SECTIONS: Record<Reader, (p: StayPlan, clock: Clock) => Section[]> = {
  skipper: skipperSections,
  crew: crewSections,
  watch: keeperSections,
};

/** The brief as sections, in the order they are used. */
export function briefSections(plan: StayPlan, reader: Reader = "skipper"): Section[] {
  const sections = SECTIONS[check(options, { for: reader }).for];
  return fromPlan(plan, (p) =>
    sections(p, clockOf(p.zoneOffsetMinutes, p.stay)).filter((s) => s.lines.length > 0),
  );
}

const COLUMNS = 80;
/** Width of the titles at the margin. */
const MARGIN = 10;

/** Titles stand at the margin, the lines beside them. */
function asText(title: string, sections: readonly Section[]): string {
  const body = sections.flatMap(({ title: name, lines }) =>
    lines
      .flatMap((l) => fold(l, COLUMNS - MARGIN, "  ").split("\n"))
      .map((l, i) => (i === 0 ? name.toUpperCase() : "").padEnd(MARGIN) + l),
  );
  return `${fold(title, COLUMNS)}\n\n${body.join("\n")}\n`;
}

const escapeMarkdown = (text: string): string => text.replace(/([\\`*_[\]<>#|])/g, "\\$1");

function asMarkdown(title: string, sections: readonly Section[]): string {
  const body = sections.map(
    (s) =>
      `## ${s.title}\n\n${s.lines.map((l) => `- ${escapeMarkdown(l.replace(/ {2,}/g, " "))}`).join("\n")}`,
  );
  return `${[`# ${escapeMarkdown(title)}`, ...body].join("\n\n")}\n`;
}

function titleOf({ name, stay, zoneOffsetMinutes }: StayPlan): string {
  const clock = clockOf(zoneOffsetMinutes);
  const at = (timeMs: number): string => `${clock.day(timeMs)} ${clock.time(timeMs)}`;
  return `${name ?? "A stay at anchor"}: ${at(stay.fromMs)} to ${at(stay.toMs)}, clock ${clock.zone}`;
}

/**
 * The plan told: to the skipper on one page, to the crew as jobs, signals and work in order, to the watch-keeper as
 * limits, marks and hours; times on the vessel's own clock.
 *
 * Words and figures come from the plan alone. Leaves out the columns over time and the sources of each figure;
 * they stand in the plan.
 *
 * *Valid* for any plan. *Accuracy*: lengths to the decimetre, wind to the knot, times to the minute.
 *
 * @throws InputError for a form or reader that is none.
 */
export function briefText(plan: StayPlan, given: BriefOptions = {}): string {
  const { form, for: reader } = check(options, given);
  const title = fromPlan(plan, titleOf);
  const sections = briefSections(plan, reader);
  return form === "text" ? asText(title, sections) : asMarkdown(title, sections);
}
