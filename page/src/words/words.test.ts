// SPDX-License-Identifier: MIT
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { known, speak, t } from './words.svelte';

const sources = ['', 'views/', 'state/', 'draw/'].flatMap((folder) => {
  const place = new URL(`../${folder}`, import.meta.url);
  return readdirSync(place)
    .filter((name) => /\.(svelte|ts)$/.test(name) && !name.includes('.test.'))
    .map((name) => [folder + name, readFileSync(new URL(name, place), 'utf8')] as const);
});

describe('every sentence asked for is there', () => {
  it.each(sources)('%s', (_, text) => {
    const keys = [...text.matchAll(/\bt\('([a-z_.]+)'/g)].map(([, key]) => key ?? '');
    expect(keys.filter((key) => !known(`page.${key}`) && !known(key))).toEqual([]);
  });
});

it('fills in figures and leaves what it was not given', () => {
  expect(t('gaps.done', { done: 3 })).toBe('3 of {all} rails of this leg measured.');
  expect(t('no.such')).toBe('[no.such]');
  expect(t('line.legs', { count: 1, length: '60 ft' })).toBe('1 leg, 60 ft');
  expect(t('line.legs', { count: 2, length: '60 ft' })).toBe('2 legs, 60 ft');
});

it('speaks Spanish, and English where it does not know the language', () => {
  speak('es');
  expect(t('note.sheets')).not.toBe('Sheets');
  speak('tlh');
  expect(t('note.sheets')).toBe('Sheets');
});
