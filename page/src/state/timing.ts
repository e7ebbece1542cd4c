// SPDX-License-Identifier: MIT
// How long a step of a drag took, left in the browser's own timeline for the measuring test; old measures are thrown away.
const MOST = 2000;
let count = 0;

export function took(step: 'drawing' | 'painting', start: number): void {
  if (++count % MOST === 0) performance.clearMeasures();
  performance.measure(step, { start });
}
