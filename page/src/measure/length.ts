// SPDX-License-Identifier: MIT
// Lengths as people type and read them. The document keeps texts with their units and the engine reads them exactly; the page needs millimetres only to draw,
// and texts only to show. Rules as in engine/measure/length.h.
export type Units = 'feet_inches' | 'metric';

const UNIT_MM: Record<string, number> = {
  mm: 1,
  cm: 10,
  m: 1000,
  km: 1e6,
  in: 25.4,
  inch: 25.4,
  inches: 25.4,
  '"': 25.4,
  '″': 25.4,
  '”': 25.4,
  ft: 304.8,
  foot: 304.8,
  feet: 304.8,
  "'": 304.8,
  '′': 304.8,
  '’': 304.8,
  yd: 914.4,
  mi: 1609344,
  mile: 1609344,
  miles: 1609344,
};
const VULGAR: Record<string, string> = { '½': '1/2', '¼': '1/4', '¾': '3/4', '⅛': '1/8', '⅜': '3/8', '⅝': '5/8', '⅞': '7/8', '⅓': '1/3', '⅔': '2/3' };

const NUMBER = String.raw`(\d+(?:\.\d+)?|\.\d+)(?:[\s-]+(\d+)\/(\d+)|\/(\d+))?`;
const UNIT = String.raw`(mm|cm|km|mi(?:les?)?|m|inch(?:es)?|in|foot|feet|ft|yd|["″”'′’])`;

function amount(whole: string, over: string | undefined, under: string | undefined, alone: string | undefined): number {
  if (alone !== undefined) return Number(whole) / Number(alone);
  return Number(whole) + (over !== undefined ? Number(over) / Number(under) : 0);
}

// Millimetres, or null when the text is not a length. `bare` is the unit of a number without one; without it such a number is refused.
export function parseLength(text: string, bare?: keyof typeof UNIT_MM): number | null {
  let rest = text.trim().toLowerCase();
  for (const [glyph, fraction] of Object.entries(VULGAR)) rest = rest.replaceAll(glyph, ` ${fraction}`);
  rest = rest.trim();
  const negative = /^[-−]/.test(rest);
  if (negative) rest = rest.slice(1).trim();
  if (rest === '') return null;
  const part = new RegExp(`^${NUMBER}\\s*${UNIT}?\\.?\\s*[-,]?\\s*`);
  let total = 0;
  let lastUnit = Infinity;
  while (rest !== '') {
    const found = part.exec(rest);
    if (!found || found[0] === '') return null;
    const [all, whole, over, under, alone, named] = found;
    rest = rest.slice(all.length);
    // After feet, a last number without a unit is inches: 7' 5 1/4.
    const unit = named ?? (lastUnit === 304.8 ? 'in' : bare);
    const size = unit === undefined ? undefined : UNIT_MM[unit];
    if (size === undefined || size >= lastUnit) return null;
    total += amount(whole ?? '', over, under, alone) * size;
    lastUnit = size;
  }
  const nm = Math.round(total * 1e6);
  return Number.isFinite(nm) ? (negative ? -nm : nm) / 1e6 : null;
}

// Zero where the document cannot be read; the engine names the fault.
export const mmOf = (text: string | undefined | null): number => (text ? (parseLength(text) ?? 0) : 0);

const divisor = (a: number, b: number): number => (b === 0 ? a : divisor(b, a % b));

function feetInches(mm: number, parts: number): string {
  const total = Math.round((Math.abs(mm) / 25.4) * parts);
  const feet = Math.floor(total / (12 * parts));
  const left = total - feet * 12 * parts;
  const inches = Math.floor(left / parts);
  const top = left - inches * parts;
  const common = top === 0 ? 1 : divisor(top, parts);
  const fraction = top === 0 ? '' : `${top / common}/${parts / common}`;
  const words = [inches > 0 || fraction === '' ? String(inches) : '', fraction].filter(Boolean).join(' ');
  return `${mm < 0 && total > 0 ? '-' : ''}${feet > 0 ? `${feet} ft ` : ''}${words} in`;
}

// For reading: feet and inches to 1/16 in, or metres from one metre up and millimetres below.
export function showLength(mm: number, units: Units, parts = 16): string {
  if (units === 'feet_inches') return feetInches(mm, parts);
  return Math.abs(mm) >= 1000 ? `${(mm / 1000).toFixed(parts > 4 ? 3 : 2)} m` : `${Math.round(mm)} mm`;
}

// For the document, after a drag: whole inches or centimetres are where a hand can stop.
export function snapped(mm: number, units: Units): string {
  if (units === 'metric') return `${(Math.round(mm / 10) / 100).toFixed(2)} m`;
  const inches = Math.round(mm / 25.4);
  const feet = Math.trunc(inches / 12);
  const left = Math.abs(inches % 12);
  if (left === 0) return `${feet} ft`;
  return Math.abs(inches) < 12 ? `${inches} in` : `${feet} ft ${left} in`;
}

// Exact enough to come back to the same nanometre.
export const exact = (mm: number): string => `${Math.round(mm * 1e6) / 1e6} mm`;

// A typed length is kept as typed; a number without a unit gets the job's unit.
export function asTyped(text: string, units: Units): string | null {
  const trimmed = text.trim();
  if (parseLength(trimmed) !== null) return trimmed;
  const unit = units === 'metric' ? 'm' : 'ft';
  return parseLength(`${trimmed} ${unit}`) !== null ? `${trimmed} ${unit}` : null;
}
