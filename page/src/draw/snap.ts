// SPDX-License-Identifier: MIT
// Where a hand that is nearly right meant to go: on a corner, square to a leg, in line, as long as another leg, at a whole foot. Drawing help only; the engine plans
// from whatever place comes out.
import { distance, type Place } from '../job/edit';

export type Why = 'corner' | 'square' | 'straight' | 'axis' | 'equal';
export interface Snap {
  at: Place;
  whys: Why[];
  point?: string; // the corner it fell on
}
// A line through a fixed place on which the hand may want to be.
interface Guide {
  through: Place;
  east: number; // unit vector
  north: number;
  why: Why;
}
export interface Anchor {
  at: Place;
  along: number[]; // bearings in degrees of the legs that meet here
}
export interface SnapContext {
  anchors: Anchor[]; // the corner that the leg comes from, first; then others to be square to
  corners: { id: string; place: Place }[];
  lengths: number[]; // of other legs
  reach: number; // millimetres
  step: number; // whole lengths, millimetres; 0: none
}

const SAME_LINE = 1e-9;
const RANK: Record<Why, number> = { square: 0, straight: 1, axis: 2, equal: 3, corner: 4 };

function guide(through: Place, degrees: number, why: Why): Guide {
  const turn = (degrees * Math.PI) / 180;
  return { through, east: Math.sin(turn), north: Math.cos(turn), why };
}

function guidesOf(anchors: Anchor[]): Guide[] {
  return anchors.flatMap(({ at, along }) => [
    ...along.flatMap((degrees) => [guide(at, degrees + 90, 'square'), guide(at, degrees, 'straight')]),
    guide(at, 0, 'axis'),
    guide(at, 90, 'axis'),
  ]);
}

const along = (place: Place, { through, east, north }: Guide): number => (place.east - through.east) * east + (place.north - through.north) * north;
const footOn = (place: Place, row: Guide): Place => {
  const run = along(place, row);
  return { east: row.through.east + run * row.east, north: row.through.north + run * row.north };
};

function crossing(a: Guide, b: Guide): Place | null {
  const turn = a.east * b.north - a.north * b.east;
  if (Math.abs(turn) < SAME_LINE) return null;
  const run = ((b.through.east - a.through.east) * b.north - (b.through.north - a.through.north) * b.east) / turn;
  return { east: a.through.east + run * a.east, north: a.through.north + run * a.north };
}

const nearest = (value: number, wanted: number[], reach: number): number | undefined =>
  wanted.filter((row) => row > 0 && Math.abs(row - value) <= reach).sort((a, b) => Math.abs(a - value) - Math.abs(b - value))[0];

// The length from `from`, kept in its direction: as another leg, else a whole step.
function paced(at: Place, from: Place, context: SnapContext): { at: Place; equal: boolean } {
  const length = distance(from, at);
  const same = nearest(length, context.lengths, context.reach);
  const whole = context.step > 0 ? Math.max(context.step, Math.round(length / context.step) * context.step) : length;
  const wanted = same ?? whole;
  if (length < SAME_LINE) return { at, equal: false };
  const times = wanted / length;
  return { at: { east: from.east + (at.east - from.east) * times, north: from.north + (at.north - from.north) * times }, equal: same !== undefined };
}

export function snapped(raw: Place, context: SnapContext): Snap {
  const on = context.corners
    .filter(({ place }) => distance(place, raw) <= context.reach * 1.6)
    .sort((a, b) => distance(a.place, raw) - distance(b.place, raw))[0];
  if (on) return { at: on.place, whys: ['corner'], point: on.id };
  const near = guidesOf(context.anchors)
    .filter((row) => distance(footOn(raw, row), raw) <= context.reach && distance(row.through, raw) > context.reach)
    .sort((a, b) => RANK[a.why] - RANK[b.why] || distance(footOn(raw, a), raw) - distance(footOn(raw, b), raw));
  const [first] = near;
  const from = context.anchors[0]?.at;
  if (!first) {
    if (!from) return { at: raw, whys: [] };
    const pace = paced(raw, from, context);
    return { at: pace.at, whys: pace.equal ? ['equal'] : [] };
  }
  for (const second of near.slice(1)) {
    const at = crossing(first, second);
    if (at && distance(at, raw) <= context.reach * 1.4) return { at, whys: [first.why, second.why] };
  }
  const foot = footOn(raw, first);
  if (!from || first.through !== from) return { at: foot, whys: [first.why] };
  const pace = paced(foot, from, context);
  return { at: pace.at, whys: pace.equal ? [first.why, 'equal'] : [first.why] };
}
