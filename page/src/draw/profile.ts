// SPDX-License-Identifier: MIT
// The side of one leg: ground, rails and posts, as paths of SVG. Heights are exaggerated so that a slope can be seen; the factor is stated.
import type { Drawing } from '../engine/protocol';
import { PER_POST, postAt, stopsOf } from './curve';
import type { Place } from '../job/edit';

export interface Side {
  ground: string;
  hatch: string;
  rails: string;
  posts: { name: string; x: number; top: number; foot: number; strong: boolean }[];
  exaggeration: number;
  width: number;
  groundAt: (station: number) => [number, number];
}

const STEPS = [1, 2, 5, 10, 20, 50];
const fixed = (value: number) => value.toFixed(1);

interface Fitted {
  x: (station: number) => number;
  y: (height: number) => number;
  exaggeration: number;
}

function fitted(length: number, low: number, high: number, width: number, height: number): Fitted {
  const margin = { left: 26, right: 26, top: 30, bottom: 34 };
  const across = (width - margin.left - margin.right) / Math.max(length, 1);
  const most = (height - margin.top - margin.bottom) / Math.max(high - low, 500);
  const exaggeration = [...STEPS].reverse().find((step) => across * step <= most) ?? Math.min(1, most / across);
  const up = across * exaggeration;
  const base = height - margin.bottom - Math.max(0, (height - margin.top - margin.bottom - (high - low) * up) / 2);
  return { x: (station) => margin.left + station * across, y: (level) => base - (level - low) * up, exaggeration };
}

function stationsOf(drawing: Drawing, leg: number, from: Place): Map<number, number> {
  const stations = new Map<number, number>();
  for (let bay = 0; bay < drawing.bays.kind.length; ++bay) {
    if (drawing.bays.ends[bay * 3 + 2] !== leg) continue;
    for (const end of [drawing.bays.ends[bay * 3] ?? 0, drawing.bays.ends[bay * 3 + 1] ?? 0]) {
      const at = postAt(drawing, end);
      stations.set(end, Math.hypot(at.east - from.east, at.north - from.north));
    }
  }
  return stations;
}

function railsOf(drawing: Drawing, leg: number, stations: Map<number, number>, fit: Fitted): string {
  let path = '';
  drawing.bays.rails.forEach((heights, bay) => {
    if (drawing.bays.ends[bay * 3 + 2] !== leg) return;
    const from = fit.x(stations.get(drawing.bays.ends[bay * 3] ?? -1) ?? 0);
    const to = fit.x(stations.get(drawing.bays.ends[bay * 3 + 1] ?? -1) ?? 0);
    for (let i = 0; i + 1 < heights.length; i += 2) {
      path += `M${fixed(from)} ${fixed(fit.y(heights[i] ?? 0))}L${fixed(to)} ${fixed(fit.y(heights[i + 1] ?? 0))}`;
    }
  });
  return path;
}

export function sideOf(drawing: Drawing, leg: number, from: Place, width: number, height: number, curved = false): Side | null {
  const ground = drawing.ground[leg];
  if (!ground || ground.length < 4) return null;
  const heights = ground.filter((_, index) => index % 2 === 1);
  const stations = curved ? new Map(stopsOf(drawing, leg).map((stop) => [stop.post, stop.station])) : stationsOf(drawing, leg, from);
  const tops = [...stations.keys()].map((post) => drawing.posts.at[post * PER_POST + 4] ?? 0);
  const fit = fitted(ground[ground.length - 2] ?? 1, Math.min(...heights), Math.max(...heights, ...tops), width, height);
  let line = '';
  for (let i = 0; i + 1 < ground.length; i += 2) line += `${i === 0 ? 'M' : 'L'}${fixed(fit.x(ground[i] ?? 0))} ${fixed(fit.y(ground[i + 1] ?? 0))}`;
  const posts = [...stations].map(([post, station]) => ({
    name: drawing.posts.name[post] ?? '',
    x: fit.x(station),
    top: fit.y(drawing.posts.at[post * PER_POST + 4] ?? 0),
    foot: fit.y(drawing.posts.at[post * PER_POST + 2] ?? 0),
    strong: drawing.posts.kind[post] !== 2,
  }));
  return {
    ground: line,
    hatch: hatchOf(ground, fit),
    rails: railsOf(drawing, leg, stations, fit),
    posts,
    exaggeration: fit.exaggeration,
    width,
    groundAt: (station) => groundAt(ground, fit, station),
  };
}

function groundAt(ground: number[], fit: Fitted, station: number): [number, number] {
  let index = 2;
  while (index + 3 < ground.length && (ground[index] ?? 0) < station) index += 2;
  const [s0, h0, s1, h1] = [ground[index - 2] ?? 0, ground[index - 1] ?? 0, ground[index] ?? 0, ground[index + 1] ?? 0];
  const share = Math.min(1, Math.max(0, (station - s0) / Math.max(s1 - s0, 1e-6)));
  return [fit.x(station), fit.y(h0 + (h1 - h0) * share)];
}

// Earth strokes under the ground line, as one path.
function hatchOf(ground: number[], fit: Fitted): string {
  let path = '';
  let next = fit.x(0) + 6;
  for (let i = 2; i + 1 < ground.length; i += 2) {
    const [x0, x1] = [fit.x(ground[i - 2] ?? 0), fit.x(ground[i] ?? 0)];
    const [y0, y1] = [fit.y(ground[i - 1] ?? 0), fit.y(ground[i + 1] ?? 0)];
    for (; next <= x1; next += 16) {
      const y = y0 + ((y1 - y0) * (next - x0)) / Math.max(x1 - x0, 1e-6);
      path += `M${fixed(next)} ${fixed(y + 1)}l-6 7`;
    }
  }
  return path;
}
