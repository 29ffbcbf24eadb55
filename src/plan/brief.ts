import * as z from "zod/mini";
import { adviceSections } from "./briefAdvice.js";
import { check } from "../core/check.js";
import {
  boatSections,
  depthSection,
  placeSection,
  rodeSection,
  swingSection,
} from "./briefBerth.js";
import { cautionSection, lightsSection, watchSections, weatherSection } from "./briefWatch.js";
import type { StayPlan } from "./planStay.js";
import { clockOf, fold, hoursText, reasonText, type Clock } from "./words.js";

/** One section of a brief: a heading and its lines. */
export interface Section {
  /** Heading. */
  title: string;
  /** Its lines, in order. */
  lines: string[];
}

const options = z.strictObject({
  /** `text` for a terminal of 80 columns, `markdown` for anything else. */
  form: z._default(z.enum(["markdown", "text"]), "text"),
});
/** Options of {@link briefText}. */
export type BriefOptions = z.input<typeof options>;

const VERDICT: Readonly<Record<StayPlan["verdict"], string>> = {
  suitable: "SUITABLE: nothing known speaks against lying here for the stay.",
  withCare: "WITH CARE: you can lie here if what follows is looked after.",
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

/** What begins when the berth stops being safe, as a clause. */
function dangerText({ danger, reasons }: StayPlan): string {
  const r = reasons.find((q) => q.code === danger.code && (q.of ?? null) === danger.of);
  return r === undefined ? "" : `: ${reasonText(r)}`;
}

function verdictSection(p: StayPlan, clock: Clock): Section {
  const { danger } = p;
  const when =
    danger.atMs === null
      ? danger.known
        ? "No hour of the stay is known to be unsafe."
        : "No hour is known to be unsafe, but not everything is known."
      : `It stops being safe at ${clock.time(danger.atMs)} on ${clock.day(danger.atMs)}${dangerText(p)}.`;
  const reasons = p.reasons
    .filter((r) => r.severity !== "note")
    .map((r) => {
      const hours = hoursText(r, clock, p.stay.toMs, p.stay.fromMs);
      return `${MARK[r.severity]}  ${reasonText(r)}${hours === "" ? "" : `, ${hours}`}`;
    });
  return {
    title: "Verdict",
    lines: [VERDICT[p.verdict], when, ...new Set(reasons)],
  };
}

/** The brief as sections, in the order a skipper uses it. */
export function briefSections(p: StayPlan): Section[] {
  const clock = clockOf(p.zoneOffsetMinutes);
  return [
    verdictSection(p, clock),
    ...adviceSections(p, clock),
    placeSection(p),
    rodeSection(p, clock),
    depthSection(p, clock),
    swingSection(p, clock),
    ...boatSections(p, clock),
    weatherSection(p, clock),
    lightsSection(p, clock),
    ...watchSections(p, clock),
    cautionSection(p),
  ].filter((s) => s.lines.length > 0);
}

const COLUMNS = 80;

function asText(title: string, sections: readonly Section[]): string {
  const body = sections.map(
    (s) =>
      `${s.title.toUpperCase()}\n${s.lines.map((l) => `  ${fold(l, COLUMNS - 2, "      ")}`).join("\n")}`,
  );
  return `${[fold(title, COLUMNS), ...body].join("\n\n")}\n`;
}

const escapeMarkdown = (text: string): string => text.replace(/([\\`*_[\]<>#|])/g, "\\$1");

function asMarkdown(title: string, sections: readonly Section[]): string {
  const body = sections.map(
    (s) =>
      `## ${s.title}\n\n${s.lines.map((l) => `- ${escapeMarkdown(l.replace(/ {2,}/g, " "))}`).join("\n")}`,
  );
  return `${[`# ${escapeMarkdown(title)}`, ...body].join("\n\n")}\n`;
}

/**
 * The plan told to a skipper: one page, in the order it is used, times on the vessel's own clock.
 *
 * Words and figures come from the plan alone. Leaves out the columns over time and the sources of each figure;
 * they stand in the plan.
 *
 * *Valid* for any plan. *Accuracy*: lengths to the decimetre, wind to the knot, times to the minute.
 *
 * @throws InputError for an unknown form.
 */
export function briefText(plan: StayPlan, given: BriefOptions = {}): string {
  const { form } = check(options, given);
  const clock = clockOf(plan.zoneOffsetMinutes);
  const { fromMs, toMs } = plan.stay;
  const title = `${plan.name ?? "A stay at anchor"}: ${clock.day(fromMs)} ${clock.time(fromMs)} to ${clock.day(toMs)} ${clock.time(toMs)}, clock ${clock.zone}`;
  const sections = briefSections(plan);
  return form === "text" ? asText(title, sections) : asMarkdown(title, sections);
}
