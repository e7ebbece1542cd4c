// SPDX-License-Identifier: MIT
// The page's sentences: the same words/ that the sheets are made from, bundled so that the first screen need not wait for the engine.
import enPage from '../../../words/en/page.json';
import enField from '../../../words/en/page_field.json';
import enResults from '../../../words/en/page_results.json';
import enTakeoff from '../../../words/en/takeoff.json';
import esPage from '../../../words/es/page.json';
import esField from '../../../words/es/page_field.json';
import esResults from '../../../words/es/page_results.json';
import esTakeoff from '../../../words/es/takeoff.json';

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
function sentencesOf(page: Leaves, field: Leaves, results: Leaves, { groups, items, operations, why }: Takeoff): Map<string, string> {
  return flatten(results, '', flatten(field, '', flatten({ ...page, groups, items, operations, why }, '', new Map())));
}
const en = sentencesOf(enPage as Leaves, enField as Leaves, enResults as Leaves, enTakeoff as unknown as Takeoff);
const catalogues: Record<string, Map<string, string>> = {
  en,
  es: sentencesOf(esPage as Leaves, esField as Leaves, esResults as Leaves, esTakeoff as unknown as Takeoff),
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

// A missing sentence shows its key in brackets, so that it is seen and not lost.
export function t(key: string, values: Record<string, string | number> = {}): string {
  const text = sentence(key);
  if (text === undefined) return `[${key}]`;
  return text.replace(/\{(\w+)\}/g, (whole, name: string) => String(values[name] ?? whole));
}

const region = () => (spoken.language === 'es' ? 'es-US' : 'en-US');
export function money(amount: string | number, currency = 'USD'): string {
  return new Intl.NumberFormat(region(), { style: 'currency', currency, maximumFractionDigits: 2 }).format(Number(amount));
}
export const wholeMoney = (amount: string | number, currency = 'USD'): string =>
  new Intl.NumberFormat(region(), { style: 'currency', currency, maximumFractionDigits: 0 }).format(Number(amount));
