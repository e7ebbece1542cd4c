// SPDX-License-Identifier: MIT
// Every job in the tree fits schema/job.schema.json, and the plan that the program prints for it schema/plan.schema.json.
import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import { test } from "node:test";
import { fileURLToPath } from "node:url";
import Ajv2020 from "ajv/dist/2020.js";

const root = join(dirname(fileURLToPath(import.meta.url)), "..", "..");
const program = join(root, "build", "native", "bin", "railwright");
const readJson = (path) => JSON.parse(readFileSync(path, "utf8"));

function jobsUnder(folder) {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile() && entry.name === "job.json")
    .map((entry) => join(entry.parentPath ?? entry.path, entry.name))
    .sort();
}

function schema(name) {
  const path = join(root, "schema", name);
  if (!existsSync(path)) return undefined;
  const validator = new Ajv2020({ allErrors: true, allowUnionTypes: true });
  validator.addKeyword("x-range-nm"); // the range of a length written as text: for readers, beyond what a schema can check
  return validator.compile(readJson(path));
}

function assertFits(validate, document, what) {
  const faults = validate(document) ? [] : validate.errors;
  assert.deepEqual(faults.map((fault) => `${what}${fault.instancePath}: ${fault.message}`), []);
}

// Exit 1 is a plan too: one with a finding that stops work.
function planOf(job) {
  const done = spawnSync(program, ["plan", job, "--json"], { encoding: "utf8", maxBuffer: 1 << 28 });
  assert.ok(done.status === 0 || done.status === 1, `plan of ${job}: exit ${done.status}\n${done.stderr}`);
  return JSON.parse(done.stdout);
}

const jobSchema = schema("job.schema.json");
const planSchema = schema("plan.schema.json");
const hasProgram = existsSync(program) || existsSync(join(root, "cli", "CMakeLists.txt"));

for (const job of [...jobsUnder(join(root, "examples")), ...jobsUnder(join(root, "tests", "golden"))]) {
  const name = relative(root, job);
  if (jobSchema) test(`job schema: ${name}`, () => assertFits(jobSchema, readJson(job), name));
  if (planSchema && hasProgram) test(`plan schema: ${name}`, () => assertFits(planSchema, planOf(job), `plan of ${name}`));
}

// A schema that lets anything through would pass all of the above. (A job may leave every key out; a plan may not.)
for (const [name, validate] of Object.entries({ job: jobSchema, plan: planSchema })) {
  if (!validate) continue;
  test(`${name} schema refuses what is no ${name}`, () => {
    for (const wrong of [[], null, "text", { nmae: "?" }, { schema: `railwright-${name}`, version: 999 }]) {
      assert.equal(validate(wrong), false, JSON.stringify(wrong));
    }
  });
}
