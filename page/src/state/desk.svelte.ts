// SPDX-License-Identifier: MIT
// The desk: the job in hand, what the engine says about it, and what is being looked at. Drawings and plans are raw state: thousands of rows, never proxied.
import { Refusal } from '../engine/client';
import { counting, quick, slow } from '../engine/engines';
import type { Plan } from '../engine/plan';
import type { Drawing, Effort, Finding, Progress, Remedy, Totals, WhyAnswer } from '../engine/protocol';
import type { Picture } from '../draw/backdrop';
import type { Place } from '../job/edit';
import type { Shelf } from '../job/rows';
import { gatesOf, legsOf, pointsOf, unitsOf, zonesOf, type Job } from '../job/types';
import { speak, t } from '../words/words.svelte';
import { History } from './history';
import { took } from './timing';
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
  totals = $state.raw<Totals | null>(null);
  progress = $state.raw<Progress | null>(null); // of the long work that goes on
  asked = $state.raw<string[]>([]); // figures asked why, the last on top
  before = $state.raw<Totals | null>(null); // totals when the gesture began, to show the difference
  working = $state<'idle' | 'quick' | 'full'>('idle');
  message = $state('');
  tool = $state<Tool>('move');
  note = $state<Note>('line');
  picked = $state.raw<Picked | null>(null);
  marked = $state.raw<Picked[]>([]); // places that the figure asked or the finding tapped names; the drawing brings them into view
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
  private countingAsked: Job | null = null;
  private planned: { job: Job; effort: Effort } | null = null; // what the plan shown was made of
  private restPicture: ReturnType<typeof setTimeout> | undefined;
  private settle: ReturnType<typeof setTimeout> | undefined;
  private keeping: Promise<unknown> = Promise.resolve();

  get units() {
    return this.job ? unitsOf(this.job) : 'feet_inches';
  }
  get currency() {
    return this.totals?.currency ?? 'USD';
  }

  open(job: Job, picture: Picture | null = null): void {
    this.history = new History<Shown>({ job, picture });
    this.job = null;
    this.picked = null;
    this.marked = [];
    this.plan = null;
    this.drawing = null;
    this.totals = null;
    this.asked = [];
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
    this.marked = [];
    this.plan = null;
    this.drawing = null;
    this.totals = null;
    this.asked = [];
    this.picture = null;
    clearTimeout(this.restPicture);
    slow.restart();
    void forgetJob().catch(() => undefined);
    void forgetPicture().catch(() => undefined);
  }

  // `gesture` joins the steps of one drag, or of one field being typed, into one step of undo.
  change(job: Job, gesture: string | null = null): void {
    if (!this.history || job === this.job) return;
    if (gesture !== null && this.before === null) this.before = this.totals;
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

  // Shows places in the drawing, all at once; one alone is also taken in hand.
  mark(names: readonly string[]): void {
    const places = new Map(names.map((name) => [name.split('/')[0] ?? '', name]));
    this.marked = [...places.values()].flatMap((name) => this.placesOf(name));
    const [only] = this.marked;
    if (only && this.marked.length === 1) this.pick(only);
  }

  // Whatever a figure or a finding names is shown in the drawing: a post, a bay, a rail of a bay, a leg, a corner, a gate or a zone.
  kindOf(where: string): Picked | null {
    const job = this.job;
    const id = where.split('/')[0] ?? '';
    if (!job || id === '') return null;
    if (this.plan?.posts.some((post) => post.name === id)) return { kind: 'post', id };
    if (this.plan?.bays.some((bay) => bay.name === id)) return { kind: 'bay', id };
    if (legsOf(job).some((leg) => leg.id === id)) return { kind: 'leg', id };
    if (pointsOf(job).some((point) => point.id === id)) return { kind: 'point', id };
    if (gatesOf(job).some((gate) => gate.id === id)) return { kind: 'gate', id };
    if (zonesOf(job).some((zone) => zone.id === id)) return { kind: 'zone', id };
    const run = this.plan?.runs.find((each) => each.name === id);
    return run ? { kind: 'leg', id: run.leg } : null;
  }

  // A fence stands wherever one of its legs does.
  placesOf(where: string): Picked[] {
    const kind = this.kindOf(where);
    if (kind || !this.job) return kind ? [kind] : [];
    return legsOf(this.job).flatMap((leg) => (leg.fence === where ? [{ kind: 'leg', id: leg.id } as const] : []));
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
    this.progress = null;
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
      this.totals = null;
      return;
    }
    this.drawingAsked = job;
    const began = performance.now();
    try {
      const drawing = await quick.ask('drawing', { job, effort: 'sketch' });
      if (this.job !== null) this.drawing = drawing;
      took('drawing', began);
      this.faults = [];
      if (drawing.totals) this.totals = drawing.totals;
      else void this.count();
    } catch (refusal) {
      this.refused(refusal);
    } finally {
      this.drawingAsked = null;
      if (this.job !== null && this.job !== job) void this.draw();
    }
  }

  // What the fence comes to takes its cutting, so it follows the drawing in a thread of its own, as often as that thread is free.
  private async count(): Promise<void> {
    if (this.countingAsked !== null || !this.job || legsOf(this.job).length === 0) return;
    const job = this.job;
    this.countingAsked = job;
    try {
      const totals = await counting.ask('totals', { job, effort: 'quick' });
      if (this.job !== null) this.totals = totals;
    } catch (refusal) {
      this.refused(refusal);
    } finally {
      this.countingAsked = null;
      if (this.job !== null && this.job !== job) void this.count();
    }
  }

  // The plan that is shown is asked where it was made: that thread still has it.
  private shownBy() {
    const full = this.planned?.effort === 'full' && this.planned.job === this.job;
    return { thread: full ? slow : counting, effort: (full ? 'full' : 'quick') as Effort };
  }

  async why(figure: string): Promise<WhyAnswer | null> {
    const job = this.job;
    if (!job) return null;
    const { thread, effort } = this.shownBy();
    try {
      return await thread.ask('why', { job, effort, figure });
    } catch (refusal) {
      if (!(refusal instanceof Refusal)) throw refusal;
      return null;
    }
  }

  async remedies(finding: Finding): Promise<Remedy[]> {
    const job = this.job;
    if (!job) return [];
    const { thread, effort } = this.shownBy();
    try {
      return await thread.ask('remedies', { job, effort, code: finding.code, where: finding.where });
    } catch (refusal) {
      this.refused(refusal);
      return [];
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
      const first = await counting.ask('plan', { job, effort: 'quick' });
      if (this.job !== job) return;
      this.take(job, 'quick', first);
      this.faults = [];
      if (first.plan.cuts.proved && (first.plan.spacing?.proved ?? true)) return;
      this.working = 'full';
      const proved = await slow.ask('plan', { job, effort: 'full' }, undefined, (progress) => {
        if (this.job === job) this.progress = progress;
      });
      if (this.job !== job) return;
      this.take(job, 'full', proved);
      await this.drawProved(job);
    } catch (refusal) {
      if (this.job === job) this.refused(refusal);
    } finally {
      if (this.job === job) {
        this.working = 'idle';
        this.progress = null;
      }
    }
  }

  // The best spacing and the proved cuts may differ from what the moving hand was shown: the drawing and the strip of totals follow the plan.
  private async drawProved(job: Job): Promise<void> {
    const drawing = await slow.ask('drawing', { job, effort: 'full' });
    if (this.job !== job) return;
    this.drawing = drawing;
    if (drawing.totals) this.totals = drawing.totals;
  }

  private take(job: Job, effort: Effort, { plan, findings }: { plan: Plan; findings: Finding[] }): void {
    this.planned = { job, effort };
    this.plan = plan;
    this.findings = findings;
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
