// SPDX-License-Identifier: MIT
// Writes the types of the job and the plan from the published schemas: `npm run types`. `--check` only compares (used by the tests).
import { readFile, writeFile } from 'node:fs/promises';
import { compile } from 'json-schema-to-typescript';

const root = new URL('../../', import.meta.url);
const files = [
  { schema: 'schema/job.schema.json', name: 'JobDocument', out: 'page/src/job/job.generated.ts' },
  { schema: 'schema/plan.schema.json', name: 'PlanDocument', out: 'page/src/engine/plan.generated.ts' },
];

export async function typesOf({ schema, name }) {
  const document = JSON.parse(await readFile(new URL(schema, root), 'utf8'));
  delete document.title;
  delete document.$id;
  return compile(document, name, {
    bannerComment: `// SPDX-License-Identifier: MIT\n// Made from ${schema} by scripts/types.mjs; do not edit.`,
    additionalProperties: false,
    ignoreMinAndMaxItems: true,
    style: { printWidth: 140, singleQuote: true },
  });
}

for (const file of files) {
  const text = await typesOf(file);
  const out = new URL(file.out, root);
  if (process.argv.includes('--check')) {
    if ((await readFile(out, 'utf8')) !== text) throw new Error(`${file.out} is older than ${file.schema}: npm run types`);
  } else {
    await writeFile(out, text);
  }
}
