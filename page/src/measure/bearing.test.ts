// SPDX-License-Identifier: MIT
import { expect, it } from 'vitest';
import { parseBearing } from './bearing';

it.each([
  ['90', 90],
  ['-90', 270],
  ['12.5°', 12.5],
  ['N 45 E', 45],
  ['n45w', 315],
  ['S 12 30 W', 192.5],
  ['S 20 E', 160],
  ['N 30 O', 330],
])('%s', (text, degrees) => expect(parseBearing(text)).toBeCloseTo(degrees, 9));

it('turns from the leg before', () => {
  expect(parseBearing('L 90', 10)).toBe(280);
  expect(parseBearing('r45', 350)).toBe(35);
  expect(parseBearing('i 90', 90)).toBe(0);
  expect(parseBearing('L 90')).toBeNull();
});

it.each(['', 'north', 'N 95 E', 'N 10 75 E', '12 ft', 'E 10 N'])('refuses "%s"', (text) => expect(parseBearing(text, 0)).toBeNull());
