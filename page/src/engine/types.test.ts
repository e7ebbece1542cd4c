// SPDX-License-Identifier: MIT
import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';

it('has the types of the published schemas', () => {
  const script = fileURLToPath(new URL('../../scripts/types.mjs', import.meta.url));
  expect(() => execFileSync('node', [script, '--check'], { stdio: 'pipe' })).not.toThrow();
});
