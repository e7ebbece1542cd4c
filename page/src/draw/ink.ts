// SPDX-License-Identifier: MIT
// The colours of the paper, read once from the style sheet, so that a drawing follows day and night.
export interface Ink {
  paper: string;
  rule: string;
  ink: string;
  pencil: string;
  accent: string;
  picked: string;
}

export function inkOf(element: Element): Ink {
  const style = getComputedStyle(element);
  const read = (name: string) => style.getPropertyValue(`--${name}`).trim();
  return { paper: read('paper'), rule: read('rule'), ink: read('ink'), pencil: read('pencil'), accent: read('accent'), picked: read('picked') };
}

// Uniform colour code of the public utility-marking rules (APWA); other hazards in pencil.
const BURIED: Record<string, [day: string, night: string]> = {
  power: ['#c1121f', '#ff7a7a'],
  gas: ['#8a6d00', '#ffd84d'],
  communication: ['#b34700', '#ff9d4d'],
  water: ['#0b56b3', '#7db8ff'],
  sewer: ['#1b6b34', '#6fdc93'],
  irrigation: ['#6a2c91', '#cf9cf2'],
  survey: ['#b0186a', '#ff8cc6'],
};
export const buriedColour = (kind: string, night: boolean, other: string): string => BURIED[kind]?.[night ? 1 : 0] ?? other;
