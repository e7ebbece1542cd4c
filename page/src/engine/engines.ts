// SPDX-License-Identifier: MIT
// Two threads of the engine: one answers while the hand moves, the other does what takes longer and is dropped when the line changes.
import { EngineClient } from './client';

const start = () => new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' });

export const quick = new EngineClient(start);
export const slow = new EngineClient(start);
