// SPDX-License-Identifier: MIT
// The page's sentences: the same words/ that the sheets are made from, bundled so that the first screen need not wait for the engine.
import enPage from '../../../words/en/page.json';
import enField from '../../../words/en/page_field.json';
import enResults from '../../../words/en/page_results.json';
import enStrength from '../../../words/en/strength.json';
import enTakeoff from '../../../words/en/takeoff.json';
import enUnits from '../../../words/en/units.json';
import esEngineText from '../../../words/es/engine_text.json';
import esItems from '../../../words/es/items.json';
import esPage from '../../../words/es/page.json';
import esField from '../../../words/es/page_field.json';
import esResults from '../../../words/es/page_results.json';
import esStrength from '../../../words/es/strength.json';
import esTakeoff from '../../../words/es/takeoff.json';
import esUnits from '../../../words/es/units.json';

type Leaves = { [key: string]: string | Leaves };

function flatten(leaves: Leaves, prefix: string, into: Map<string, string>): Map<string, string> {
  for (const [key, value] of Object.entries(leaves)) {
    if (typeof value === 'string') into.set(prefix + key, value);
    else flatten(value, `${prefix}${key}.`, into);
  }
  return into;
}

interface Takeoff {
  groups: Leaves;
  items: Leaves;
  operations: Leaves;
  why: Leaves;
}
function sentencesOf({ groups, items, operations, why }: Takeoff, ...files: Leaves[]): Map<string, string> {
  const into = flatten({ groups, items, operations, why }, '', new Map());
  for (const file of files) flatten(file, '', into);
  return into;
}
const en = sentencesOf(enTakeoff, enPage, enField, enResults, enUnits, { checks: enStrength.checks });
const catalogues: Record<string, Map<string, string>> = {
  en,
  es: sentencesOf(esTakeoff, esPage, esField, esResults, esUnits, esItems, esEngineText, { checks: esStrength.checks }),
};

export const LANGUAGES = [
  ['en', 'English'],
  ['es', 'Español'],
] as const;

// The language of the page; it follows the job's.
export const spoken = $state({ language: 'en' });
export const speak = (language: string | undefined): void => {
  spoken.language = language !== undefined && language in catalogues ? language : 'en';
};

const sentence = (key: string): string | undefined => {
  const own = catalogues[spoken.language] ?? en;
  return own.get(`page.${key}`) ?? own.get(key) ?? en.get(`page.${key}`) ?? en.get(key);
};

export const known = (key: string): boolean => sentence(key.replace(/^page\./, '')) !== undefined;

// A missing sentence shows its key in brackets, so that it is seen and not lost. Of one thing a sentence may have a form of its own.
export function t(key: string, values: Record<string, string | number> = {}): string {
  const text = (values.count === 1 ? sentence(`${key}_one`) : undefined) ?? sentence(key);
  if (text === undefined) return `[${key}]`;
  return text.replace(/\{(\w+)\}/g, (whole, name: string) => String(values[name] ?? whole));
}

// What the catalogues and the engine name in English, in the reader's words where those differ: the same as on the sheets.
const orItself = (section: string, name: string): string => sentence(`${section}.${name}`) ?? name;
export const item = (id: string): string => orItself('item', id);
export const unitWord = (unit: string): string => orItself('unit', unit);
export const engineText = (text: string): string => orItself('engine_text', text);
export const checkName = (code: string): string => sentence(`checks.${code}`) ?? code.replace(/[._]/g, ' ');

// The sentence taken apart at its placeholders, for those who put more than text in them.
export function partsOf(key: string): { text: string; name?: string }[] {
  const text = sentence(key) ?? `[${key}]`;
  return text.split(/(\{\w+\})/).flatMap((part) => (part === '' ? [] : /^\{\w+\}$/.test(part) ? [{ text: part, name: part.slice(1, -1) }] : [{ text: part }]));
}

const region = () => (spoken.language === 'es' ? 'es-US' : 'en-US');
export function money(amount: string | number, currency = 'USD'): string {
  return new Intl.NumberFormat(region(), { style: 'currency', currency, maximumFractionDigits: 2 }).format(Number(amount));
}
export const wholeMoney = (amount: string | number, currency = 'USD'): string =>
  new Intl.NumberFormat(region(), { style: 'currency', currency, maximumFractionDigits: 0 }).format(Number(amount));
