// SPDX-License-Identifier: MIT
import { expect, it } from 'vitest';
import { gridOver, gridText, levelsOf, readGrid, readLevels, readSpots, setLevels } from './heights';
import type { Job } from './types';

const job: Job = {
  version: 1,
  site: {
    points: [
      { id: 'A', east: '3 ft', north: '4 ft' },
      { id: 'B', east: '47 ft', north: '21 ft' },
    ],
  },
};

it('reads levels as they are written, with units or without', () => {
  expect(readLevels('0, 100\n24 ft 6 in, 101.25\n\n50;102 ft', 'feet_inches')).toEqual([
    { station: '0 ft', height: '100 ft' },
    { station: '24 ft 6 in', height: '101.25 ft' },
    { station: '50 ft', height: '102 ft' },
  ]);
  expect(readLevels('0 100\n10 up', 'metric')).toEqual({ line: 2 });
  expect(readLevels('0 100 3', 'metric')).toEqual({ line: 1 });
  expect(readSpots('1\t2\t3', 'metric')).toEqual([{ east: '1 m', north: '2 m', height: '3 m' }]);
});

it('keeps the levels of one leg apart from another', () => {
  let levelled = setLevels(job, 'AB', [{ station: '9 ft', height: '1 ft' }]);
  levelled = setLevels(levelled, 'BC', [{ station: '0 ft', height: '5 ft' }]);
  levelled = setLevels(levelled, 'AB', [
    { station: '9 ft', height: '2 ft' },
    { station: '0 ft', height: '1 ft' },
  ]);
  expect(levelsOf(levelled, 'AB').map((row) => row.station)).toEqual(['0 ft', '9 ft']);
  expect(levelsOf(levelled, 'BC')).toHaveLength(1);
});

it('lays a grid over the line and takes its heights as on a map', () => {
  const grid = gridOver(job, '20 ft')!;
  // From 0 to 60 ft east and 0 to 40 ft north: 4 by 3 places.
  expect([grid.columns, grid.rows, grid.west, grid.south]).toEqual([4, 3, '0 mm', '0 mm']);
  expect(gridText(grid, 'feet_inches')).toBe('- - - -\n- - - -\n- - - -');
  const read = readGrid(grid, '10 11 12 13\n20 21 - 23\n30 31 32 33', 'feet_inches');
  if ('line' in read) throw new Error('not read');
  expect(read.heights_m?.slice(0, 2)).toEqual([9.144, 9.4488]); // the southernmost row stands last in the text and first in the document
  expect(read.heights_m?.[6]).toBeNull();
  expect(gridText(read, 'feet_inches')).toBe('10 11 12 13\n20 21 - 23\n30 31 32 33');
});

it('names the line of a grid that cannot be read', () => {
  const grid = gridOver(job, '20 ft')!;
  expect(readGrid(grid, '1 2 3 4\n1 2 3\n1 2 3 4', 'metric')).toEqual({ line: 2 });
  expect(readGrid(grid, '1 2 3 4\n1 2 3 4', 'metric')).toEqual({ line: 3 });
  expect(readGrid(grid, '1 2 3 4\n1 2 3 4\n1 2 3 4\n1 2 3 4', 'metric')).toEqual({ line: 4 });
  expect(gridOver(job, '0 ft')).toBeNull();
  expect(gridOver(job, '1 in')).toBeNull();
});
