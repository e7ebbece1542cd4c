// SPDX-License-Identifier: MIT
// The plan from above on a canvas. Lines are paths in millimetres, made once for each drawing; a frame only sets the window and strokes them.
import type { Drawing } from '../engine/protocol';
import { endsOf, placeOf, type Place } from '../job/edit';
import { gatesOf, legsOf, zonesOf, type Gate, type Job, type Zone } from '../job/types';
import { paintPicture, type Picture } from './backdrop';
import { mmOf } from '../measure/length';
import { gatePlace } from './marks';
import { buriedColour, type Ink } from './ink';
import { PER_POST, placeAt, postAt, stopsOf } from './curve';
import { toScreen, type View } from './view';

const LINE_POST = 2;
const FIXED_KINDS = new Set([0, 1, 3, 4]); // ends, corners, tees and crosses keep their names at every scale
const GATE_BAY = 2;
const BRACE_BAY = 1;
const LEAST_RADIUS = 2.6; // pixels
const ROOM_FOR_RINGS = 13; // pixels between posts: nearer ones would run into a chain
const LABEL_FROM = 40; // pixels between posts

export interface Scene {
  fence: Path2D;
  built: Path2D; // bays done
  set: ReadonlySet<string>; // names of posts set
  braces: Path2D;
  leaves: Path2D;
  gates: { name: string; at: Place }[]; // their names are written by the overlay
  zones: { path: Path2D; band: number; colour: string; name: string; at: Place; area: boolean }[];
  drawing: Drawing | null;
  dots: Dots | null;
}

interface Dots {
  scale: number;
  crowded: boolean;
  planned: Path2D;
  strong: Path2D;
  set: Path2D;
  ticks: Path2D;
}

export { postAt };

function line(path: Path2D, a: Place, b: Place): void {
  path.moveTo(a.east, -a.north);
  path.lineTo(b.east, -b.north);
}

// Without an answer of the engine the legs themselves are the drawing.
function bare(job: Job, scene: Scene): void {
  for (const leg of legsOf(job)) {
    const ends = endsOf(job, leg);
    if (ends) line(scene.fence, ...ends);
  }
}

function addBays(drawing: Drawing, done: ReadonlySet<string>, scene: Scene): void {
  drawing.bays.kind.forEach((kind, bay) => {
    const a = postAt(drawing, drawing.bays.ends[bay * 3] ?? 0);
    const b = postAt(drawing, drawing.bays.ends[bay * 3 + 1] ?? 0);
    if (kind !== GATE_BAY) line(done.has(drawing.bays.name[bay] ?? '') ? scene.built : scene.fence, a, b);
    if (kind !== BRACE_BAY) return;
    // A brace shows as a short slash across the middle of its bay.
    const [me, mn] = [(a.east + b.east) / 2, (a.north + b.north) / 2];
    const [de, dn] = [(b.east - a.east) / 8, (b.north - a.north) / 8];
    line(scene.braces, { east: me - de - dn, north: mn - dn + de }, { east: me + de + dn, north: mn + dn - de });
  });
}

function leaf(path: Path2D, hinge: Place, toward: Place, side: number, share: number): void {
  const [de, dn] = [(toward.east - hinge.east) * share, (toward.north - hinge.north) * share];
  const width = Math.hypot(de, dn);
  const open = { east: hinge.east - dn * side, north: hinge.north + de * side };
  line(path, hinge, open);
  const closed = Math.atan2(-dn, de);
  path.moveTo(hinge.east + de, -(hinge.north + dn));
  path.arc(hinge.east, -hinge.north, width, closed, closed - (side * Math.PI) / 2, side > 0);
}

function addLeaves(gate: Gate, job: Job, drawing: Drawing | null, path: Path2D): void {
  const index = legsOf(job).findIndex((row) => row.id === gate.leg);
  const leg = legsOf(job)[index];
  const ends = leg && endsOf(job, leg);
  if (!ends) return;
  const length = Math.hypot(ends[1].east - ends[0].east, ends[1].north - ends[0].north) || 1;
  const half = (mmOf(gate.leaf) * (gate.hinge === 'both' ? 2 : 1)) / 2 + (mmOf(gate.hinge_clearance) + mmOf(gate.latch_clearance)) / 2;
  const stops = leg.arc && drawing ? stopsOf(drawing, index) : [];
  const straight = (station: number): Place => ({
    east: ends[0].east + ((ends[1].east - ends[0].east) * station) / length,
    north: ends[0].north + ((ends[1].north - ends[0].north) * station) / length,
  });
  const at = (station: number): Place => placeAt(stops, station) ?? straight(station);
  const [from, to] = [at(mmOf(gate.station) - half), at(mmOf(gate.station) + half)];
  const side = gate.swing === 'right' ? -1 : 1;
  const share = gate.hinge === 'both' ? 0.5 : 1;
  if (gate.hinge !== 'to') leaf(path, from, to, side, share);
  if (gate.hinge === 'to' || gate.hinge === 'both') leaf(path, to, from, -side, share);
}

