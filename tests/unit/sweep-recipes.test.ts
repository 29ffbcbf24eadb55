import { readFileSync } from "node:fs";
import path from "node:path";
import { Ajv } from "ajv";
import { describe, expect, test } from "vitest";
import { csvOf, figureOf, halfWind, ruleOfScope } from "../../docs/examples/rule-of-scope.js";
import { chain, scopeByRule } from "../../src/rode/index.js";
import { describeSweep, type SweepInput } from "../../src/sweep/index.js";

const recipe = (name: string): string =>
  readFileSync(path.resolve(import.meta.dirname, "../../docs/recipes", name), "utf8");

/** What `batch/v1` Job asks of an indexed job with one container, from the Kubernetes API reference (from memory). */
const jobSchema = {
  type: "object",
  additionalProperties: false,
  required: ["apiVersion", "kind", "metadata", "spec"],
  properties: {
    apiVersion: { const: "batch/v1" },
    kind: { const: "Job" },
    metadata: {
      type: "object",
      required: ["name"],
      properties: { name: { type: "string", pattern: "^[a-z0-9]([-a-z0-9]{0,61}[a-z0-9])?$" } },
    },
    spec: {
      type: "object",
      additionalProperties: false,
      required: ["completionMode", "completions", "template"],
      properties: {
        completionMode: { const: "Indexed" },
        completions: { type: "integer", minimum: 1 },
        parallelism: { type: "integer", minimum: 1 },
        backoffLimit: { type: "integer", minimum: 0 },
        template: {
          type: "object",
          additionalProperties: false,
          required: ["spec"],
          properties: {
            spec: {
              type: "object",
              additionalProperties: false,
              required: ["restartPolicy", "containers"],
              properties: {
                // A Job may not use Always.
                restartPolicy: { enum: ["OnFailure", "Never"] },
                containers: {
                  type: "array",
                  minItems: 1,
                  items: {
                    type: "object",
                    additionalProperties: false,
                    required: ["name", "image"],
                    properties: {
                      name: { type: "string" },
                      image: { type: "string" },
                      command: { type: "array", items: { type: "string" } },
                      args: { type: "array", items: { type: "string" } },
                      resources: { type: "object" },
                      volumeMounts: {
                        type: "array",
                        items: { type: "object", required: ["name", "mountPath"] },
                      },
                    },
                  },
                },
                volumes: { type: "array", items: { type: "object", required: ["name"] } },
              },
            },
          },
        },
      },
    },
  },
};

interface Job {
  spec: {
    completions: number;
    template: {
      spec: {
        containers: { args: string[]; volumeMounts: { name: string }[] }[];
        volumes: { name: string }[];
      };
    };
  };
}

describe("recipes", () => {
  test("the Kubernetes job is an indexed job that runs as many shards as it has completions", () => {
    const job = JSON.parse(recipe("kubernetes-job.json")) as Job;
    const validate = new Ajv({ strict: false }).compile(jobSchema);
    expect(validate(job), JSON.stringify(validate.errors)).toBe(true);
    const { containers, volumes } = job.spec.template.spec;
    expect(containers[0]!.args[0]).toContain(
      `$((JOB_COMPLETION_INDEX + 1))/${job.spec.completions}`,
    );
    expect(volumes.map((v) => v.name)).toEqual(containers[0]!.volumeMounts.map((m) => m.name));
  });

  test("the sweep of the recipes is in order, and all recipes cut it alike", () => {
    expect(describeSweep(JSON.parse(recipe("spec.json")) as SweepInput).rows).toBe(200_000);
    expect(recipe("parallel.sh")).toContain("--shard {}/16");
    expect(recipe("slurm.sh")).toContain("--array=1-16");
  });
});

describe("does the rule of scope hold?", () => {
  const small = { depths: 4, winds: 21, draws: 64 };

  test("chain: up to the wind that the textbook catenary gives, yawing and bow as drawn in the mean", async () => {
    const cells = (await ruleOfScope(small)).filter((c) => c.rode === "chain");
    const { weightInWaterNPerM: w } = chain(10);
    const { ratio } = scopeByRule({ make: "chain", greatestDepthM: 10 });
    for (const { depthM, windMps } of halfWind(cells)) {
      // Horizontal pull up to which a length s of chain leads along the bed at height h: w (s^2 - h^2) / (2 h).
      const h = depthM + 1.2;
      const pullN = (w * (ratio * depthM * (ratio * depthM) - h * h)) / (2 * h);
      // Drag 1/2 rho C A V^2 of the front windage (0.72 and 0.06 L^2), and of as much of the side as shows at 15 degrees.
      const front = 0.5 * 1.225 * 0.72 * 0.06 * 121;
      const side = 0.5 * 1.225 * 0.9 * 0.14 * 121;
      const yaw = (15 * Math.PI) / 180;
      const expected = Math.sqrt(pullN / (front * Math.cos(yaw) + side * Math.sin(yaw)));
      if (windMps === null) expect(expected).toBeGreaterThan(22);
      else expect(windMps / expected).toBeCloseTo(1, 1.3);
    }
  });

  test("lifts more often the harder it blows, and the shoaler the water for chain", async () => {
    const cells = await ruleOfScope(small);
    const at = (rode: string, depth: number, wind: number) =>
      cells.filter((c) => c.rode === rode)[depth * small.winds + wind]!.lifts;
    for (const rode of ["chain", "chainAndRope"])
      for (let d = 0; d < small.depths; d++)
        for (let v = 1; v < small.winds; v++)
          expect(at(rode, d, v)).toBeGreaterThanOrEqual(at(rode, d, v - 1));
    for (let v = 0; v < small.winds; v++)
      for (let d = 1; d < small.depths; d++)
        expect(at("chain", d, v)).toBeLessThanOrEqual(at("chain", d - 1, v));
    expect(csvOf(cells).trimEnd().split("\n").length).toBe(1 + cells.length);
    expect(figureOf(cells).match(/<rect/g)!.length).toBe(1 + cells.length);
  });
});
