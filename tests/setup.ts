import fc from "fast-check";

// One seed for every run, so that a failure can be repeated; HAWSE_SEED tries another.
fc.configureGlobal({ seed: Number(process.env["HAWSE_SEED"] ?? 20_261_125) });
