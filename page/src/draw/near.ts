// SPDX-License-Identifier: MIT
// What lies under a finger.
import type { Drawing } from '../engine/protocol';
import type { Place } from '../job/edit';
import type { Leg } from '../job/types';
import { nearestStation, postAt, stopsOf } from './curve';
import { nearestOnSegment, toScreen, type View } from './view';

export const REACH = 22; // pixels within which a finger means the thing

export interface Named {
  id: string;
  place: Place;
}
export interface DrawnLeg {
  leg: Leg;
  a: Place;
  b: Place;
}

export function pointNear<T extends Named>(view: View, rows: readonly T[], x: number, y: number): T | undefined {
  const off = ({ place }: T) => {
    const [px, py] = toScreen(view, place);
    return Math.hypot(px - x, py - y);
  };
  return rows.filter((row) => off(row) <= REACH).sort((a, b) => off(a) - off(b))[0];
}

// A straight leg lies between its corners, a curved one where its posts stand.
export function onLeg(drawing: Drawing | null, row: DrawnLeg, index: number, place: Place): { at: Place; station: number; off: number } {
  const curved = row.leg.arc && drawing ? nearestStation(stopsOf(drawing, index), place) : null;
  return curved ?? nearestOnSegment(place, row.a, row.b);
}

export function legNear(view: View, drawing: Drawing | null, legs: readonly DrawnLeg[], place: Place) {
  const reach = REACH / view.scale;
  return legs
    .map((row, index) => ({ ...row, near: onLeg(drawing, row, index, place) }))
    .filter((row) => row.near.off <= reach)
    .sort((a, b) => a.near.off - b.near.off)[0];
}

export function postNear(view: View, drawing: Drawing | null, x: number, y: number): string | null {
  let best: [number, string] = [REACH, ''];
  drawing?.posts.name.forEach((name, index) => {
    const [px, py] = toScreen(view, postAt(drawing, index));
    const off = Math.hypot(px - x, py - y);
    if (off < best[0]) best = [off, name];
  });
  return best[1] || null;
}

export function bayNear(view: View, drawing: Drawing | null, place: Place): string | null {
  let best: [number, string] = [REACH / view.scale, ''];
  drawing?.bays.name.forEach((name, bay) => {
    const [a, b] = [postAt(drawing, drawing.bays.ends[bay * 3] ?? 0), postAt(drawing, drawing.bays.ends[bay * 3 + 1] ?? 0)];
    const { off } = nearestOnSegment(place, a, b);
    if (off < best[0]) best = [off, name];
  });
  return best[1] || null;
}
