// SPDX-License-Identifier: MIT
// Changes of a job: each takes a job and gives a new one that shares what did not change. Nothing here plans; the engine does.
import { mmOf, snapped } from '../measure/length';
import { fencesOf, gatesOf, legsOf, pointsOf, unitsOf, zonesOf, type Fence, type Gate, type Job, type Leg, type Point, type Site, type Zone } from './types';

export interface Place {
  east: number; // millimetres
  north: number;
}

export const placeOf = (point: Pick<Point, 'east' | 'north'>): Place => ({ east: mmOf(point.east), north: mmOf(point.north) });
export const pointNamed = (job: Job, id: string): Point | undefined => pointsOf(job).find((point) => point.id === id);
export const legNamed = (job: Job, id: string): Leg | undefined => legsOf(job).find((leg) => leg.id === id);

export function endsOf(job: Job, leg: Leg): [Place, Place] | null {
  const from = pointNamed(job, leg.from);
  const to = pointNamed(job, leg.to);
  return from && to ? [placeOf(from), placeOf(to)] : null;
}

export const distance = (a: Place, b: Place): number => Math.hypot(b.east - a.east, b.north - a.north);
// Clockwise from north, 0 to 360.
export const bearing = (a: Place, b: Place): number => ((Math.atan2(b.east - a.east, b.north - a.north) * 180) / Math.PI + 360) % 360;

const withSite = (job: Job, change: Partial<Site>): Job => ({ ...job, site: { ...job.site, ...change } });

export function letters(index: number): string {
  const tail = String.fromCharCode(65 + (index % 26));
  return index < 26 ? tail : letters(Math.floor(index / 26) - 1) + tail;
}

export function freeName(taken: Iterable<string>, name: (index: number) => string): string {
  const names = new Set(taken);
  for (let index = 0; ; ++index) if (!names.has(name(index))) return name(index);
}

function freePoint(job: Job): string {
  const issued = job.issued?.posts?.map((post) => post.name) ?? [];
  return freeName([...pointsOf(job).map((point) => point.id), ...issued], letters);
}

function freeLeg(job: Job, from: string, to: string): string {
  return freeName(
    legsOf(job).map((leg) => leg.id),
    (index) => (index === 0 ? from + to : `${from}${to}${index + 1}`),
  );
}

// A free hand stops at whole inches or centimetres; a place that was snapped to or typed is kept to a tenth of a millimetre, or a right angle would not stay one.
const tenth = (mm: number): string => `${Math.round(mm * 10) / 10} mm`;
function written(job: Job, at: Place, exactly: boolean): { east: string; north: string } {
  const units = unitsOf(job);
  const text = (mm: number) => (exactly && Math.abs(mm - mmOf(snapped(mm, units))) > 0.05 ? tenth(mm) : snapped(mm, units));
  return { east: text(at.east), north: text(at.north) };
}

export function movePoint(job: Job, id: string, to: Place, exactly = false): Job {
  const moved = written(job, to, exactly);
  return withSite(job, { points: pointsOf(job).map((point) => (point.id === id ? { ...point, ...moved } : point)) });
}

export function addPoint(job: Job, at: Place, exactly = false): [Job, string] {
  const id = freePoint(job);
  const point: Point = { id, ...written(job, at, exactly) };
  return [withSite(job, { points: [...pointsOf(job), point] }), id];
}

export function addLeg(job: Job, from: string, to: string, fence?: string): Job {
  const joined = legsOf(job).some((leg) => (leg.from === from && leg.to === to) || (leg.from === to && leg.to === from));
  if (from === to || joined) return job;
  const leg: Leg = { id: freeLeg(job, from, to), from, to, fence: fence ?? fencesOf(job)[0]?.id ?? 'fence' };
  return withSite(job, { legs: [...legsOf(job), leg] });
}

// With its legs, and with the gates that stood in them.
export function removePoint(job: Job, id: string): Job {
  const gone = new Set(
    legsOf(job)
      .filter((leg) => leg.from === id || leg.to === id)
      .map((leg) => leg.id),
  );
  return withSite(removeLegs(job, gone), { points: pointsOf(job).filter((point) => point.id !== id) });
}

export function removeLegs(job: Job, gone: ReadonlySet<string>): Job {
  const ground = job.site?.ground;
  const site: Partial<Site> = {
    legs: legsOf(job).filter((leg) => !gone.has(leg.id)),
    gates: gatesOf(job).filter((gate) => !gone.has(gate.leg)),
    zones: zonesOf(job).filter((zone) => !zone.leg || !gone.has(zone.leg)),
  };
  if (ground?.profile) site.ground = { ...ground, profile: ground.profile.filter((row) => !gone.has(row.leg)) };
  const { choices } = job;
  const left = choices?.mends ? { ...job, choices: { ...choices, mends: choices.mends.filter((row) => !gone.has(row.leg)) } } : job;
  return withSite(left, site);
}

