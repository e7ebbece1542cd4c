// SPDX-License-Identifier: MIT
// The window on the plane: millimetres east and north to pixels, north up. Panning and zooming change the window, never the drawing.
import type { Place } from '../job/edit';

export interface View {
  scale: number; // pixels per millimetre
  x: number; // where east = north = 0 stands, in pixels
  y: number;
}

const LEAST_SCALE = 1e-6;
const LARGEST_SCALE = 4;

export const toScreen = (view: View, place: Place): [number, number] => [view.x + place.east * view.scale, view.y - place.north * view.scale];
export const toPlane = (view: View, x: number, y: number): Place => ({ east: (x - view.x) / view.scale, north: (view.y - y) / view.scale });

export function zoomAt(view: View, factor: number, x: number, y: number): View {
  const scale = Math.min(LARGEST_SCALE, Math.max(LEAST_SCALE, view.scale * factor));
  const ratio = scale / view.scale;
  return { scale, x: x - (x - view.x) * ratio, y: y - (y - view.y) * ratio };
}

// All places in sight with a margin; without places, a paddock's worth of ground.
export function fit(places: Place[], width: number, height: number, margin = 72): View {
  if (places.length === 0) return { scale: width / 90000, x: width * 0.2, y: height * 0.75 };
  const easts = places.map((place) => place.east);
  const norths = places.map((place) => place.north);
  const [west, east] = [Math.min(...easts), Math.max(...easts)];
  const [south, north] = [Math.min(...norths), Math.max(...norths)];
  const room = (size: number) => Math.max(40, size - 2 * margin);
  const scale = Math.min(room(width) / Math.max(east - west, 3000), room(height) / Math.max(north - south, 3000));
  return { scale, x: width / 2 - ((west + east) / 2) * scale, y: height / 2 + ((south + north) / 2) * scale };
}

export interface Box {
  left: number;
  top: number;
  right: number;
  bottom: number;
}
// Brings places into the part of the window that nothing covers: not at all when they are in sight, by panning when they find room, else by a smaller scale.
export function reveal(view: View, places: readonly Place[], free: Box, margin = 36): View {
  if (places.length === 0) return view;
  const at = places.map((place) => toScreen(view, place));
  const [left, right] = [Math.min(...at.map(([x]) => x)), Math.max(...at.map(([x]) => x))];
  const [top, bottom] = [Math.min(...at.map(([, y]) => y)), Math.max(...at.map(([, y]) => y))];
  const room: Box = { left: free.left + margin, top: free.top + margin, right: free.right - margin, bottom: free.bottom - margin };
  if (left >= room.left && right <= room.right && top >= room.top && bottom <= room.bottom) return view;
  const shrink = Math.min(1, Math.max(1, room.right - room.left) / Math.max(1, right - left), Math.max(1, room.bottom - room.top) / Math.max(1, bottom - top));
  const [x, y] = [(left + right) / 2, (top + bottom) / 2];
  const zoomed = zoomAt(view, shrink, x, y);
  return { ...zoomed, x: zoomed.x + (room.left + room.right) / 2 - x, y: zoomed.y + (room.top + room.bottom) / 2 - y };
}

export function nearestOnSegment(place: Place, a: Place, b: Place): { at: Place; station: number; off: number } {
  const [de, dn] = [b.east - a.east, b.north - a.north];
  const length = Math.hypot(de, dn);
  if (length === 0) return { at: a, station: 0, off: Math.hypot(place.east - a.east, place.north - a.north) };
  const along = ((place.east - a.east) * de + (place.north - a.north) * dn) / length;
  const station = Math.min(length, Math.max(0, along));
  const at = { east: a.east + (de * station) / length, north: a.north + (dn * station) / length };
  return { at, station, off: Math.hypot(place.east - at.east, place.north - at.north) };
}

export function bearingText(degrees: number): string {
  const rounded = Math.round(degrees * 10) / 10;
  return `${(rounded % 360).toFixed(1)}°`;
}

// Round figures for a scale bar, at most `room` pixels long.
export function scaleBar(view: View, unitMm: number, room: number): { count: number; pixels: number } {
  const most = room / (view.scale * unitMm);
  const power = 10 ** Math.floor(Math.log10(most));
  const step = [5, 2, 1].find((digit) => digit * power <= most) ?? 1;
  return { count: step * power, pixels: step * power * unitMm * view.scale };
}
