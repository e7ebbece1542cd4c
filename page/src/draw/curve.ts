// SPDX-License-Identifier: MIT
// A leg as it is drawn: its posts in walking order with their stations. Curved legs are known to the page only through these.
import type { Drawing } from '../engine/protocol';
import type { Place } from '../job/edit';
import { nearestOnSegment } from './view';

export const PER_POST = 5; // figures of a post in a drawing: east, north, ground, diameter, top

export const postAt = (drawing: Drawing, index: number): Place => ({
  east: drawing.posts.at[index * PER_POST] ?? 0,
  north: drawing.posts.at[index * PER_POST + 1] ?? 0,
});

export interface Stop {
  post: number;
  at: Place;
  station: number;
}

// Posts stand one chord after the other; the chords' sum falls a little short of the curve and is stretched to its length.
export function stopsOf(drawing: Drawing, leg: number): Stop[] {
  const stops: Stop[] = [];
  const length = drawing.ground[leg]?.at(-2) ?? 0;
  let along = 0;
  drawing.bays.kind.forEach((_, bay) => {
    if (drawing.bays.ends[bay * 3 + 2] !== leg) return;
    const [first, second] = [drawing.bays.ends[bay * 3] ?? 0, drawing.bays.ends[bay * 3 + 1] ?? 0];
    const [a, b] = [postAt(drawing, first), postAt(drawing, second)];
    if (stops.length === 0) stops.push({ post: first, at: a, station: 0 });
    along += Math.hypot(b.east - a.east, b.north - a.north);
    stops.push({ post: second, at: b, station: along });
  });
  const stretch = along > 0 ? length / along : 1;
  return stops.map((stop) => ({ ...stop, station: stop.station * stretch }));
}

const pairs = (stops: Stop[]): [Stop, Stop][] => stops.slice(1).map((to, index) => [stops[index] ?? to, to]);

export function placeAt(stops: Stop[], station: number): Place | null {
  const pair = pairs(stops).find(([, to]) => to.station >= station) ?? pairs(stops).at(-1);
  if (!pair) return null;
  const [from, to] = pair;
  const share = Math.min(1, Math.max(0, (station - from.station) / (to.station - from.station || 1)));
  return { east: from.at.east + (to.at.east - from.at.east) * share, north: from.at.north + (to.at.north - from.at.north) * share };
}

// The nearest place of the leg: how far along and how far off.
export function nearestStation(stops: Stop[], place: Place): { station: number; off: number; at: Place } | null {
  let best: { station: number; off: number; at: Place } | null = null;
  for (const [from, to] of pairs(stops)) {
    const { at, station, off } = nearestOnSegment(place, from.at, to.at);
    const chord = Math.hypot(to.at.east - from.at.east, to.at.north - from.at.north) || 1;
    if (best === null || off < best.off) best = { station: from.station + ((to.station - from.station) * station) / chord, off, at };
  }
  return best;
}