// A point that no leg uses after its leg went is of no use to anybody.
export function removeLeg(job: Job, id: string): Job {
  const leg = legNamed(job, id);
  const without = removeLegs(job, new Set([id]));
  const used = new Set(legsOf(without).flatMap((other) => [other.from, other.to]));
  return withSite(without, { points: pointsOf(without).filter((point) => used.has(point.id) || (point.id !== leg?.from && point.id !== leg?.to)) });
}

export const changeLeg = (job: Job, id: string, change: Partial<Leg>): Job =>
  withSite(job, { legs: legsOf(job).map((leg) => (leg.id === id ? { ...leg, ...change } : leg)) });

// The far end goes to a typed length and bearing from the near one.
export function aimLeg(job: Job, id: string, length: number, degrees: number): Job {
  const leg = legNamed(job, id);
  const ends = leg && endsOf(job, leg);
  if (!leg || !ends) return job;
  const turn = (degrees * Math.PI) / 180;
  const to = { east: ends[0].east + length * Math.sin(turn), north: ends[0].north + length * Math.cos(turn) };
  const moved = written(job, to, true);
  return withSite(job, { points: pointsOf(job).map((point) => (point.id === leg.to ? { ...point, ...moved } : point)) });
}

// The next corner by tape and compass, from a corner or, on empty paper, from the first.
export function addByTape(job: Job, from: string | null, length: number, degrees: number): [Job, string] {
  const [begun, start] = from === null ? addPoint(job, { east: 0, north: 0 }) : [job, from];
  const at = placeOf(pointNamed(begun, start) ?? { east: '0 ft', north: '0 ft' });
  const turn = (degrees * Math.PI) / 180;
  const [grown, id] = addPoint(begun, { east: at.east + length * Math.sin(turn), north: at.north + length * Math.cos(turn) }, true);
  return [addLeg(grown, start, id), id];
}

// A round pen: one corner, its gate post as a rule, and a leg that comes back to it.
export function addRound(job: Job, at: Place): [Job, string] {
  const [grown, point] = addPoint(job, at);
  const id = freeLeg(grown, point, '');
  const radius = unitsOf(job) === 'metric' ? '9 m' : '30 ft';
  const leg: Leg = { id, from: point, to: point, fence: fencesOf(job)[0]?.id ?? 'fence', arc: { radius } };
  return [withSite(grown, { legs: [...legsOf(grown), leg] }), id];
}

// The bearing on which somebody comes to a corner: of the last leg that ends there.
export function bearingTo(job: Job, point: string): number | undefined {
  const leg = legsOf(job).findLast((row) => row.to === point || row.from === point);
  const ends = leg && endsOf(job, leg);
  if (!leg || !ends) return undefined;
  return leg.to === point ? bearing(...ends) : bearing(ends[1], ends[0]);
}

// A no-dig stretch of a leg that is cut in two: it goes with the part that it lies on, or, where it lies on both, becomes two.
function cutZone(zone: Zone, second: string, beyond: (station: string) => boolean, less: (station: string) => string, taken: string[]): Zone[] {
  const from = zone.from ?? '0 in';
  const to = zone.to ?? '0 in';
  if (!beyond(to)) return [zone];
  if (beyond(from)) return [{ ...zone, leg: second, from: less(from), to: less(to) }];
  return [zone, { ...zone, id: freeName(taken, (index) => `${zone.id}-${index + 2}`), leg: second, from: '0 in', to: less(to) }];
}

// A corner in the middle of a leg: the leg's gates go to the half in which they stand.
export function splitLeg(job: Job, id: string, at: Place): [Job, string] {
  const leg = legNamed(job, id);
  const ends = leg && endsOf(job, leg);
  if (!leg || !ends) return [job, ''];
  const [grown, point] = addPoint(job, at);
  const cut = distance(ends[0], at);
  const second = freeLeg(grown, point, leg.to);
  const beyond = (station: string) => mmOf(station) > cut;
  const less = (station: string) => snapped(mmOf(station) - cut, unitsOf(job));
  const legs = legsOf(grown).flatMap((other) =>
    other.id === id
      ? [
          { ...other, to: point, ...(leg.fixed ? { fixed: leg.fixed.filter((station) => !beyond(station)) } : {}) },
          { ...leg, id: second, from: point, fixed: (leg.fixed ?? []).filter(beyond).map(less) },
        ]
      : [other],
  );
  // What stands along the leg goes with the part that it stands on.
  const moved = <T extends { leg: string; station: string }>(rows: readonly T[]): T[] =>
    rows.map((row) => (row.leg === id && beyond(row.station) ? { ...row, leg: second, station: less(row.station) } : row));
  const taken = zonesOf(grown).map((zone) => zone.id);
  const zones = zonesOf(grown).flatMap((zone) => (zone.leg === id ? cutZone(zone, second, beyond, less, taken) : [zone]));
  const site: Partial<Site> = { legs, gates: moved(gatesOf(grown)), zones };
  const ground = grown.site?.ground;
  if (ground?.profile) site.ground = { ...ground, profile: moved(ground.profile) };
  const split = withSite(grown, site);
  return [split.choices?.mends ? { ...split, choices: { ...split.choices, mends: moved(split.choices.mends) } } : split, point];
}

