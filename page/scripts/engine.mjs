// SPDX-License-Identifier: MIT
// Brings the engine's WebAssembly module, built by `cmake --preset wasm && cmake --build --preset wasm --target engine`, into the page.
import { copyFile, stat } from 'node:fs/promises';

const from = new URL('../../build/wasm/page/', import.meta.url);
const to = new URL('../src/engine/built/', import.meta.url);

for (const name of ['engine.mjs', 'engine.wasm']) {
  const built = await stat(new URL(name, from)).catch(() => null);
  if (built) await copyFile(new URL(name, from), new URL(name, to));
  else if (!(await stat(new URL(name, to)).catch(() => null))) {
    console.error('The engine is not built: cmake --preset wasm && cmake --build --preset wasm --target engine');
    process.exit(1);
  }
}
