// SPDX-License-Identifier: MIT
import { expect, it, vi } from 'vitest';
import { EngineClient, Refusal } from './client';
import type { Question, Reply } from './protocol';

class FakeWorker {
  onmessage: ((event: MessageEvent<Reply>) => void) | null = null;
  onerror: (() => void) | null = null;
  asked: Question[] = [];
  terminate = vi.fn();
  postMessage(question: Question) {
    this.asked.push(question);
  }
  reply(reply: Reply) {
    this.onmessage?.({ data: reply } as MessageEvent<Reply>);
  }
}

function client() {
  const workers: FakeWorker[] = [];
  const engine = new EngineClient(() => {
    workers.push(new FakeWorker());
    return workers.at(-1) as unknown as Worker;
  });
  return { engine, workers };
}

it('gives each question its own answer', async () => {
  const { engine, workers } = client();
  const first = engine.ask('words', { language: 'en' });
  const second = engine.ask('words', { language: 'es' });
  workers[0]?.reply({ id: 2, ok: { a: 'dos' } });
  workers[0]?.reply({ id: 1, ok: { a: 'one' } });
  expect([await first, await second]).toEqual([{ a: 'one' }, { a: 'dos' }]);
});

it('starts again after a crash and says so', async () => {
  const { engine, workers } = client();
  const lost = engine.ask('words', { language: 'en' });
  workers[0]?.onerror?.();
  await expect(lost).rejects.toMatchObject({ error: { code: 'engine.crashed' } });
  const next = engine.ask('words', { language: 'en' });
  workers[1]?.reply({ id: 2, ok: {} });
  expect(await next).toEqual({});
});

it('drops long work at once', async () => {
  const { engine, workers } = client();
  const dropped = engine.ask('words', { language: 'en' });
  engine.restart();
  await expect(dropped).rejects.toBeInstanceOf(Refusal);
  expect(workers[0]?.terminate).toHaveBeenCalledOnce();
});

it('tells how far long work has come and waits for its answer', async () => {
  const { engine, workers } = client();
  const told = vi.fn();
  const asked = engine.ask('words', { language: 'en' }, undefined, told);
  const progress = { stage: 'cutting', pipe: 'rail', cost: '10.00', bound: '9.00', work: 5, limit: 100 } as const;
  workers[0]?.reply({ id: 1, progress });
  workers[0]?.reply({ id: 7, progress });
  workers[0]?.reply({ id: 1, ok: {} });
  expect(await asked).toEqual({});
  expect(told.mock.calls).toEqual([[progress]]);
});

it('says nothing of work that was dropped', async () => {
  const { engine, workers } = client();
  const told = vi.fn();
  const dropped = engine.ask('words', { language: 'en' }, undefined, told);
  engine.restart();
  await expect(dropped).rejects.toBeInstanceOf(Refusal);
  workers[0]?.reply({ id: 1, progress: { stage: 'spacing', pipe: '', cost: '1', bound: '1', work: 1, limit: 1 } });
  expect(told).not.toHaveBeenCalled();
});
