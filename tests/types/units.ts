// Numbers carry their unit in the type: one unit does not pass for another, plain numbers pass for any.
import {
  feet,
  hours,
  kilogramsForce,
  knots,
  scopeByRule,
  tonnes,
  toKnots,
  type Degrees,
  type Kilograms,
  type Metres,
  type MetresPerSecond,
  type Milliseconds,
  type Newtons,
  type Seconds,
} from "hawse";
import { claim, type Same } from "./same.js";

claim<Same<ReturnType<typeof knots>, MetresPerSecond>>();
claim<Same<ReturnType<typeof feet>, Metres>>();
claim<Same<ReturnType<typeof hours>, Milliseconds>>();
claim<Same<ReturnType<typeof tonnes>, Kilograms>>();
claim<Same<ReturnType<typeof kilogramsForce>, Newtons>>();
claim<Same<Metres extends MetresPerSecond ? true : false, false>>();
claim<Same<Newtons extends Kilograms ? true : false, false>>();
claim<Same<Seconds extends Milliseconds ? true : false, false>>();

export const plain: Metres = 3;
export const worked: Metres = feet(10) + 2;
export const bare: number = feet(10);

// @ts-expect-error a speed is not a length
export const length: Metres = knots(3);
// @ts-expect-error a mass is not a force
export const force: Newtons = tonnes(2);
// @ts-expect-error a duration is not an angle
export const angle: Degrees = hours(1);
// @ts-expect-error a length is no speed to turn into knots
toKnots(feet(10));

scopeByRule({ make: "chain", greatestDepthM: feet(20) });
// @ts-expect-error a speed is not a depth
scopeByRule({ make: "chain", greatestDepthM: knots(3) });
// @ts-expect-error a text is not a number
scopeByRule({ make: "chain", greatestDepthM: "7" });
