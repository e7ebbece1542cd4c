// SPDX-License-Identifier: MIT
// The desk: the job in hand, what the engine says about it, and what is being looked at. Drawings and plans are raw state: thousands of rows, never proxied.
import { Refusal } from '../engine/client';
import { quick, slow } from '../engine/engines';
import type { Plan } from '../engine/plan';
import type { Drawing, Finding, Totals } from '../engine/protocol';
import type { Picture } from '../draw/backdrop';
import type { Place } from '../job/edit';
import type { Shelf } from '../job/rows';
import { legsOf, unitsOf, type Job } from '../job/types';
import { speak, t } from '../words/words.svelte';
import { History } from './history';
import { forgetJob, forgetPicture, keepJob, keepPicture } from './keep';

export type Tool = 'move' | 'draw' | 'gate' | 'zone' | 'mark' | 'picture';
export type Note = 'line' | 'fence' | 'pipe' | 'result' | 'cuts' | 'buy' | 'sheets' | 'gaps' | 'progress' | 'ground' | 'rows' | 'profile';
export type Picked = { kind: 'point' | 'leg' | 'gate' | 'zone' | 'post' | 'bay'; id: string };

// What a step of undo brings back: the job, and the picture behind it.
interface Shown {
  job: Job;
  picture: Picture | null;
}

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
  chain = $state<string | null>(null); // the corner from which the next leg goes
  snapping = $state(true);
  row = $state.raw<{ shelf: Shelf; name: string }>({ shelf: 'fittings', name: '' }); // the catalogue row in hand
  picture = $state.raw<Picture | null>(null);
  scaling = $state.raw<Place[] | null>(null); // the two places whose distance is known, while they are being tapped

  private history: History<Shown> | null = null;
  private drawingAsked: Job | null = null;
  private restPicture: ReturnType<typeof setTimeout> | undefined;
  private settle: ReturnType<typeof setTimeout> | undefined;
  private keeping: Promise<unknown> = Promise.resolve();

  get units() {
    return this.job ? unitsOf(this.job) : 'feet_inches';
  }
  get currency() {
    return this.drawing?.totals.currency ?? 'USD';
  }

  open(job: Job, picture: Picture | null = null): void {
    this.history = new History<Shown>({ job, picture });
    this.job = null;
    this.picked = null;
    this.plan = null;
    this.drawing = null;
    this.before = null;
    this.faults = [];
    this.findings = [];
    this.tool = legsOf(job).length === 0 ? 'draw' : 'move';
    this.note = 'line';
    this.chain = null;
    this.scaling = null;
    if (!picture) void forgetPicture().catch(() => undefined);
    this.show({ job, picture });
  }

  close(): void {
    this.history = null;
    this.job = null;
    this.plan = null;
    this.drawing = null;
    this.picture = null;
    clearTimeout(this.restPicture);
    slow.restart();
    void forgetJob().catch(() => undefined);
    void forgetPicture().catch(() => undefined);
  }

  // `gesture` joins the steps of one drag, or of one field being typed, into one step of undo.
  change(job: Job, gesture: string | null = null): void {
    if (!this.history || job === this.job) return;
    if (gesture !== null && this.before === null) this.before = this.drawing?.totals ?? null;
    this.step({ job, picture: this.picture }, gesture);
  }

  changePicture(picture: Picture | null, gesture: string | null = null): void {
    if (this.job) this.step({ job: this.job, picture }, gesture);
  }

  private step(shown: Shown, gesture: string | null): void {
    this.history?.push(shown, gesture);
    this.show(shown);
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

  private show({ job, picture }: Shown): void {
    if (picture !== this.picture) {
      this.picture = picture;
      this.keepPicture(picture);
    }
    this.canUndo = this.history?.canUndo ?? false;
    this.canRedo = this.history?.canRedo ?? false;
    if (job === this.job) return;
    this.job = job;
    speak(job.language);
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

  // A drag moves it sixty times a second; it is kept when it rests.
  private keepPicture(picture: Picture | null): void {
    clearTimeout(this.restPicture);
    this.restPicture = setTimeout(() => {
      const kept = picture ? keepPicture(picture) : forgetPicture();
      kept.catch(() => (this.message = t('picture.not_kept')));
    }, SETTLE);
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
