// SPDX-License-Identifier: MIT
// The catalogues' rows: what is shipped, what a job puts in its place, and the way back. A job's row replaces the shipped one of the same name whole.
import { animals } from '../../../data/animals.json';
import { fittings } from '../../../data/fittings.json';
import { hours } from '../../../data/hours.json';
import { pipes } from '../../../data/pipe.json';
import { prices } from '../../../data/prices.json';
import { soils } from '../../../data/soils.json';
import { supplies } from '../../../data/supplies.json';
import type { Job } from './types';

export type Shelf = 'fittings' | 'animals' | 'soils' | 'prices' | 'hours' | 'pipes' | 'supplies';
export type Row = Record<string, string | number | boolean | undefined>;
export type Kind = 'length' | 'number' | 'whole' | 'money' | 'text' | 'flag' | readonly string[];
export interface Column {
  key: string;
  kind: Kind;
  standard: string | number | boolean; // what a row has that does not say
}

const column = (kind: Kind, standard: Column['standard'], ...keys: string[]): Column[] => keys.map((key) => ({ key, kind, standard }));
const source = column('text', '', 'source');

export const SHELVES: Record<Shelf, { name: string; rows: Row[]; columns: Column[] }> = {
  fittings: {
    name: 'id',
    rows: fittings as Row[],
    columns: [
      ...column(['end', 'through', 'corner'], 'end', 'kind'),
      ...column(
        'length',
        '0 in',
        'post_diameter',
        'rail_diameter',
        'take_off',
        'bolt_offset',
        'band_height',
        'sleeve_diameter',
        'sleeve_depth',
        'least_engagement',
      ),
      ...column('number', 0, 'port_angle_deg', 'angle_tolerance_deg', 'tilt_limit_deg', 'axial_push_n', 'axial_pull_n'),
      ...column('whole', 0, 'bolts', 'nuts'),
      ...column('money', '0.00', 'price'),
      ...column('number', 0, 'mass_kg'),
      ...source,
    ],
  },
  animals: {
    name: 'id',
    rows: animals as Row[],
    columns: [
      ...column('length', '0 in', 'least_height', 'largest_bottom_gap', 'smallest_bottom_gap', 'largest_opening', 'trap_from', 'trap_to'),
      ...column('number', 0, 'push_n'),
      ...source,
    ],
  },
  soils: {
    name: 'id',
    rows: soils as Row[],
    columns: [...column('number', 0, 'lateral_pa_per_m', 'bearing_pa'), ...column('flag', true, 'isolated_pole_doubled'), ...source],
  },
  prices: {
    name: 'item',
    rows: prices as Row[],
    columns: [
      ...column('money', '0.00', 'price'),
      ...column(['each', 'ft', 'm', 'stick', 'bag', 'roll', 'lb', 'kg', 'ton', 'hour', 'mile', 'load'], 'each', 'unit'),
      ...column('number', 1, 'pack'),
      ...column('text', '', 'date'),
      ...source,
    ],
  },
  hours: { name: 'operation', rows: hours as Row[], columns: [...column('number', 0, 'minutes'), ...column('text', '', 'unit'), ...source] },
  pipes: {
    name: 'id',
    rows: pipes as Row[],
    columns: [
      ...column('length', '0 in', 'diameter', 'wall'),
      ...column('number', 1, 'design_wall_factor'),
      ...column('number', 0, 'mass_kg_per_m', 'yield_mpa'),
      ...source,
    ],
  },
  supplies: {
    name: 'id',
    rows: supplies as Row[],
    columns: [
      ...column('text', '', 'kind'),
      ...column('length', '0 in', 'width', 'length'),
      ...column('number', 0, 'volume_m3', 'mass_kg', 'strength_n', 'diameter_mm'),
      ...source,
    ],
  },
};
export const SHELF_NAMES = Object.keys(SHELVES) as Shelf[];

export const nameOf = (shelf: Shelf, row: Row): string => String(row[SHELVES[shelf].name]);
const ownRows = (job: Job, shelf: Shelf): Row[] => (job.choices?.overrides?.[shelf] ?? []) as unknown as Row[];
export const shippedRow = (shelf: Shelf, name: string): Row | undefined => SHELVES[shelf].rows.find((row) => nameOf(shelf, row) === name);
export const ownRow = (job: Job, shelf: Shelf, name: string): Row | undefined => ownRows(job, shelf).find((row) => nameOf(shelf, row) === name);
export const rowNamed = (job: Job, shelf: Shelf, name: string): Row | undefined => ownRow(job, shelf, name) ?? shippedRow(shelf, name);

// Shipped names first, then those that only this job has.
export function namesOf(job: Job, shelf: Shelf): string[] {
  return [...new Set([...SHELVES[shelf].rows, ...ownRows(job, shelf)].map((row) => nameOf(shelf, row)))];
}

const withRows = (job: Job, shelf: Shelf, rows: Row[]): Job => ({
  ...job,
  choices: { ...job.choices, overrides: { ...job.choices?.overrides, [shelf]: rows } },
});

// The changed figures are no longer those of the shipped source, so an untouched source is replaced by `own`.
export function changeRow(job: Job, shelf: Shelf, name: string, change: Row, own: string): Job {
  const present = rowNamed(job, shelf, name);
  if (!present) return job;
  const borrowed = ownRow(job, shelf, name) === undefined && !('source' in change);
  const changed = { ...present, ...(borrowed ? { source: own } : {}), ...change };
  const rows = ownRows(job, shelf);
  const there = rows.some((row) => nameOf(shelf, row) === name);
  return withRows(job, shelf, there ? rows.map((row) => (nameOf(shelf, row) === name ? changed : row)) : [...rows, changed]);
}

export const resetRow = (job: Job, shelf: Shelf, name: string): Job =>
  withRows(
    job,
    shelf,
    ownRows(job, shelf).filter((row) => nameOf(shelf, row) !== name),
  );

export function copyRow(job: Job, shelf: Shelf, name: string, as: string, own: string): Job {
  const present = rowNamed(job, shelf, name);
  if (!present || rowNamed(job, shelf, as)) return job;
  return withRows(job, shelf, [...ownRows(job, shelf), { ...present, [SHELVES[shelf].name]: as, source: own }]);
}

// SI figures in the pounds, feet and gallons of the trade; exact factors of NIST Special Publication 811, appendix B.8.
const POUND_FORCE = 4.4482216152605;
const PSF = 47.88025898;
const FOOT = 0.3048;
const POUND = 0.45359237;
export function inPounds(key: string, value: number): string {
  const round = (figure: number) => String(Number(figure.toPrecision(4)));
  if (key.endsWith('_n')) return `${round(value / POUND_FORCE)} lbf`;
  if (key === 'lateral_pa_per_m') return `${round((value * FOOT) / PSF)} psf/ft`;
  if (key === 'bearing_pa') return `${round(value / PSF)} psf`;
  if (key === 'mass_kg_per_m') return `${round((value * FOOT) / POUND)} lb/ft`;
  if (key === 'mass_kg') return `${round(value / POUND)} lb`;
  if (key === 'yield_mpa') return `${round(value / 6.894757293168)} ksi`;
  return '';
}
