// SPDX-License-Identifier: MIT
// The walk in hand: what the phone says of its place, what of it is kept, and the job that the engine makes of it.
import { Refusal } from '../engine/client';
import { quick } from '../engine/engines';
import type { StartChoices } from '../engine/protocol';
import { cornerHere, errorOf, good, NOTHING_WALKED, taken, walkText, withoutLastCorner, type Fix, type Walk } from '../field/walk';
import type { Job } from '../job/types';
import { exact, mmOf } from '../measure/length';
import { spoken, t } from '../words/words.svelte';
import { forgetWalk, keepWalk, keptWalk } from './keep';

type Kept = { walk: Walk; choices: StartChoices };
type Standing = 'asking' | 'walking' | 'paused';

const PATIENCE = 20_000; // ms without a fix before the page says so
const KEEP_EVERY = 3000; // ms

class Walking {
  on = $state(false);
  standing = $state<Standing>('asking');
  walk = $state.raw<Walk>(NOTHING_WALKED);
  here = $state.raw<Fix | null>(null);
  trouble = $state('');
  choices: StartChoices = {};

  private watch: number | null = null;
  private awake: WakeLockSentinel | null = null;
  private keptAt = 0;

  begin(choices: StartChoices, walk: Walk = NOTHING_WALKED): void {
    this.on = true;
    this.choices = choices;
    this.walk = walk;
    this.here = null;
    this.trouble = '';
    this.listen();
  }

  async goOn(): Promise<void> {
    const kept = await keptWalk<Kept>();
    if (kept) this.begin(kept.choices, kept.walk);
  }

  // Said to be paused only once the walk is kept: who reads it may pocket the phone, and the tab may go.
  async pause(): Promise<void> {
    this.deaf();
    await this.keep(true);
    if (this.watch === null) this.standing = 'paused';
  }
  // The page may never be seen again.
  hidden(): void {
    if (this.on) void this.keep(true);
  }
  resume(): void {
    this.trouble = '';
    this.listen();
  }

  // Corners are taken while the walker stands: the last seconds are averaged.
  corner(): void {
    const next = cornerHere(this.walk, Date.now());
    if (!next) return void (this.trouble = t('walk.no_fresh'));
    this.trouble = '';
    this.walk = next;
    navigator.vibrate?.(60);
    void this.keep(true);
  }
  takeBack(): void {
    this.walk = withoutLastCorner(this.walk);
    void this.keep(true);
  }

  // Ends without a job; what was walked is forgotten only when the walker says so.
  leave(forget: boolean): void {
    this.deaf();
    this.on = false;
    if (forget) void forgetWalk().catch(() => undefined);
    else void this.keep(true);
  }

  async finish(close: boolean): Promise<{ job: Job; said: string } | null> {
    this.deaf();
    this.standing = 'paused';
    try {
      const started = await quick.ask('start', { choices: this.choices, walk: walkText(this.walk, close), language: spoken.language });
      this.on = false;
      void forgetWalk().catch(() => undefined);
      return { job: withError(started.job, errorOf(this.walk)), said: started.findings.map((finding) => finding.text).join(' ') };
    } catch (refusal) {
      this.trouble = refusal instanceof Refusal ? (refusal.error.text ?? t('say.crashed')) : t('say.crashed');
      return null;
    }
  }

  private listen(): void {
    this.standing = 'asking';
    if (!('geolocation' in navigator)) return void (this.trouble = t('walk.no_receiver'));
    this.deaf();
    this.watch = navigator.geolocation.watchPosition(
      ({ coords }) => this.take({ latitude: coords.latitude, longitude: coords.longitude, accuracy: coords.accuracy, time: Date.now() }),
      (problem) => this.troubled(problem),
      { enableHighAccuracy: true, maximumAge: 0, timeout: PATIENCE },
    );
    void navigator.wakeLock?.request('screen').then(
      (lock) => (this.awake = lock),
      () => undefined,
    );
  }
  private deaf(): void {
    if (this.watch !== null) navigator.geolocation.clearWatch(this.watch);
    this.watch = null;
    void this.awake?.release().catch(() => undefined);
    this.awake = null;
  }

  private take(fix: Fix): void {
    this.standing = 'walking';
    this.here = fix;
    this.walk = taken(this.walk, fix);
    this.trouble = good(fix) ? '' : t('walk.poor_now');
    void this.keep(false);
  }
  private troubled({ code }: GeolocationPositionError): void {
    this.trouble = t(code === 1 ? 'walk.refused' : code === 2 ? 'walk.unavailable' : 'walk.waiting');
    if (code !== 1) return;
    this.deaf();
    this.standing = 'paused';
  }

  private async keep(now: boolean): Promise<void> {
    if (!now && Date.now() - this.keptAt < KEEP_EVERY) return;
    if (this.walk === NOTHING_WALKED) return;
    this.keptAt = Date.now();
    await keepWalk({ walk: this.walk, choices: this.choices } satisfies Kept).catch(() => (this.trouble = t('walk.not_kept')));
  }
}

// The engine's estimate of the places' error, unless the phone itself admits to a worse one.
function withError(job: Job, metres: number): Job {
  const mm = Math.ceil(metres * 100) * 10;
  return mm > mmOf(job.site?.position_accuracy) ? { ...job, site: { ...job.site, position_accuracy: exact(mm) } } : job;
}

export const walking = new Walking();
