// SPDX-License-Identifier: MIT
import { describe, expect, it } from 'vitest';
import { snapped, type SnapContext } from './snap';

const A = { east: 0, north: 0 };
const B = { east: 30_000, north: 40_000 }; // 50 m at a bearing of 36.87 degrees
const BEARING = (Math.atan2(30, 40) * 180) / Math.PI;
const free: SnapContext = { anchors: [], corners: [], lengths: [], reach: 500, step: 0 };

describe('from the last corner on', () => {
  const context: SnapContext = { ...free, anchors: [{ at: B, along: [BEARING] }], corners: [{ id: 'A', place: A }] };

  it('takes a right angle to the leg before', () => {
    // Square to AB from B: the unit vector (0.8, -0.6); 20 m of it, and the hand 300 mm off.
    const { at, whys } = snapped({ east: 46_000 + 180, north: 28_000 + 240 }, context);
    expect(at.east).toBeCloseTo(46_000, 6);
    expect(at.north).toBeCloseTo(28_000, 6);
    expect(whys).toEqual(['square']);
  });

  it('goes straight on', () => {
    const { at, whys } = snapped({ east: 36_000 - 160, north: 48_000 + 120 }, context);
    expect(at.east).toBeCloseTo(36_000, 6);
    expect(at.north).toBeCloseTo(48_000, 6);
    expect(whys).toEqual(['straight']);
  });

  it('falls on a corner before anything else', () => {
    expect(snapped({ east: 600, north: 200 }, context)).toEqual({ at: A, whys: ['corner'], point: 'A' });
  });

  it('is as long as another leg', () => {
    const { at, whys } = snapped({ east: 46_000 + 200, north: 28_000 - 150 }, { ...context, lengths: [20_000] });
    expect(Math.hypot(at.east - B.east, at.north - B.north)).toBeCloseTo(20_000, 6);
    expect(whys).toEqual(['square', 'equal']);
  });

  it('stops at whole steps', () => {
    const { at } = snapped({ east: 90_000, north: 61_000 }, { ...context, step: 304.8 });
    const feet = Math.hypot(at.east - B.east, at.north - B.north) / 304.8;
    expect(feet).toBeCloseTo(Math.round(feet), 6);
  });

  it('leaves alone what is not near anything', () => {
    const raw = { east: 90_000, north: 61_000 };
    expect(snapped(raw, context)).toEqual({ at: raw, whys: [] });
  });
});

it('closes a rectangle: square to both its ends at once', () => {
  // A (0,0), B (0,30), C (50,30): the fourth corner is square to BC at C and to AB at A.
  const context: SnapContext = {
    ...free,
    anchors: [
      { at: { east: 50_000, north: 30_000 }, along: [90] },
      { at: A, along: [0] },
    ],
  };
  const { at, whys } = snapped({ east: 50_300, north: -350 }, context);
  expect(at.east).toBeCloseTo(50_000, 6);
  expect(at.north).toBeCloseTo(0, 6);
  expect(whys).toEqual(['square', 'square']);
});
