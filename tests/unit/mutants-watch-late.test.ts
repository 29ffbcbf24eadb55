import { describe, expect, test } from "vitest";
import { type WatchEvent, stepWatch } from "../../src/watch/index.js";
import { begin, fixAt, REACH_M, START } from "../laws/watchScene.js";

const MPS = 0.3;
const DRAGS_AT = 1800;
const gone = (s: number) => MPS * Math.max(0, s - DRAGS_AT);
const fix = (s: number) => {
  const wobble = 0.4 * Math.sin(1.7 * s) + 0.2 * Math.cos(2.3 * s);
  return fixAt(START + s * 1000, wobble, -(REACH_M - 1 + gone(s)), 1.5);
};

/** Metres dragged before the alarm, when one fix in four comes so late. */
function rings(lateS: number): number {
  let state = begin();
  for (let s = 0; s < 2400; s += 2) {
    const events: WatchEvent[] = [fix(s)];
    if (lateS > 0 && s % 6 === 0 && s > lateS) events.push(fix(s - lateS + 1));
    for (const e of events) state = stepWatch(state, e).state;
    if (state.report.alarms.some((a) => a.code === "drag")) return gone(s);
  }
  return Infinity;
}

describe("fixes out of their place", () => {
  test("one in four that comes late hides no drag", () => {
    expect(rings(0)).toBeLessThan(25);
    for (const lateS of [8, 16, 24]) expect(rings(lateS), String(lateS)).toBe(rings(0));
  });
});
