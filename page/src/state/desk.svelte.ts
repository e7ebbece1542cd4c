// SPDX-License-Identifier: MIT
// The desk: the job in hand, what the engine says about it, and what is being looked at. Drawings and plans are raw state: thousands of rows, never proxied.
import { Refusal } from '../engine/client';
import { quick, slow } from '../engine/engines';
import type { Plan } from '../engine/plan';
import type { Drawing, Finding, Totals } from '../engine/protocol';
import { legsOf, unitsOf, type Job } from '../job/types';
import { speak, t } from '../words/words.svelte';
import { History } from './history';
import { forgetJob, keepJob } from './keep';

export type Tool = 'move' | 'draw' | 'gate' | 'zone';
export type Note = 'line' | 'fence' | 'pipe' | 'result' | 'cuts' | 'buy' | 'sheets' | 'gaps' | 'profile';
export type Picked = { kind: 'point' | 'leg' | 'gate' | 'zone' | 'post' | 'bay'; id: string };

const SETTLE = 140; // ms without a change before the whole plan is asked for

class Desk {
  job = $state.raw<Job | null>(null);
  drawing = $state.raw<Drawing | null>(null);
  plan = $state.raw<Plan | null>(null);
  findings = $state.raw<Finding[]>([]);
  faults = $state.raw<Finding[]>([]); // why the job cannot be planned at all
  before = $state.raw<Totals | null>(null); // totals when the gesture began, to show the difference
  working = $state<'idle' | 'quick' | 'full'>('idle');
  message = $state('');
  tool = $state<Tool>('move');
  note = $state<Note>('line');
  picked = $state.raw<Picked | null>(null);
  canUndo = $state(false);
  canRedo = $state(false);
  night = $state(false);
  legShown = $state('');

  private history: History<Job> | null = null;
  private drawingAsked: Job | null = null;
  private settle: ReturnType<typeof setTimeout> | undefined;
  private keeping: Promise<unknown> = Promise.resolve();

  get units() {
    return this.job ? unitsOf(this.job) : 'feet_inches';
  }
  get currency() {
    return this.drawing?.totals.currency ?? 'USD';
  }

  open(job: Job): void {
    this.history = new History(job);
    this.picked = null;
    this.plan = null;
    this.drawing = null;
    this.before = null;
    this.faults = [];
    this.findings = [];
    this.tool = legsOf(job).length === 0 ? 'draw' : 'move';
    this.note = 'line';
    this.show(job);
  }

  close(): void {
    this.history = null;
    this.job = null;
    this.plan = null;
    this.drawing = null;
    slow.restart();
    void forgetJob().catch(() => undefined);
  }

  // `gesture` joins the steps of one drag, or of one field being typed, into one step of undo.
  change(job: Job, gesture: string | null = null): void {
    if (!this.history || job === this.job) return;
    if (gesture !== null && this.before === null) this.before = this.drawing?.totals ?? null;
    this.history.push(job, gesture);
    this.show(job);
  }

  endGesture(): void {
    this.history?.endGesture();
    this.before = null;
  }

  undo(): void {
    if (this.history?.canUndo) this.show(this.history.undo());
  }
  redo(): void {
    if (this.history?.canRedo) this.show(this.history.redo());
  }

  pick(picked: Picked | null): void {
    this.picked = picked;
  }

  private show(job: Job): void {
    this.job = job;
    speak(job.language);
    this.canUndo = this.history?.canUndo ?? false;
    this.canRedo = this.history?.canRedo ?? false;
    this.keep(job);
    void this.draw();
    clearTimeout(this.settle);
    if (this.working === 'full') slow.restart();
    this.settle = setTimeout(() => void this.planAll(), SETTLE);
  }

  private keep(job: Job): void {
    this.keeping = this.keeping
      .then(() => (this.job === job ? keepJob(job) : undefined))
      .catch(() => {
        this.message = t('say.not_kept');
      });
  }

  // One question at a time; while it is answered newer jobs wait and only the newest is asked.
  private async draw(): Promise<void> {
    if (this.drawingAsked !== null || !this.job) return;
    const job = this.job;
    if (legsOf(job).length === 0) {
      this.drawing = null;
      return;
    }
    this.drawingAsked = job;
    const began = performance.now();
    try {
      const drawing = await quick.ask('drawing', { job });
      if (this.job !== null) this.drawing = drawing;
      performance.measure('drawing', { start: began }); // what a drag waits for; read by the measuring test
      this.faults = [];
    } catch (refusal) {
      this.refused(refusal);
    } finally {
      this.drawingAsked = null;
      if (this.job !== null && this.job !== job) void this.draw();
    }
  }

  private async planAll(): Promise<void> {
    const job = this.job;
    if (!job || legsOf(job).length === 0) {
      this.plan = null;
      this.findings = [];
      return;
    }
    try {
      this.working = 'quick';
      const first = await quick.ask('plan', { job, effort: 'quick' });
      if (this.job !== job) return;
      this.plan = first.plan;
      this.findings = first.findings;
      this.faults = [];
      if (first.plan.cuts.proved) return;
      this.working = 'full';
      const proved = await slow.ask('plan', { job, effort: 'full' });
      if (this.job !== job) return;
      this.plan = proved.plan;
      this.findings = proved.findings;
    } catch (refusal) {
      if (this.job === job) this.refused(refusal);
    } finally {
      if (this.job === job) this.working = 'idle';
    }
  }

  private refused(refusal: unknown): void {
    if (!(refusal instanceof Refusal)) throw refusal;
    const { code, text, findings } = refusal.error;
    if (code === 'engine.dropped') return;
    if (code === 'job.unsound') this.faults = findings ?? [];
    else this.message = code.startsWith('engine.') ? t('say.crashed') : (text ?? code);
  }
}

export const desk = new Desk();
