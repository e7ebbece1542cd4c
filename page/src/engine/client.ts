// SPDX-License-Identifier: MIT
// Asks the engine's worker. A question may be dropped (AbortSignal) or superseded; a worker that dies is started again, and the question in hand is
// answered with `engine.crashed`, so that the page can say so and keep the job.
import type { Answer, EngineError, Method, Progress, Question, Reply, Request } from './protocol';

export class Refusal extends Error {
  constructor(readonly error: EngineError) {
    super(error.text ?? error.code);
  }
}

interface Pending {
  resolve: (answer: never) => void;
  reject: (refusal: Refusal) => void;
  told?: (progress: Progress) => void;
}

export class EngineClient {
  private worker: Worker | null = null;
  private pending = new Map<number, Pending>();
  private next = 1;

  constructor(private readonly start: () => Worker) {}

  ask<M extends Method>(method: M, request: Request<M>, signal?: AbortSignal, told?: (progress: Progress) => void): Promise<Answer<M>> {
    const id = this.next++;
    return new Promise<Answer<M>>((resolve, reject) => {
      if (signal?.aborted) return reject(new Refusal({ code: 'engine.dropped', place: '' }));
      this.pending.set(id, { resolve: resolve as (answer: never) => void, reject, ...(told ? { told } : {}) });
      signal?.addEventListener('abort', () => this.drop(id), { once: true });
      this.running().postMessage({ id, method, request } satisfies Question);
    });
  }

  // Starts the thread before it is asked anything, so that the module loads while the first screen is read.
  warm(): void {
    this.running();
  }

  // Ends long work at once: the worker is thrown away and a new one starts with the next question.
  restart(code = 'engine.dropped'): void {
    this.worker?.terminate();
    this.worker = null;
    for (const { reject } of this.pending.values()) reject(new Refusal({ code, place: '' }));
    this.pending.clear();
  }

  private drop(id: number): void {
    this.pending.get(id)?.reject(new Refusal({ code: 'engine.dropped', place: '' }));
    this.pending.delete(id);
  }

  private running(): Worker {
    if (this.worker) return this.worker;
    const worker = this.start();
    worker.onmessage = (event: MessageEvent<Reply>) => this.settle(event.data);
    worker.onerror = () => this.restart('engine.crashed');
    this.worker = worker;
    return worker;
  }

  private settle(reply: Reply): void {
    const pending = this.pending.get(reply.id);
    if ('progress' in reply) return pending?.told?.(reply.progress);
    this.pending.delete(reply.id);
    if ('error' in reply) pending?.reject(new Refusal(reply.error));
    else pending?.resolve(reply.ok as never);
  }
}
