// The page's sentences: the same words/ that the sheets are made from, bundled so that the first screen need not wait for the engine.
import page from '../../../words/en/page.json';
import takeoff from '../../../words/en/takeoff.json';

type Leaves = { [key: string]: string | Leaves };

function flatten(leaves: Leaves, prefix: string, into: Map<string, string>): Map<string, string> {
  for (const [key, value] of Object.entries(leaves)) {
    if (typeof value === 'string') into.set(prefix + key, value);
    else flatten(value, `${prefix}${key}.`, into);
  }
  return into;
}

const sentences = flatten({ ...page, groups: takeoff.groups, items: takeoff.items, operations: takeoff.operations, why: takeoff.why } as Leaves, '', new Map());

export const known = (key: string): boolean => sentences.has(key);

// A missing sentence shows its key in brackets, so that it is seen and not lost.
export function t(key: string, values: Record<string, string | number> = {}): string {
  const text = sentences.get(`page.${key}`) ?? sentences.get(key);
  if (text === undefined) return `[${key}]`;
  return text.replace(/\{(\w+)\}/g, (whole, name: string) => String(values[name] ?? whole));
}

export function money(amount: string | number, currency = 'USD'): string {
  return new Intl.NumberFormat('en-US', { style: 'currency', currency, maximumFractionDigits: 2 }).format(Number(amount));
}
export const wholeMoney = (amount: string | number, currency = 'USD'): string =>
  new Intl.NumberFormat('en-US', { style: 'currency', currency, maximumFractionDigits: 0 }).format(Number(amount));
