// SPDX-License-Identifier: MIT
import { expect, it } from 'vitest';
import { cornerHere, errorOf, LINGER, NOTHING_WALKED, POOREST, standing, taken, walkText, withoutLastCorner, type Fix } from './walk';

const fix = (latitude: number, longitude: number, accuracy: number, time: number): Fix => ({ latitude, longitude, accuracy, time });

it('leaves poor and broken fixes out and counts them', () => {
  let walk = taken(NOTHING_WALKED, fix(45, -100, 4, 0));
  walk = taken(walk, fix(45, -100, POOREST + 1, 1000));
  walk = taken(walk, fix(NaN, -100, 4, 2000));
  expect([walk.fixes.length, walk.poor]).toEqual([1, 2]);
});

it('averages a stand, better fixes counting more, older ones not at all', () => {
  const fixes = [fix(46, -100, 5, 0), fix(45, -100, 4, 10_000), fix(45.0001, -100.0002, 4, 11_000), fix(45.0004, -100, 8, 12_000)];
  const corner = standing(fixes, 12_000)!;
  // Weights 4, 4, 1: (0 + 4 x 1 + 4) / 9 = 8/9 of 1e-4 degrees north; 4 x 2 / 9 west.
  expect(corner.latitude).toBeCloseTo(45 + (8 / 9) * 1e-4, 10);
  expect(corner.longitude).toBeCloseTo(-100 - (8 / 9) * 1e-4, 10);
  expect(corner.accuracy).toBeCloseTo((4 * 4 + 4 * 4 + 8) / 9, 10);
  expect(corner.fixes).toBe(3);
  expect(standing(fixes, 12_000 + LINGER + 1)).toBeNull();
});

it('stands on the date line', () => {
  const corner = standing([fix(0, 179.9999, 4, 0), fix(0, -179.9999, 4, 1)], 1)!;
  expect(Math.abs(corner.longitude)).toBeCloseTo(180, 9);
});

it('keeps corners, takes the last back, closes on the first', () => {
  let walk = NOTHING_WALKED;
  for (const [at, latitude] of [45, 45.001, 45.002].entries()) {
    walk = taken(walk, fix(latitude, -100, 6, at * 60_000));
    walk = cornerHere(walk, at * 60_000)!;
  }
  expect(walkText(walk, true).match(/<rtept/g)).toHaveLength(4);
  expect(walkText(walk, false).match(/<rtept/g)).toHaveLength(3);
  expect(errorOf(walk)).toBe(3);
  walk = withoutLastCorner(withoutLastCorner(walk));
  expect(walkText(walk, true)).toContain('<trkpt lat="45.00200000" lon="-100.00000000"/>');
  expect(cornerHere(walk, 1e9)).toBeNull();
});
