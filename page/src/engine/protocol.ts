// SPDX-License-Identifier: MIT
// What the page asks of the engine and what it gets: one map, from which both sides are typed. It mirrors wasm/bindings.h.
import type { Job } from '../job/types';
import type { Plan } from './plan';

export interface Finding {
  code: string;
  severity: 'note' | 'warning' | 'stop';
  where: string;
  text: string;
}
export interface Sheet {
  id: string;
  title: string;
  svg: string;
}
export interface Table {
  id: string;
  title: string;
  csv: string;
}
export interface EngineError {
  code: string;
  place: string;
  text?: string;
  findings?: Finding[];
}

// Flat rows of numbers, see wasm/drawing.h. Millimetres.
export interface Drawing {
  posts: { name: string[]; kind: number[]; at: number[] };
  bays: { name: string[]; kind: number[]; ends: number[]; rails: number[][] };
  ground: number[][];
  zones?: number[][];
  totals?: Totals; // none in a sketch
}
export interface Totals {
  posts: number;
  rails: number;
  bays: number;
  sticks: number;
  cost: string;
  total: string;
  currency: string;
  hours: number;
  stops: number;
  warnings: number;
}
// How far long work has come: the best so far, and what nothing can beat.
export interface Progress {
  stage: 'cutting' | 'spacing';
  pipe: string;
  cost: string;
  bound: string;
  work: number;
  limit: number;
}
// Why a figure is what it is; an input with a figure can be asked in turn.
export interface WhyAnswer {
  figure: string;
  title: string;
  value: string;
  formula: string;
  filled: string;
  inputs: { name: string; value: string; figure: string }[];
  source: string;
  row: string;
  where: string[];
}
// A change that cures a finding: the job as it would be, and what that adds to the price.
export interface Remedy {
  text: string;
  price: string;
  posts: number;
  job: Job;
}
export type Effort = 'quick' | 'full';
export type StakeFormat = 'csv' | 'gpx' | 'geojson' | 'kml' | 'dxf';
export interface StartChoices {
  name?: string;
  animal?: string;
  height?: string;
  rails?: number;
  pitch?: string;
  pipe?: string;
  kind?: string;
  units?: string;
}

export interface Requests {
  drawing: [{ job: Job; effort?: 'sketch' | 'quick' | 'full'; language?: string }, Drawing];
  start: [{ choices: StartChoices; walk?: string; grid?: string; language?: string }, { job: Job; findings: Finding[] }];
  totals: [{ job: Job; effort: Effort; language?: string }, Totals];
  why: [{ job: Job; effort: Effort; figure: string; language?: string }, WhyAnswer];
  remedies: [{ job: Job; effort: Effort; code: string; where: string; language?: string }, Remedy[]];
  stakes: [{ job: Job; format: StakeFormat; effort: Effort; language?: string }, { text: string }];
  plan: [{ job: Job; effort: 'quick' | 'full'; language?: string }, { plan: Plan; findings: Finding[] }];
  check: [{ job: unknown; language?: string }, { sound: boolean; job: Job | null; findings: Finding[] }];
  sheets: [{ job: Job; paper: 'letter' | 'a4'; effort: 'quick' | 'full'; language?: string }, Sheet[]];
  tables: [{ job: Job; effort: 'quick' | 'full'; language?: string }, Table[]];
  words: [{ language: string }, Record<string, string>];
  catalogue: [Record<string, never>, Record<string, unknown>];
}
export type Method = keyof Requests;
export type Request<M extends Method> = Requests[M][0];
export type Answer<M extends Method> = Requests[M][1];

export interface Question {
  id: number;
  method: Method;
  request: unknown;
}
export type Reply = { id: number; ok: unknown } | { id: number; error: EngineError } | { id: number; progress: Progress };