export function addGate(job: Job, leg: string, station: number): [Job, string] {
  const metric = unitsOf(job) === 'metric';
  const id = freeName(
    gatesOf(job).map((gate) => gate.id),
    (index) => `G${index + 1}`,
  );
  const gate: Gate = {
    id,
    leg,
    station: snapped(station, unitsOf(job)),
    leaf: metric ? '3.6 m' : '12 ft',
    hinge_clearance: metric ? '75 mm' : '3 in',
    latch_clearance: metric ? '50 mm' : '2 in',
  };
  return [withSite(job, { gates: [...gatesOf(job), gate] }), id];
}

export const changeGate = (job: Job, id: string, change: Partial<Gate>): Job =>
  withSite(job, { gates: gatesOf(job).map((gate) => (gate.id === id ? { ...gate, ...change } : gate)) });
export const removeGate = (job: Job, id: string): Job => withSite(job, { gates: gatesOf(job).filter((gate) => gate.id !== id) });

export function addZone(job: Job, shape: Place[]): [Job, string] {
  const units = unitsOf(job);
  const id = freeName(
    zonesOf(job).map((zone) => zone.id),
    (index) => `Z${index + 1}`,
  );
  const zone: Zone = {
    id,
    kind: 'water',
    shape: shape.map((place) => ({ east: snapped(place.east, units), north: snapped(place.north, units) })),
    tolerance: units === 'metric' ? '600 mm' : '24 in',
  };
  return [withSite(job, { zones: [...zonesOf(job), zone] }), id];
}

export const changeZone = (job: Job, id: string, change: Partial<Zone>): Job =>
  withSite(job, { zones: zonesOf(job).map((zone) => (zone.id === id ? { ...zone, ...change } : zone)) });
export function moveZone(job: Job, id: string, east: number, north: number): Job {
  const shift = (row: Zone['shape'][number]) => written(job, { east: mmOf(row.east) + east, north: mmOf(row.north) + north }, false);
  return changeZoneShape(job, id, (shape) => shape.map(shift));
}
export const moveZonePoint = (job: Job, id: string, index: number, to: Place): Job =>
  changeZoneShape(job, id, (shape) => shape.map((row, at) => (at === index ? written(job, to, false) : row)));
export const changeZoneShape = (job: Job, id: string, change: (shape: Zone['shape']) => Zone['shape']): Job =>
  withSite(job, { zones: zonesOf(job).map((zone) => (zone.id === id ? { ...zone, shape: change(zone.shape) } : zone)) });
// A stretch of a leg instead of a shape, or, without a leg, a shape again.
export function layZone(job: Job, id: string, leg: string): Job {
  const given = zonesOf(job).find((zone) => zone.id === id);
  const from = given?.from ?? '0 ft';
  if (leg) return changeZone(job, id, { leg, from, to: given?.to ?? (unitsOf(job) === 'metric' ? '3 m' : '10 ft'), shape: [], area: false });
  const along = legsOf(job).find((row) => row.id === given?.leg);
  const start = pointsOf(job).find((row) => row.id === along?.from) ?? pointsOf(job)[0];
  const shape = [{ east: start?.east ?? '0 ft', north: start?.north ?? '0 ft' }];
  return changeZone(job, id, { leg: '', from: '0 in', to: '0 in', shape });
}
export const removeZone = (job: Job, id: string): Job => withSite(job, { zones: zonesOf(job).filter((zone) => zone.id !== id) });

export const changeFence = (job: Job, id: string, change: Partial<Fence>): Job => ({
  ...job,
  choices: { ...job.choices, fences: fencesOf(job).map((fence) => (fence.id === id ? { ...fence, ...change } : fence)) },
});

// An empty text takes the gap away.
export function setGap(job: Job, bay: string, rail: number, gap: string): Job {
  const others = (job.field?.gaps ?? []).filter((row) => row.bay !== bay || (row.rail ?? 1) !== rail);
  const gaps = gap === '' ? others : [...others, { bay, rail, gap }];
  return { ...job, field: { ...job.field, gaps } };
}
