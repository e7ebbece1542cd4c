// SPDX-License-Identifier: MIT
// The engine as the page runs it: the WebAssembly module in node, through the same three calls as the worker.
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import example from '../../../examples/donkey-sanctuary/job.json';
import { addLeg, addPoint, setGap } from '../job/edit';
import type { Job } from '../job/types';
import { parseLength } from '../measure/length';
import createEngine, { type Engine } from './built/engine.mjs';
import type { Answer, Method, Request } from './protocol';

let engine: Engine;
beforeAll(async () => {
  engine = await createEngine({ wasmBinary: readFileSync(new URL('./built/engine.wasm', import.meta.url)) });
});

function put(text: string): [number, number] {
  const bytes = new TextEncoder().encode(text);
  const at = engine._rw_reserve(bytes.length);
  engine.HEAPU8.set(bytes, at);
  return [at, bytes.length];
}

function raw(method: string, request: string): { ok?: unknown; error?: { code: string } } {
  const [name, body] = [put(method), put(request)];
  const size = engine._rw_answer(...name, ...body);
  engine._rw_release(name[0]);
  engine._rw_release(body[0]);
  const at = engine._rw_text();
  return JSON.parse(new TextDecoder().decode(engine.HEAPU8.subarray(at, at + size)));
}
const ask = <M extends Method>(method: M, request: Request<M>): Answer<M> => {
  const reply = raw(method, JSON.stringify(request));
  if (reply.error) throw new Error(JSON.stringify(reply.error));
  return reply.ok as Answer<M>;
};
const job = example as Job;

describe('a drawing', () => {
  it('shows what the plan says', () => {
    const drawing = ask('drawing', { job, effort: 'quick' });
    const { plan } = ask('plan', { job, effort: 'quick' });
    expect(drawing.posts.name).toEqual(plan.posts.map((post) => post.name));
    expect(drawing.bays.name).toEqual(plan.bays.map((bay) => bay.name));
    plan.posts.forEach((post, index) => {
      expect(Math.abs((drawing.posts.at[index * 5] ?? NaN) - post.east)).toBeLessThanOrEqual(0.051);
      expect(Math.abs((drawing.posts.at[index * 5 + 1] ?? NaN) - post.north)).toBeLessThanOrEqual(0.051);
      expect(Math.abs((drawing.posts.at[index * 5 + 2] ?? NaN) - post.ground)).toBeLessThanOrEqual(0.051);
    });
    expect(drawing.totals).toMatchObject({ posts: plan.posts.length, rails: plan.rails.length, sticks: plan.cuts.sticks_used, total: plan.price.total });
    expect(drawing.ground).toHaveLength(job.site?.legs?.length ?? -1);
  });

  it('takes a line as it is drawn', () => {
    const started = ask('start', { choices: { animal: 'horse' } });
    let drawn: Job = { ...started.job, site: {} };
    let [a, b] = ['', ''];
    [drawn, a] = addPoint(drawn, { east: 0, north: 0 });
    [drawn, b] = addPoint(drawn, { east: 96 * 304.8, north: 0 });
    drawn = addLeg(drawn, a, b);
    // The bays follow each other from end to end, none wider than the fence allows.
    const { plan } = ask('plan', { job: drawn, effort: 'quick' });
    const widest = parseLength(drawn.choices?.fences?.[0]?.spacing?.cap ?? '8 ft') ?? 0;
    expect(plan.bays[0]?.start).toBe(0);
    expect(plan.bays.at(-1)?.end).toBeCloseTo(96 * 304.8, 6);
    plan.bays.forEach((bay, index) => {
      expect(bay.pitch).toBeLessThanOrEqual(widest);
      if (index > 0) expect(bay.start).toBe(plan.bays[index - 1]?.end);
    });
  });
});

it('takes a measured gap and gives the cut', () => {
  const before = ask('plan', { job, effort: 'quick' }).plan;
  const rail = before.rails.find((row) => row.number === 1)!;
  const measured = `${Math.round(rail.gap) - 10} mm`;
  const { plan } = ask('plan', { job: setGap(job, rail.bay, 1, measured), effort: 'quick' });
  const after = plan.rails.find((row) => row.name === rail.name)!;
  expect(after.measured).toBe(true);
  expect(after.length).toBeLessThan(rail.length);
});

describe('start', () => {
  it('refuses what it does not know, in words', () => {
    expect(raw('start', JSON.stringify({ choices: { animal: 'dragon' } })).error?.code).toBe('start.animal');
    expect(raw('start', JSON.stringify({ choices: { kind: 'moat' } })).error?.code).toBe('start.kind');
    expect(raw('start', JSON.stringify({ choices: {}, walk: 'no track at all' })).error).toBeTruthy();
  });
});

