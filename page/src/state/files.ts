// SPDX-License-Identifier: MIT
// Files in and out. Whatever is dropped here, the job in hand stays until the new one is known to be sound.
import { Refusal } from '../engine/client';
import { quick } from '../engine/engines';
import type { Finding } from '../engine/protocol';
import type { Job } from '../job/types';
import { t } from '../words/words.svelte';

const LARGEST = 64 * 1024 * 1024;

export type Brought = { job: Job; findings: Finding[] } | { trouble: string };

function looksLikeText(bytes: Uint8Array): boolean {
  return !bytes.subarray(0, 4096).includes(0);
}

// A saved job says its version; every other JSON is a walk (GeoJSON), as is GPX, KML and CSV.
function savedJob(text: string): unknown {
  if (!text.trimStart().startsWith('{')) return null;
  try {
    const read = JSON.parse(text) as Record<string, unknown>;
    return 'version' in read && 'type' in read === false ? read : null;
  } catch {
    return null;
  }
}

async function bringJob(document: unknown): Promise<Brought> {
  const version = (document as { version?: unknown }).version;
  if (typeof version === 'number' && version > 1) return { trouble: t('say.newer', { version }) };
  const checked = await quick.ask('check', { job: document });
  if (checked.sound && checked.job) return { job: checked.job, findings: checked.findings };
  return { trouble: checked.findings[0]?.text ?? t('say.not_a_job') };
}

export async function bring(file: File): Promise<Brought> {
  if (file.size > LARGEST) return { trouble: t('say.too_large') };
  const bytes = new Uint8Array(await file.arrayBuffer());
  if (!looksLikeText(bytes)) return { trouble: t('say.not_text', { name: file.name }) };
  const text = new TextDecoder().decode(bytes);
  try {
    const document = savedJob(text);
    if (document !== null) return await bringJob(document);
    const name = file.name.replace(/\.[^.]*$/, '');
    return await quick.ask('start', { choices: { name }, walk: text });
  } catch (refusal) {
    if (refusal instanceof Refusal) return { trouble: refusal.error.text ?? t('say.crashed') };
    throw refusal;
  }
}

// What every file of the job begins with.
export function stem(job: Job): string {
  const plain = (job.name ?? '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '')
    .slice(0, 60);
  return plain || 'fence';
}

export function save(name: string, text: string, type = 'application/json'): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10000);
}
