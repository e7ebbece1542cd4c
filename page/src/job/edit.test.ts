// SPDX-License-Identifier: MIT
import { describe, expect, it } from 'vitest';
import { mmOf } from '../measure/length';
import * as edit from './edit';
import { gatesOf, legsOf, pointsOf, zonesOf, type Job } from './types';

const FOOT = 304.8;
const empty: Job = { version: 1, choices: { fences: [{ id: 'paddock', height: '54 in' }] } };

// A paddock drawn the way the pen does it: four corners, then back to the first.
function paddock(): Job {
  let job = empty;
  const ids: string[] = [];
  for (const [east, north] of [
    [0, 0],
    [100, 0],
    [100, 80],
    [0, 80],
  ] as const) {
    let id;
    [job, id] = edit.addPoint(job, { east: east * FOOT, north: north * FOOT });
    const last = ids.at(-1);
    if (last !== undefined) job = edit.addLeg(job, last, id);
    ids.push(id);
  }
  return edit.addLeg(job, 'D', 'A');
}

describe('drawing', () => {
  it('names corners and legs and keeps whole feet', () => {
    const job = paddock();
    expect(pointsOf(job)).toEqual([
      { id: 'A', east: '0 ft', north: '0 ft' },
      { id: 'B', east: '100 ft', north: '0 ft' },
      { id: 'C', east: '100 ft', north: '80 ft' },
      { id: 'D', east: '0 ft', north: '80 ft' },
    ]);
    expect(legsOf(job).map((leg) => [leg.id, leg.fence])).toEqual([
      ['AB', 'paddock'],
      ['BC', 'paddock'],
      ['CD', 'paddock'],
      ['DA', 'paddock'],
    ]);
  });

  it('never changes the job it was given', () => {
    const job = paddock();
    const before = JSON.stringify(job);
    edit.movePoint(job, 'A', { east: 1, north: 1 });
    edit.removePoint(job, 'B');
    edit.addGate(job, 'AB', 1000);
    edit.splitLeg(job, 'AB', { east: 50 * FOOT, north: 0 });
    expect(JSON.stringify(job)).toBe(before);
  });

  it('does not lay a leg twice, nor from a corner to itself', () => {
    const job = paddock();
    expect(edit.addLeg(job, 'B', 'A')).toBe(job);
    expect(edit.addLeg(job, 'B', 'B')).toBe(job);
  });

  it('does not give an issued name to a new corner', () => {
    const [, id] = edit.addPoint({ ...paddock(), issued: { posts: [{ name: 'E' }] } }, { east: 0, north: 0 });
    expect(id).toBe('F');
  });

  it('aims a leg by a typed length and bearing', () => {
    const job = edit.aimLeg(paddock(), 'AB', 50 * FOOT, 30);
    const [from, to] = edit.endsOf(job, edit.legNamed(job, 'AB')!)!;
    expect(edit.distance(from, to)).toBeCloseTo(50 * FOOT, 0);
    expect(edit.bearing(from, to)).toBeCloseTo(30, 2);
  });
});

describe('taking away', () => {
  it('takes the legs and gates of a corner with it', () => {
    const [job] = edit.addGate(paddock(), 'BC', 40 * FOOT);
    const less = edit.removePoint(job, 'B');
    expect(legsOf(less).map((leg) => leg.id)).toEqual(['CD', 'DA']);
    expect(gatesOf(less)).toEqual([]);
  });

  it('keeps the corners that other legs use', () => {
    const less = edit.removeLeg(edit.removeLeg(paddock(), 'AB'), 'BC');
    expect(pointsOf(less).map((point) => point.id)).toEqual(['A', 'C', 'D']);
  });
});

