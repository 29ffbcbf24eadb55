// Every subpath of the package has types, and a name is the same one from the root and from its room.
import * as root from "hawse";
import type * as chart from "hawse/chart";
import type * as daylight from "hawse/daylight";
import type * as feed from "hawse/feed";
import type * as figure from "hawse/figure";
import type * as geo from "hawse/geo";
import type * as holding from "hawse/holding";
import type * as lie from "hawse/lie";
import type * as plan from "hawse/plan";
import type * as rode from "hawse/rode";
import type * as seabed from "hawse/seabed";
import type * as shelter from "hawse/shelter";
import type * as signals from "hawse/signals";
import type * as stream from "hawse/stream";
import type * as sweep from "hawse/sweep";
import type * as sweepNode from "hawse/sweep/node";
import type * as swing from "hawse/swing";
import type * as tide from "hawse/tide";
import type * as watch from "hawse/watch";
import { claim, type Same } from "./same.js";

type Root = typeof root;
/** Names of a room that the root does not have, or has with another type. */
type Strays<Room> = {
  [K in keyof Room]: K extends keyof Root ? (Same<Room[K], Root[K]> extends true ? never : K) : K;
}[keyof Room];

claim<Same<Strays<typeof chart>, never>>();
claim<Same<Strays<typeof daylight>, never>>();
claim<Same<Strays<typeof feed>, never>>();
claim<Same<Strays<typeof figure>, never>>();
claim<Same<Strays<typeof geo>, never>>();
claim<Same<Strays<typeof holding>, never>>();
claim<Same<Strays<typeof lie>, never>>();
claim<Same<Strays<typeof plan>, never>>();
claim<Same<Strays<typeof rode>, never>>();
claim<Same<Strays<typeof seabed>, never>>();
claim<Same<Strays<typeof shelter>, never>>();
claim<Same<Strays<typeof signals>, never>>();
claim<Same<Strays<typeof stream>, never>>();
claim<Same<Strays<typeof sweep>, never>>();
claim<Same<Strays<typeof swing>, never>>();
claim<Same<Strays<typeof tide>, never>>();
claim<Same<Strays<typeof watch>, never>>();
// Worker threads and files stay out of the root.
claim<Same<keyof typeof sweepNode & keyof Root, never>>();
// @ts-expect-error there is no such room
export type NoRoom = typeof import("hawse/galley");
