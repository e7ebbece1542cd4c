// SPDX-License-Identifier: MIT
import { expect, it } from 'vitest';
import { distance } from '../job/edit';
import { cornersOf, laid, scaledBy, shifted, type Picture } from './backdrop';

const photo = { blob: new Blob(['x']), name: 'yard.jpg', width: 400, height: 200 };

it('lies over the line with a margin', () => {
  const places = [
    { east: 1000, north: 2000 },
    { east: 41_000, north: 12_000 },
  ];
  const picture = laid(photo, places);
  const [nw, , se] = cornersOf(picture);
  for (const place of places) {
    expect(place.east).toBeGreaterThan(nw!.east);
    expect(place.east).toBeLessThan(se!.east);
    expect(place.north).toBeLessThan(nw!.north);
    expect(place.north).toBeGreaterThan(se!.north);
  }
  expect(laid(photo, []).size).toBeGreaterThan(0);
});

it('is scaled by two places: they come to lie that far apart, the first where it was', () => {
  const picture = { ...laid(photo, []), turn: 30 };
  const [a, b] = [cornersOf(picture)[0]!, cornersOf(picture)[1]!];
  const scaled = scaledBy(picture, a, b, 25_000)!;
  const [a2, b2] = [cornersOf(scaled)[0]!, cornersOf(scaled)[1]!];
  expect(distance(a2, b2)).toBeCloseTo(25_000, 6);
  expect(a2.east).toBeCloseTo(a.east, 6);
  expect(a2.north).toBeCloseTo(a.north, 6);
  expect(scaled.scaled).toBe(true);
});

it('refuses what cannot be a scale', () => {
  const picture = laid(photo, []);
  const a = { east: 0, north: 0 };
  expect(scaledBy(picture, a, a, 1000)).toBeNull();
  expect(scaledBy(picture, a, { east: 5, north: 0 }, 0)).toBeNull();
});

it('turns clockwise and moves', () => {
  const picture: Picture = { ...laid(photo, []), east: 0, north: 0, size: 10, turn: 90 };
  const [nw] = cornersOf(picture); // the picture's upper left is now at the upper right
  expect(nw!.east).toBeCloseTo(1000, 6);
  expect(nw!.north).toBeCloseTo(2000, 6);
  expect(shifted(picture, 5, -7)).toMatchObject({ east: 5, north: -7 });
});
