// SPDX-License-Identifier: MIT
// Three threads of the engine: one draws while the hand moves, one counts, explains and mends, one does what takes longer and is dropped when the line changes.
import { EngineClient } from './client';

const start = () => new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' });

export const quick = new EngineClient(start);
export const counting = new EngineClient(start);
export const slow = new EngineClient(start);
