// Plans one stay: numbers of a form in, a verdict and figures out. Errors go back as words.
import { InputError, briefText, hours, knots, planStay, safeUntil, utc } from "hawse";
import { stayFigure, rodeFigure } from "hawse/figure";

const from = utc("2026-06-16T18:00Z");

self.onmessage = ({ data: { form, widthPx } }) => {
  try {
    const plan = planStay({
      position: { latDeg: 47.2, lonDeg: -20.4 },
      stay: { fromMs: from, toMs: from + hours(14) },
      vessel: { kind: "yacht", lengthM: 10, draughtM: form.draughtM },
      tackle: {
        anchor: { type: "rollBarScoop", massKg: 20 },
        rode: [{ kind: "chain", diameterMm: 8, lengthM: form.chainM }],
      },
      chartedDepthM: form.chartedDepthM,
      seabed: "S",
      tide: {
        kind: "turns",
        datum: "LAT",
        turns: [3.9, 0.6, 4.1, 0.5].map((heightM, i) => ({
          timeMs: from + hours(6.2 * i - 1),
          heightM,
        })),
      },
      stream: { kind: "steady", rateMps: 0, towardsDeg: 0 },
      forecast: {
        rows: [-1, 7, 15].map((h) => ({
          timeMs: from + hours(h),
          windMps: knots(form.windKn),
          windFromDeg: form.windFromDeg,
        })),
      },
      neighbours: [],
    });
    self.postMessage({
      verdict: plan.verdict,
      safe: safeUntil(plan).text,
      veerM: plan.rode.lengthOutM,
      // The whole answer: reasons, cautions, what is not known and what was assumed are part of it.
      brief: briefText(plan),
      figures: [stayFigure(plan, { widthPx }), rodeFigure(plan, { widthPx })],
    });
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    self.postMessage({ issues: error.issues.map((i) => `${i.path}: ${i.message}`) });
  }
};
