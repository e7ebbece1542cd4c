// SPDX-License-Identifier: MIT
import { expect, it } from 'vitest';
import type { Drawing } from '../engine/protocol';
import { nearestStation, placeAt, stopsOf } from './curve';

// Half a circle of radius 1000 about the origin in six chords, walked from east over north to west.
const posts = Array.from({ length: 7 }, (_, index) => (Math.PI * index) / 6).flatMap((turn) => [1000 * Math.cos(turn), 1000 * Math.sin(turn), 0, 60, 1500]);
const drawing = {
  posts: { name: Array.from({ length: 7 }, (_, index) => `P${index}`), kind: Array(7).fill(2), at: posts },
  bays: {
    name: Array.from({ length: 6 }, (_, index) => `L.${index}`),
    kind: Array(6).fill(0),
    ends: [0, 1, 2, 3, 4, 5].flatMap((bay) => [bay, bay + 1, 0]),
    rails: [],
  },
  ground: [[0, 0, 1000 * Math.PI, 0]],
} as unknown as Drawing;
const stops = stopsOf(drawing, 0);

it('spreads the posts over the length of the curve', () => {
  expect(stops).toHaveLength(7);
  expect(stops[3]!.station).toBeCloseTo(500 * Math.PI, 6);
  expect(stops[6]!.station).toBeCloseTo(1000 * Math.PI, 6);
});

it('finds a place by its station and a station by its place', () => {
  expect(placeAt(stops, 500 * Math.PI)!.north).toBeCloseTo(1000, 6);
  const near = nearestStation(stops, { east: 0, north: 1200 })!;
  expect(near.station).toBeCloseTo(500 * Math.PI, 6);
  expect(near.off).toBeCloseTo(200, 6);
  expect(placeAt(stops, -5)).toEqual(stops[0]!.at);
  expect(placeAt(stops, 1e9)!.east).toBeCloseTo(-1000, 6);
});

it('has nothing to say of a leg that is not drawn', () => {
  expect(stopsOf(drawing, 4)).toEqual([]);
  expect([placeAt([], 3), nearestStation([], { east: 0, north: 0 })]).toEqual([null, null]);
});