describe('splitting a leg', () => {
  it('shares out what stood along it', () => {
    const whole: Job = {
      ...paddock(),
      choices: { mends: [{ leg: 'AB', station: '80 ft', way: 'fill' }] },
    };
    const legs = legsOf(whole).map((leg) => (leg.id === 'AB' ? { ...leg, fixed: ['20 ft', '60 ft'] } : leg));
    const profile = [
      { leg: 'AB', station: '10 ft', height: '1 ft' },
      { leg: 'AB', station: '90 ft', height: '2 ft' },
    ];
    const [split, corner] = edit.splitLeg({ ...whole, site: { ...whole.site, legs, ground: { profile } } }, 'AB', { east: 40 * FOOT, north: 0 });
    const second = legsOf(split).find((leg) => leg.from === corner)!;
    expect(legsOf(split).find((leg) => leg.id === 'AB')!.fixed).toEqual(['20 ft']);
    expect(second.fixed).toEqual(['20 ft']);
    expect(split.site!.ground!.profile).toEqual([profile[0], { leg: second.id, station: '50 ft', height: '2 ft' }]);
    expect(split.choices!.mends).toEqual([{ leg: second.id, station: '40 ft', way: 'fill' }]);
    expect(edit.removeLeg(split, second.id).choices!.mends).toEqual([]);
  });

  it('parts a no-dig stretch with its leg and takes it away with it', () => {
    const whole = paddock();
    const stretch = { id: 'culvert', leg: 'AB', from: '30 ft', to: '50 ft', shape: [] };
    const beyond = { id: 'rock', leg: 'AB', from: '60 ft', to: '70 ft', shape: [] };
    const [split, corner] = edit.splitLeg({ ...whole, site: { ...whole.site, zones: [stretch, beyond] } }, 'AB', { east: 40 * FOOT, north: 0 });
    const second = legsOf(split).find((leg) => leg.from === corner)!.id;
    expect(zonesOf(split)).toEqual([
      stretch,
      { ...stretch, id: 'culvert-2', leg: second, from: '0 in', to: '10 ft' },
      { ...beyond, leg: second, from: '20 ft', to: '30 ft' },
    ]);
    expect(zonesOf(edit.removeLeg(split, second))).toEqual([stretch]);
  });

  it('lays a zone on a leg and draws it again', () => {
    const [job, id] = edit.addZone(paddock(), [{ east: 0, north: 0 }]);
    const laid = edit.layZone(job, id, 'AB');
    expect(zonesOf(laid)[0]).toMatchObject({ leg: 'AB', from: '0 ft', to: '10 ft', shape: [] });
    expect(zonesOf(edit.layZone(laid, id, ''))[0]).toMatchObject({ leg: '', shape: [{ east: '0 ft', north: '0 ft' }] });
  });

  it('sends a gate to the half in which it stands', () => {
    const [job] = edit.addGate(paddock(), 'AB', 70 * FOOT);
    const [split, corner] = edit.splitLeg(job, 'AB', { east: 40 * FOOT, north: 0 });
    expect(legsOf(split).map((leg) => [leg.from, leg.to])).toContainEqual(['A', corner]);
    const gate = gatesOf(split)[0]!;
    expect(edit.legNamed(split, gate.leg)?.from).toBe(corner);
    expect(mmOf(gate.station)).toBeCloseTo(30 * FOOT, 3);
  });
});

describe('gaps', () => {
  it('keeps one for each rail, and an empty text takes it away', () => {
    let job = edit.setGap(paddock(), 'AB.1', 1, '7 ft 3 in');
    job = edit.setGap(job, 'AB.1', 1, '7 ft 4 in');
    job = edit.setGap(job, 'AB.1', 2, '7 ft 5 in');
    expect(job.field?.gaps).toEqual([
      { bay: 'AB.1', rail: 1, gap: '7 ft 4 in' },
      { bay: 'AB.1', rail: 2, gap: '7 ft 5 in' },
    ]);
    expect(edit.setGap(job, 'AB.1', 2, '').field?.gaps).toHaveLength(1);
  });
});

it('names corners on past Z', () => expect([25, 26, 27, 701, 702].map(edit.letters)).toEqual(['Z', 'AA', 'AB', 'ZZ', 'AAA']));