describe('bad requests are answered, never fatal', () => {
  it.each([
    ['plan', '{}'],
    ['plan', '{"job": 7}'],
    ['plan', 'not json'],
    ['drawing', '{"job": {"version": 1, "site": {"legs": [{"id": "x"}]}}}'],
    ['start', '{"choices": {"rails": 99}}'],
    ['start', '{"walk": 5}'],
    ['nothing', '{}'],
  ])('%s %s', (method, request) => {
    const reply = raw(method, request);
    expect(reply.ok !== undefined || typeof reply.error?.code === 'string').toBe(true);
  });
});

it('draws sheets and tables', () => {
  const sheets = ask('sheets', { job, paper: 'a4', effort: 'quick' });
  expect(sheets.map((sheet) => sheet.id)).toContain('first');
  for (const sheet of sheets) expect(sheet.svg.startsWith('<svg') || sheet.svg.startsWith('<?xml')).toBe(true);
  expect(ask('tables', { job, effort: 'quick' }).find((table) => table.id === 'posts')?.csv).toMatch(/\r\n/);
});

it('reads lengths as the page does', () => {
  const place = (east: string): Job => ({
    version: 1,
    site: {
      points: [
        { id: 'A', east, north: '0 ft' },
        { id: 'B', east: '100 ft', north: '50 ft' },
      ],
      legs: [{ id: 'L', from: 'A', to: 'B', fence: 'f' }],
    },
    choices: { fences: [{ id: 'f', height: '54 in', rail_pipe: '2-3/8 sch40', line_pipe: '2-3/8 sch40' }] },
  });
  for (const text of [`7' 5-1/4"`, '7 ft 5 1/4 in', '89.25 in', '2.27 m', '-3 in', '5½ in', '7ft5.25in', `7' 5`]) {
    const reply = raw('drawing', JSON.stringify({ job: place(text) })) as { ok?: { posts: { name: string[]; at: number[] } } };
    const mine = parseLength(text);
    const theirs = reply.ok?.posts.at[reply.ok.posts.name.indexOf('A') * 5];
    expect(theirs, text).toBeCloseTo(mine ?? NaN, 0);
  }
});

describe('why', () => {
  it('answers for what the page shows, each in words', () => {
    const { plan } = ask('plan', { job, effort: 'quick' });
    const [post, bay, rail] = [plan.posts[1]!, plan.bays[1]!, plan.rails[1]!];
    const line = plan.quantities[0]!;
    for (const figure of [
      'tally/all/posts',
      'price/all/total',
      'hours/all/person_hours',
      'cut/all/sticks',
      `post/${post.name}/depth`,
      `bay/${bay.name}/pitch`,
      `rail/${rail.name}/length`,
      `order/${line.group}/${line.item}/amount`,
      'stick/1/mark1',
    ]) {
      const answer = ask('why', { job, effort: 'quick', figure });
      for (const text of [answer.title, answer.value, answer.formula, answer.source, ...answer.inputs.map((input) => input.name)]) {
        expect(text, figure).toMatch(/\S/);
        expect(text, figure).not.toMatch(/^\[/);
      }
    }
  });
  it('refuses a figure that is not there', () => expect(() => ask('why', { job, effort: 'quick', figure: 'post/Nowhere/depth' })).toThrow('no_such_figure'));
});

it('offers remedies that cure', () => {
  const spoilt = structuredClone(job);
  for (const fence of spoilt.choices?.fences ?? []) fence.height = '30 in';
  const finding = ask('plan', { job: spoilt, effort: 'quick' }).findings.find((each) => each.code === 'grade.too_low');
  expect(finding).toBeDefined();
  const remedies = ask('remedies', { job: spoilt, effort: 'quick', code: finding!.code, where: finding!.where });
  expect(remedies.length).toBeGreaterThan(0);
  for (const remedy of remedies) {
    const left = ask('plan', { job: remedy.job, effort: 'quick' }).findings;
    expect(left.some((each) => each.code === finding!.code && each.where === finding!.where)).toBe(false);
  }
});

it('tells how far the proof has come, and a sketch costs no cutting', () => {
  const told: { cost: string; bound: string }[] = [];
  engine.tell = (at, size) => told.push(JSON.parse(new TextDecoder().decode(engine.HEAPU8.subarray(at, at + size))));
  ask('plan', { job, effort: 'full' });
  for (const { cost, bound } of told) expect(Number(bound)).toBeLessThanOrEqual(Number(cost));
  expect(ask('drawing', { job, effort: 'sketch' }).totals).toBeUndefined();
  expect(ask('totals', { job, effort: 'quick' }).posts).toBe(ask('plan', { job, effort: 'quick' }).plan.posts.length);
});
