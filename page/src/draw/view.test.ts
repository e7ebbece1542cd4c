// SPDX-License-Identifier: MIT
import { describe, expect, it } from 'vitest';
import { fit, nearestOnSegment, reveal, scaleBar, toPlane, toScreen, zoomAt } from './view';

const view = { scale: 0.02, x: 300, y: 400 };

describe('the window', () => {
  it('goes there and back, north up', () => {
    const [x, y] = toScreen(view, { east: 5000, north: 2500 });
    expect([x, y]).toEqual([400, 350]);
    expect(toPlane(view, x, y)).toEqual({ east: 5000, north: 2500 });
  });

  it('brings places into what nothing covers, and leaves alone what is in sight', () => {
    const free = { left: 0, top: 60, right: 400, bottom: 300 };
    const inSight = { east: 0, north: 12000 };
    expect(toScreen(view, inSight)).toEqual([300, 160]);
    expect(reveal(view, [inSight], free)).toBe(view);
    const panned = reveal(view, [{ east: 0, north: 0 }], free);
    expect(panned.scale).toBe(view.scale);
    expect(toScreen(panned, { east: 0, north: 0 })).toEqual([200, 180]);
    const places = [
      { east: 0, north: 0 },
      { east: 50000, north: 9000 },
    ];
    const wide = reveal(view, places, free);
    for (const place of places) {
      const [x, y] = toScreen(wide, place);
      expect(x).toBeGreaterThan(30);
      expect(x).toBeLessThan(370);
      expect(y).toBeGreaterThan(90);
      expect(y).toBeLessThan(270);
    }
  });

  it('keeps the place under the finger when it zooms', () => {
    const before = toPlane(view, 123, 456);
    const after = toPlane(zoomAt(view, 1.7, 123, 456), 123, 456);
    expect(after.east).toBeCloseTo(before.east, 6);
    expect(after.north).toBeCloseTo(before.north, 6);
  });

  it('shows every place', () => {
    const places = [
      { east: -20000, north: 5000 },
      { east: 80000, north: 90000 },
      { east: 100, north: -7000 },
    ];
    const whole = fit(places, 800, 500);
    for (const place of places) {
      const [x, y] = toScreen(whole, place);
      expect(x).toBeGreaterThanOrEqual(0);
      expect(x).toBeLessThanOrEqual(800);
      expect(y).toBeGreaterThanOrEqual(0);
      expect(y).toBeLessThanOrEqual(500);
    }
  });
});

it('finds the nearest place of a leg, and its ends beyond them', () => {
  const [a, b] = [
    { east: 0, north: 0 },
    { east: 100, north: 0 },
  ];
  expect(nearestOnSegment({ east: 30, north: 40 }, a, b)).toEqual({ at: { east: 30, north: 0 }, station: 30, off: 40 });
  expect(nearestOnSegment({ east: 130, north: 40 }, a, b)).toEqual({ at: b, station: 100, off: 50 });
  expect(nearestOnSegment({ east: 3, north: 4 }, a, a).off).toBe(5);
});

it('has a scale bar of round figures that fits', () => {
  for (const scale of [1e-5, 3e-4, 0.011, 0.7]) {
    const bar = scaleBar({ ...view, scale }, 304.8, 150);
    expect(bar.pixels).toBeLessThanOrEqual(150);
    expect(bar.pixels).toBeGreaterThan(150 / 2.6);
    expect(bar.pixels).toBeCloseTo(bar.count * 304.8 * scale, 6);
  }
});
