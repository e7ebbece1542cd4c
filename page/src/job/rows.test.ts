// SPDX-License-Identifier: MIT
import { expect, it } from 'vitest';
import schema from '../../../schema/job.schema.json';
import { changeRow, copyRow, inPounds, namesOf, ownRow, resetRow, rowNamed, SHELF_NAMES, SHELVES, shippedRow } from './rows';
import type { Job } from './types';

const job: Job = { version: 1 };

it('offers every key of the document, and no other', () => {
  const overrides = schema.properties.choices.properties.overrides.properties as Record<string, { items: { properties: Record<string, unknown> } }>;
  for (const shelf of SHELF_NAMES) {
    const keys = Object.keys(overrides[shelf]!.items.properties).sort();
    expect([SHELVES[shelf].name, ...SHELVES[shelf].columns.map((row) => row.key)].sort()).toEqual(keys);
  }
  expect(Object.keys(overrides).sort()).toEqual([...SHELF_NAMES].sort());
});

it('puts a whole row in the place of the shipped one and goes back', () => {
  const changed = changeRow(job, 'animals', 'donkey', { least_height: '60 in' }, 'mine');
  const shipped = shippedRow('animals', 'donkey')!;
  expect(ownRow(changed, 'animals', 'donkey')).toEqual({ ...shipped, least_height: '60 in', source: 'mine' });
  const twice = changeRow(changed, 'animals', 'donkey', { push_n: 1000 }, 'ignored');
  expect(twice.choices?.overrides?.animals).toHaveLength(1);
  expect(rowNamed(twice, 'animals', 'donkey')).toMatchObject({ least_height: '60 in', push_n: 1000, source: 'mine' });
  expect(rowNamed(resetRow(twice, 'animals', 'donkey'), 'animals', 'donkey')).toBe(shipped);
});

it('copies a row under a new name once', () => {
  const copied = copyRow(job, 'prices', '2-3/8 sch40', 'cap from the yard', 'yard');
  expect(namesOf(copied, 'prices')).toContain('cap from the yard');
  expect(copyRow(copied, 'prices', '2-3/8 sch40', 'cap from the yard', 'yard')).toBe(copied);
});

it('says SI figures in pounds', () => {
  // 890 N is 200 lbf; 15 708.7 Pa/m is 100 psf/ft and 71 820.4 Pa 1 500 psf (International Building Code, Table 1806.2, class 5, as shipped); 241 MPa is 35 ksi.
  expect([inPounds('push_n', 890), inPounds('lateral_pa_per_m', 15708.7), inPounds('bearing_pa', 71820.4), inPounds('yield_mpa', 241.317)]).toEqual([
    '200.1 lbf',
    '100 psf/ft',
    '1500 psf',
    '35 ksi',
  ]);
});
