// SPDX-License-Identifier: MIT
import { expect, it } from 'vitest';
import { addMend, changeMend, mendsOf, removeMend } from './mends';
import type { Job } from './types';

it('adds, changes and takes out what mends the ground', () => {
  const empty: Job = { version: 1 };
  const one = addMend(empty, 'AB', 12 * 304.8);
  expect(mendsOf(one)).toEqual([{ leg: 'AB', station: '12 ft', way: 'filler' }]);
  const two = addMend({ ...one, units: 'metric' }, 'BC', 2500);
  expect(mendsOf(two)[1]).toEqual({ leg: 'BC', station: '2.50 m', way: 'filler' });
  expect(mendsOf(changeMend(two, 0, { way: 'fill', station: '13 ft' }))).toEqual([{ leg: 'AB', station: '13 ft', way: 'fill' }, mendsOf(two)[1]]);
  expect(mendsOf(removeMend(two, 0))).toEqual([mendsOf(two)[1]]);
  expect(mendsOf(empty)).toEqual([]);
});
