// SPDX-License-Identifier: MIT
// Figures, printed: how long a drag waits and how smoothly the paper moves. The limits asserted are loose, because other work may share the machine.
import { expect, test, type Page } from '@playwright/test';
import { corner, total } from './desk';

// Straight legs of a mile or more, three rails.
function job(feet: number) {
  const half = feet / 2;
  return {
    version: 1,
    name: `${feet} ft`,
    site: {
      points: [
        { id: 'A', east: '0 ft', north: '0 ft' },
        { id: 'B', east: `${half} ft`, north: '0 ft' },
        { id: 'C', east: `${half} ft`, north: `${half} ft` },
      ],
      legs: [
        { id: 'AB', from: 'A', to: 'B', fence: 'paddock' },
        { id: 'BC', from: 'B', to: 'C', fence: 'paddock' },
      ],
    },
    choices: { fences: [{ id: 'paddock', height: '54 in', rails: 3, rail_pipe: '2-3/8 sch40', line_pipe: '2-3/8 sch40' }] },
  };
}

async function open(page: Page, feet: number) {
  await page.goto('./');
  await page.locator('input[type=file]').setInputFiles({ name: 'long.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(job(feet))) });
  await expect(total(page, 'posts')).toBeVisible();
}
const quickest = (values: number[]) => values.toSorted((a, b) => a - b)[Math.floor(values.length / 10)] ?? NaN;
const median = (values: number[]) => values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? NaN;

for (const [what, feet, most] of [
  ['100 bays', 800, 160],
  ['a mile', 5280, 330],
] as const) {
  test(`redraws ${what} while a corner moves`, async ({ page }) => {
    await open(page, feet);
    await page.evaluate(() => performance.clearMeasures());
    const box = (await corner(page, 'C').boundingBox())!;
    await page.mouse.move(box.x + 8, box.y + 8);
    await page.mouse.down();
    for (let step = 1; step <= 40; ++step) {
      await page.mouse.move(box.x + 8 - step * 2, box.y + 8 + step);
      await page.waitForTimeout(20);
    }
    await page.mouse.up();
    const [times, painted] = await page.evaluate(() =>
      ['drawing', 'painting'].map((step) => performance.getEntriesByName(step).map((entry) => entry.duration)),
    );
    if (!times || !painted) throw new Error('nothing was measured');
    const redrawn = median(times) + median(painted);
    console.log(`${what}: median ${median(times).toFixed(1)} ms to plan and ${median(painted).toFixed(1)} ms to paint, over ${times.length} drawings`);
    console.log(`${what}: the quickest tenth within ${(quickest(times) + quickest(painted)).toFixed(1)} ms, which other work on the machine disturbs least`);
    // A frame at 60 Hz for 100 bays, two for a mile: what the page is built for. Asserted ten times looser, because other work may share the machine.
    console.log(`${what}: ${(redrawn / (most / 10)).toFixed(2)} of the ${most / 10} ms allowed`);
    expect(times.length).toBeGreaterThan(5);
    expect(redrawn).toBeLessThan(most);
  });
}

test('pans five thousand posts', async ({ page }) => {
  test.setTimeout(120_000);
  await open(page, 40000);
  expect(Number(await total(page, 'posts').textContent())).toBeGreaterThan(5000);
  await page.waitForTimeout(2000);
  const frames = page.evaluate(
    () =>
      new Promise<number>((resolve) => {
        const began = performance.now();
        let count = 0;
        const next = () => {
          ++count;
          if (performance.now() - began < 2000) requestAnimationFrame(next);
          else resolve(count / 2);
        };
        requestAnimationFrame(next);
      }),
  );
  const box = (await page.getByRole('application').boundingBox())!;
  await page.mouse.move(box.x + 200, box.y + 120);
  await page.mouse.down();
  for (let step = 1; step <= 60; ++step) await page.mouse.move(box.x + 200 + step * 3, box.y + 120 + step * 2);
  const perSecond = await frames;
  await page.mouse.up();
  console.log(`five thousand posts pan at ${perSecond.toFixed(0)} frames a second`);
  expect(perSecond).toBeGreaterThan(10);
});
