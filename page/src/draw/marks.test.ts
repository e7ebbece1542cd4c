// SPDX-License-Identifier: MIT
import { describe, expect, it } from 'vitest';
import type { Drawing } from '../engine/protocol';
import type { Job } from '../job/types';
import { marksOf } from './marks';

const job = {
  version: 1,
  site: {
    points: [
      { id: 'A', east: '0 m', north: '0 m' },
      { id: 'B', east: '6 m', north: '0 m' },
    ],
    legs: [{ id: 'AB', from: 'A', to: 'B', fence: 'f' }],
    gates: [{ id: 'G1', leg: 'AB', station: '1.5 m', leaf: '1 m' }],
    zones: [
      {
        id: 'Z1',
        shape: [
          { east: '1 m', north: '2 m' },
          { east: '2 m', north: '2 m' },
        ],
      },
    ],
  },
} as Job;
const drawing: Drawing = {
  posts: { name: ['A', 'AB1', 'B'], kind: [0, 2, 0], at: [0, 0, 0, 60, 0, 3000, 0, 0, 60, 0, 6000, 0, 0, 60, 0] },
  bays: { name: ['A-B.1', 'A-B.2'], kind: [0, 0], ends: [0, 1, 0, 1, 2, 0], rails: [[], []] },
  ground: [[]],
};
const named = (kind: 'point' | 'leg' | 'gate' | 'zone' | 'post' | 'bay', id: string) => marksOf(job, drawing, [{ kind, id }]);

describe('where named things stand', () => {
  it('rings posts, corners, gates and the corners of zones', () => {
    expect(named('post', 'AB1').rings).toEqual([{ east: 3000, north: 0 }]);
    expect(named('point', 'B').rings).toEqual([{ east: 6000, north: 0 }]);
    expect(named('gate', 'G1').rings).toEqual([{ east: 1500, north: 0 }]);
    expect(named('zone', 'Z1').rings).toHaveLength(2);
  });
  it('lines bays and legs, a leg not drawn between its corners', () => {
    expect(named('bay', 'A-B.2').lines).toEqual([
      [
        { east: 3000, north: 0 },
        { east: 6000, north: 0 },
      ],
    ]);
    expect(named('leg', 'AB').lines).toHaveLength(2);
    expect(marksOf(job, null, [{ kind: 'leg', id: 'AB' }]).lines).toEqual([
      [
        { east: 0, north: 0 },
        { east: 6000, north: 0 },
      ],
    ]);
  });
  it('marks nothing for what is not there', () => {
    expect(named('post', 'Q9')).toEqual({ rings: [], lines: [] });
    expect(named('gate', 'G9')).toEqual({ rings: [], lines: [] });
    expect(named('leg', 'QQ')).toEqual({ rings: [], lines: [] });
  });
});
