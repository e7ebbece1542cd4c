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
  totals: Totals;
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
  drawing: [{ job: Job; language?: string }, Drawing];
  start: [{ choices: StartChoices; walk?: string; grid?: string; language?: string }, { job: Job; findings: Finding[] }];
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
export type Reply = { id: number; ok: unknown } | { id: number; error: EngineError };
