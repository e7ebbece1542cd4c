// SPDX-License-Identifier: MIT
// Heights of the ground as people write them down: pairs along a leg, spots, a grid. Only read into the job; the engine makes the ground of them.
import { asTyped, exact, mmOf, parseLength, type Units } from '../measure/length';
import { pointsOf, type Job, type Site } from './types';
import { placeOf } from './edit';

export type Ground = NonNullable<Site['ground']>;
export type Level = NonNullable<Ground['profile']>[number];
export type Spot = NonNullable<Ground['spots']>[number];
export type Grid = NonNullable<Ground['grid']>;

const LARGEST_GRID = 10_000; // cells that somebody may want to type

export const groundOf = (job: Job): Ground => job.site?.ground ?? {};
export const withGround = (job: Job, change: Partial<Ground>): Job => ({ ...job, site: { ...job.site, ground: { ...job.site?.ground, ...change } } });

export const levelsOf = (job: Job, leg: string): Level[] =>
  (groundOf(job).profile ?? []).filter((row) => row.leg === leg).toSorted((a, b) => mmOf(a.station) - mmOf(b.station));
export const setLevels = (job: Job, leg: string, rows: Omit<Level, 'leg'>[]): Job =>
  withGround(job, { profile: [...(groundOf(job).profile ?? []).filter((row) => row.leg !== leg), ...rows.map((row) => ({ leg, ...row }))] });

// Lines of numbers or lengths; a bare number is in the job's unit. The line at fault, counted from one, when it cannot be read.
function table(text: string, units: Units, columns: number): string[][] | { line: number } {
  const rows: string[][] = [];
  for (const [index, line] of text.split(/\r?\n/).entries()) {
    if (line.trim() === '') continue;
    // Tabs, semicolons and commas part columns; without them blanks do, and lengths are then bare numbers.
    const cells = (/[\t;,]/.test(line) ? line.split(/[\t;,]/) : line.trim().split(/\s+/)).map((cell) => asTyped(cell, units));
    if (cells.length !== columns || cells.includes(null)) return { line: index + 1 };
    rows.push(cells as string[]);
  }
  return rows;
}

export function readLevels(text: string, units: Units): Omit<Level, 'leg'>[] | { line: number } {
  const rows = table(text, units, 2);
  return Array.isArray(rows) ? rows.map(([station = '', height = '']) => ({ station, height })) : rows;
}

export function readSpots(text: string, units: Units): Spot[] | { line: number } {
  const rows = table(text, units, 3);
  return Array.isArray(rows) ? rows.map(([east = '', north = '', height = '']) => ({ east, north, height })) : rows;
}

// A grid over the line with half a cell to spare, its heights still unknown; null when it would be too large to type.
export function gridOver(job: Job, cell: string): Grid | null {
  const size = mmOf(cell);
  const places = pointsOf(job).map(placeOf);
  if (!(size > 0) || places.length === 0) return null;
  const reach = (values: number[]) => [Math.floor(Math.min(...values) / size), Math.ceil(Math.max(...values) / size)] as const;
  const [west, east] = reach(places.map((place) => place.east));
  const [south, north] = reach(places.map((place) => place.north));
  const [columns, rows] = [Math.max(2, east - west + 1), Math.max(2, north - south + 1)];
  if (columns * rows > LARGEST_GRID) return null;
  return { columns, rows, west: exact(west * size), south: exact(south * size), cell, heights_m: Array<number | null>(columns * rows).fill(null) };
}

const NOT_KNOWN = /^(-|\?|x)$/i;
// As on a map: the northernmost row first. A dash is a height not known.
export function gridText(grid: Grid, units: Units): string {
  const unit = units === 'metric' ? 1 : 0.3048;
  const said = (height: number | null | undefined) => (height === null || height === undefined ? '-' : String(Math.round((height / unit) * 1e4) / 1e4));
  return Array.from({ length: grid.rows }, (_, row) => {
    const start = (grid.rows - 1 - row) * grid.columns;
    return Array.from({ length: grid.columns }, (_, column) => said(grid.heights_m?.[start + column])).join(' ');
  }).join('\n');
}

export function readGrid(grid: Grid, text: string, units: Units): Grid | { line: number } {
  const lines = text.split(/\r?\n/).filter((line) => line.trim() !== '');
  const heights: (number | null)[][] = [];
  for (const [index, line] of lines.entries()) {
    const cells = line.trim().split(/[\s;,]+/);
    const row = cells.map((cell) => (NOT_KNOWN.test(cell) ? null : parseLength(cell, units === 'metric' ? 'm' : 'ft')));
    const unread = row.some((height, at) => height === null && !NOT_KNOWN.test(cells[at] ?? ''));
    if (unread || row.length !== grid.columns || index >= grid.rows) return { line: index + 1 };
    heights.push(row.map((height) => (height === null ? null : Math.round(height * 1e6) / 1e9)));
  }
  if (heights.length !== grid.rows) return { line: lines.length + 1 };
  return { ...grid, heights_m: heights.toReversed().flat() };
}
