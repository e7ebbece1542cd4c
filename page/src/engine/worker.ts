// SPDX-License-Identifier: MIT
// The engine's thread: loads the module once and answers questions in order.
import createEngine, { type Engine } from './built/engine.mjs';
import type { Progress, Question, Reply } from './protocol';

const encoder = new TextEncoder();
const decoder = new TextDecoder();
const engine: Promise<Engine> = createEngine();

function store(module: Engine, bytes: Uint8Array): number {
  const at = module._rw_reserve(bytes.length);
  module.HEAPU8.set(bytes, at); // re-read HEAPU8 each time: memory growth replaces it
  return at;
}

function answer(module: Engine, { id, method, request }: Question): Reply {
  const name = encoder.encode(method);
  const body = encoder.encode(JSON.stringify(request));
  const nameAt = store(module, name);
  const bodyAt = store(module, body);
  // Called from inside the answer, while this thread is busy: what is posted leaves at once.
  module.tell = (at, size) => {
    const progress = JSON.parse(decoder.decode(module.HEAPU8.subarray(at, at + size))) as Progress;
    self.postMessage({ id, progress } satisfies Reply);
  };
  const size = module._rw_answer(nameAt, name.length, bodyAt, body.length);
  module._rw_release(nameAt);
  module._rw_release(bodyAt);
  const at = module._rw_text();
  return { id, ...JSON.parse(decoder.decode(module.HEAPU8.subarray(at, at + size))) };
}

self.onmessage = async (event: MessageEvent<Question>) => {
  try {
    self.postMessage(answer(await engine, event.data));
  } catch (trouble) {
    const text = trouble instanceof Error ? trouble.message : String(trouble);
    self.postMessage({ id: event.data.id, error: { code: 'engine.failed', place: '', text } } satisfies Reply);
  }
};
