// SPDX-License-Identifier: MIT
// Where the things stand that a figure or a finding names: posts, corners and gates as places, bays and legs as lines.
import type { Drawing } from '../engine/protocol';
import { endsOf, placeOf, pointNamed, type Place } from '../job/edit';
import { gatesOf, legsOf, zonesOf, type Job } from '../job/types';
import { mmOf } from '../measure/length';
import { placeAt, postAt, stopsOf } from './curve';

export interface Named {
  kind: 'point' | 'leg' | 'gate' | 'zone' | 'post' | 'bay';
  id: string;
}
export interface Marks {
  rings: Place[];
  lines: [Place, Place][];
}

function bayLine(drawing: Drawing, bay: number): [Place, Place] {
  return [postAt(drawing, drawing.bays.ends[bay * 3] ?? 0), postAt(drawing, drawing.bays.ends[bay * 3 + 1] ?? 0)];
}

// A curved leg lies where its bays do; one not drawn yet lies between its corners.
function legLines(job: Job, drawing: Drawing | null, id: string): [Place, Place][] {
  const index = legsOf(job).findIndex((leg) => leg.id === id);
  const leg = legsOf(job)[index];
  const bays = (drawing?.bays.name ?? []).flatMap((_, bay) => (drawing?.bays.ends[bay * 3 + 2] === index ? [bay] : []));
  if (drawing && bays.length > 0) return bays.map((bay) => bayLine(drawing, bay));
  const ends = leg && endsOf(job, leg);
  return ends ? [ends] : [];
}

export function gatePlace(job: Job, drawing: Drawing | null, id: string): Place[] {
  const gate = gatesOf(job).find((row) => row.id === id);
  const index = legsOf(job).findIndex((row) => row.id === gate?.leg);
  const leg = legsOf(job)[index];
  const bent = gate && leg?.arc && drawing ? placeAt(stopsOf(drawing, index), mmOf(gate.station)) : null;
  if (bent) return [bent];
  const ends = leg && endsOf(job, leg);
  if (!gate || !ends) return [];
  const share = mmOf(gate.station) / (Math.hypot(ends[1].east - ends[0].east, ends[1].north - ends[0].north) || 1);
  return [{ east: ends[0].east + (ends[1].east - ends[0].east) * share, north: ends[0].north + (ends[1].north - ends[0].north) * share }];
}

export function marksOf(job: Job, drawing: Drawing | null, named: readonly Named[]): Marks {
  const marks: Marks = { rings: [], lines: [] };
  const posts = new Map(drawing?.posts.name.map((name, index) => [name, index]));
  const bays = new Map(drawing?.bays.name.map((name, index) => [name, index]));
  for (const { kind, id } of named) {
    const post = kind === 'post' ? posts.get(id) : undefined;
    const bay = kind === 'bay' ? bays.get(id) : undefined;
    if (drawing && post !== undefined) marks.rings.push(postAt(drawing, post));
    else if (drawing && bay !== undefined) marks.lines.push(bayLine(drawing, bay));
    else if (kind === 'leg') marks.lines.push(...legLines(job, drawing, id));
    else if (kind === 'point') marks.rings.push(...[pointNamed(job, id)].flatMap((point) => (point ? [placeOf(point)] : [])));
    else if (kind === 'gate') marks.rings.push(...gatePlace(job, drawing, id));
    else if (kind === 'zone') marks.rings.push(...(zonesOf(job).find((zone) => zone.id === id)?.shape ?? []).map(placeOf));
  }
  return marks;
}