// Corners of a zone: the job's own, or, of a stretch of a leg, those that the engine gives.
function cornersOfZone(zone: Zone, line: number[]): Place[] {
  if (zone.shape.length > 0) return zone.shape.map(placeOf);
  const places: Place[] = [];
  for (let index = 0; index + 1 < line.length; index += 2) places.push({ east: line[index] ?? 0, north: line[index + 1] ?? 0 });
  return places;
}

function addZones(job: Job, ink: Ink, night: boolean, scene: Scene): void {
  for (const [index, zone] of zonesOf(job).entries()) {
    const places = cornersOfZone(zone, scene.drawing?.zones?.[index] ?? []);
    if (places.length === 0) continue;
    const path = new Path2D();
    places.forEach((place, index) => (index === 0 ? path.moveTo(place.east, -place.north) : path.lineTo(place.east, -place.north)));
    const [only] = places;
    if (places.length === 1 && only) path.lineTo(only.east + 1, -only.north);
    if (zone.area) path.closePath();
    const colour = buriedColour(zone.kind ?? 'other', night, ink.pencil);
    const at = places.at(-1) ?? { east: 0, north: 0 };
    scene.zones.push({ path, band: mmOf(zone.tolerance), colour, name: zone.id, at, area: zone.area ?? false });
  }
}

export function sceneOf(job: Job, drawing: Drawing | null, ink: Ink, night: boolean): Scene {
  const done = new Set(job.field?.done);
  const set = new Set([...done, ...(job.field?.posts ?? []).map((post) => post.name)]);
  const scene: Scene = { fence: new Path2D(), built: new Path2D(), set, braces: new Path2D(), leaves: new Path2D(), gates: [], zones: [], drawing, dots: null };
  if (drawing) addBays(drawing, done, scene);
  else bare(job, scene);
  for (const gate of gatesOf(job)) {
    addLeaves(gate, job, drawing, scene.leaves);
    scene.gates.push(...gatePlace(job, drawing, gate.id).map((at) => ({ name: gate.id, at })));
  }
  addZones(job, ink, night, scene);
  return scene;
}

function spacingOf(drawing: Drawing): number {
  if (drawing.bays.ends.length < 3) return Infinity;
  const [a, b] = [postAt(drawing, drawing.bays.ends[0] ?? 0), postAt(drawing, drawing.bays.ends[1] ?? 0)];
  return Math.hypot(a.east - b.east, a.north - b.north);
}

// Posts stand at their true size, but never smaller than can be seen; their paths hold for one scale. Planned ones are rings, set ones solid with a tick across.
function dotsOf(scene: Scene, drawing: Drawing, scale: number): Dots {
  if (scene.dots?.scale === scale) return scene.dots;
  const crowded = spacingOf(drawing) * scale < ROOM_FOR_RINGS;
  const dots: Dots = { scale, crowded, planned: new Path2D(), strong: new Path2D(), set: new Path2D(), ticks: new Path2D() };
  drawing.posts.kind.forEach((kind, index) => {
    const strong = kind !== LINE_POST;
    const set = scene.set.has(drawing.posts.name[index] ?? '');
    const true_radius = (drawing.posts.at[index * PER_POST + 3] ?? 0) / 2;
    const least = strong || set ? LEAST_RADIUS * 1.6 : crowded ? LEAST_RADIUS * 0.7 : LEAST_RADIUS;
    const radius = Math.max(true_radius, least / scale);
    const { east, north } = postAt(drawing, index);
    const path = set ? dots.set : strong ? dots.strong : dots.planned;
    path.moveTo(east + radius, -north);
    path.arc(east, -north, radius, 0, 2 * Math.PI);
    if (!set) return;
    const arm = radius + 5 / scale;
    dots.ticks.moveTo(east - arm, -north + arm);
    dots.ticks.lineTo(east + arm, -north - arm);
  });
  scene.dots = dots;
  return dots;
}

function paintGrid(context: CanvasRenderingContext2D, view: View, width: number, height: number, step: number): void {
  while (step * view.scale < 14) step *= 5;
  const pace = step * view.scale;
  context.beginPath();
  for (let x = view.x % pace; x < width; x += pace) {
    context.moveTo(Math.round(x) + 0.5, 0);
    context.lineTo(Math.round(x) + 0.5, height);
  }
  for (let y = view.y % pace; y < height; y += pace) {
    context.moveTo(0, Math.round(y) + 0.5);
    context.lineTo(width, Math.round(y) + 0.5);
  }
  context.stroke();
}

function paintZones(context: CanvasRenderingContext2D, scene: Scene, view: View): void {
  for (const zone of scene.zones) {
    context.strokeStyle = zone.colour;
    context.globalAlpha = 0.16;
    context.lineWidth = Math.max(2 * zone.band, 6 / view.scale);
    context.stroke(zone.path);
    if (zone.area) {
      context.fillStyle = zone.colour;
      context.fill(zone.path);
    }
    context.globalAlpha = 1;
    context.lineWidth = 2 / view.scale;
    context.setLineDash([12 / view.scale, 5 / view.scale]);
    context.stroke(zone.path);
    context.setLineDash([]);
  }
}

