export { sweepPool, type PoolOptions } from "./pool.js";
export { runShard, type ShardDone, type ShardJob } from "./shards.js";
export { mergeShards, type Merged } from "./merge.js";
export type { SweepForm } from "./forms.js";
