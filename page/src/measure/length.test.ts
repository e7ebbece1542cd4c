// SPDX-License-Identifier: MIT
import { describe, expect, it } from 'vitest';
import { asTyped, parseLength, showLength, snapped } from './length';

// Exact conversions: 1 in = 25.4 mm, 1 ft = 0.3048 m (NIST SP 811:2008, appendix B.8).
describe('parseLength', () => {
  it.each([
    ['7 ft 5 1/4 in', 2266.95],
    [`7' 5-1/4"`, 2266.95],
    ['7ft5.25in', 2266.95],
    ['89.25 in', 2266.95],
    ['5½ in', 139.7],
    ['3/4 in', 19.05],
    ['2.27 m', 2270],
    ['227 cm', 2270],
    ['-3 in', -76.2],
    ['1 mi', 1609344],
    ['1/64 in', 0.396875],
    [`7' 5`, 2260.6],
  ])('reads %s', (text, mm) => expect(parseLength(text)).toBeCloseTo(mm, 6));

  it.each(['', 'ft', '12', '5 in 3 ft', '1/0 in', 'seven feet', '3 ft ft', '4 furlongs', '1e5 m'])('refuses %j', (text) =>
    expect(parseLength(text)).toBeNull(),
  );

  it('takes a bare number only with a unit given', () => {
    expect(parseLength('12', 'ft')).toBe(3657.6);
    expect(asTyped('12', 'metric')).toBe('12 m');
    expect(asTyped('7 ft 2', 'metric')).toBe('7 ft 2');
    expect(asTyped('about 7', 'metric')).toBeNull();
  });
});

describe('showLength', () => {
  it.each([
    [2266.95, '7 ft 5 1/4 in'],
    [2438.4, '8 ft 0 in'],
    [133.35, '5 1/4 in'],
    [0, '0 in'],
    [-76.2, '-3 in'],
    [304.79, '1 ft 0 in'],
  ])('writes %d mm as %s', (mm, text) => expect(showLength(mm, 'feet_inches')).toBe(text));

  it('writes metres and millimetres', () => {
    expect(showLength(2267.4, 'metric')).toBe('2.267 m');
    expect(showLength(88, 'metric')).toBe('88 mm');
  });

  it('comes back within half a sixteenth', () => {
    for (let mm = -5000; mm < 20000; mm += 37.3) {
      expect(Math.abs((parseLength(showLength(mm, 'feet_inches')) ?? NaN) - mm)).toBeLessThanOrEqual(25.4 / 32 + 1e-6);
    }
  });
});

describe('snapped', () => {
  it('is a text that the document takes, to the inch or the centimetre', () => {
    for (let mm = -4000; mm < 40000; mm += 113.7) {
      expect(Math.abs((parseLength(snapped(mm, 'feet_inches')) ?? NaN) - mm)).toBeLessThanOrEqual(12.7 + 1e-6);
      expect(Math.abs((parseLength(snapped(mm, 'metric')) ?? NaN) - mm)).toBeLessThanOrEqual(5 + 1e-6);
    }
  });
});