function paintFence(context: CanvasRenderingContext2D, scene: Scene, view: View, ink: Ink): void {
  const thin = 1 / view.scale;
  context.strokeStyle = ink.ink;
  context.lineWidth = 1.6 * thin;
  context.setLineDash([9 * thin, 3 * thin]);
  context.stroke(scene.fence);
  context.setLineDash([]);
  context.lineWidth = 3 * thin;
  context.stroke(scene.built);
  context.lineWidth = 1.4 * thin;
  context.stroke(scene.braces);
  context.strokeStyle = ink.accent;
  context.stroke(scene.leaves);
  if (!scene.drawing) return;
  const dots = dotsOf(scene, scene.drawing, view.scale);
  context.fillStyle = dots.crowded ? ink.ink : ink.paper;
  context.strokeStyle = ink.ink;
  context.lineWidth = 1.5 * thin;
  context.fill(dots.planned);
  if (!dots.crowded) context.stroke(dots.planned);
  context.fillStyle = ink.paper;
  context.lineWidth = 2 * thin;
  context.fill(dots.strong);
  context.stroke(dots.strong);
  context.fillStyle = ink.ink;
  context.fill(dots.set);
  context.stroke(dots.ticks);
}

// Names beside their posts where there is room, none over another.
class Labels {
  private taken: [number, number, number, number][] = [];

  constructor(private readonly context: CanvasRenderingContext2D) {}

  // Room that something else takes.
  keep(left: number, top: number, right: number, bottom: number): void {
    this.taken.push([left, top, right, bottom]);
  }

  write(text: string, x: number, y: number, colour: string, paper: string): boolean {
    const width = this.context.measureText(text).width;
    const box: [number, number, number, number] = [x - 2, y - 11, x + width + 2, y + 3];
    const clash = this.taken.some(([l, t, r, b]) => box[0] < r && box[2] > l && box[1] < b && box[3] > t);
    if (clash) return false;
    this.taken.push(box);
    this.context.strokeStyle = paper;
    this.context.lineWidth = 4;
    this.context.strokeText(text, x, y);
    this.context.fillStyle = colour;
    this.context.fillText(text, x, y);
    return true;
  }
}

function paintPostNames(context: CanvasRenderingContext2D, scene: Scene, view: View, ink: Ink, size: [number, number], labels: Labels): void {
  const drawing = scene.drawing;
  if (!drawing || drawing.posts.name.length < 2) return;
  const close = spacingOf(drawing) * view.scale < LABEL_FROM;
  drawing.posts.name.forEach((name, index) => {
    const kind = drawing.posts.kind[index] ?? LINE_POST;
    if (close && !FIXED_KINDS.has(kind)) return;
    const [x, y] = toScreen(view, postAt(drawing, index));
    if (x < -40 || y < -20 || x > size[0] + 40 || y > size[1] + 20) return;
    const left = x - 11 - context.measureText(name).width;
    for (const [at, line] of [
      [x + 11, y - 11],
      [left, y - 11],
      [left, y + 20],
      [x + 11, y + 20],
    ] as const)
      if (labels.write(name, at, line, ink.ink, ink.paper)) break;
  });
}

function paintNames(context: CanvasRenderingContext2D, scene: Scene, view: View, ink: Ink, size: [number, number]): void {
  const labels = new Labels(context);
  for (const gate of scene.gates) {
    const [x, y] = toScreen(view, gate.at);
    const half = context.measureText(gate.name).width / 2 + 3;
    labels.keep(x - half, y - 27, x + half, y - 11);
    labels.keep(x - 9, y - 9, x + 9, y + 9);
  }
  paintPostNames(context, scene, view, ink, size, labels);
  for (const zone of scene.zones) {
    const [x, y] = toScreen(view, zone.at);
    for (const [dx, dy] of [
      [10, 4],
      [10, 24],
      [10, -16],
    ] as const)
      if (labels.write(zone.name, x + dx, y + dy, zone.colour, ink.paper)) break;
  }
}

export interface Backdrop {
  picture: Picture;
  bitmap: ImageBitmap;
}

export function paint(
  context: CanvasRenderingContext2D,
  scene: Scene,
  view: View,
  ink: Ink,
  size: [number, number],
  gridStep: number,
  backdrop: Backdrop | null = null,
): void {
  const ratio = devicePixelRatio || 1;
  context.setTransform(ratio, 0, 0, ratio, 0, 0);
  context.fillStyle = ink.paper;
  context.fillRect(0, 0, ...size);
  if (backdrop) paintPicture(context, backdrop.bitmap, backdrop.picture, view, ratio);
  context.strokeStyle = ink.rule;
  context.lineWidth = 1;
  paintGrid(context, view, size[0], size[1], gridStep);
  context.setTransform(ratio * view.scale, 0, 0, ratio * view.scale, ratio * view.x, ratio * view.y);
  context.lineCap = 'butt';
  context.lineJoin = 'round';
  paintZones(context, scene, view);
  paintFence(context, scene, view, ink);
  context.setTransform(ratio, 0, 0, ratio, 0, 0);
  context.font = '600 13px "Inter Variable", Inter, sans-serif';
  paintNames(context, scene, view, ink, size);
}
