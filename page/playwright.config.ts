// SPDX-License-Identifier: MIT
import { existsSync } from 'node:fs';
import { defineConfig, devices } from '@playwright/test';

const chromium = {
  executablePath: '/usr/bin/chromium',
  args: [
    '--no-sandbox',
    '--disable-gpu',
    '--disable-quic',
    '--no-first-run',
    '--disable-background-networking',
    '--disable-component-update',
    '--disable-sync',
  ],
};

// Two people may test side by side: PAGE_PORT and PAGE_OUT give each a port and a built page of his own.
const port = process.env.PAGE_PORT ?? '4173';
const address = `http://127.0.0.1:${port}/`;
const folder = process.env.PAGE_OUT ?? 'dist';

// The program's own server, where it is built, with its strict content policy; else the builder's.
const program = '../build/native/bin/railwright';
const command = existsSync(program)
  ? `${program} serve --port ${port} --folder ${folder}`
  : `npx vite preview --host 127.0.0.1 --port ${port} --strictPort --outDir ${folder}`;

export default defineConfig({
  testDir: 'e2e',
  outputDir: process.env.PAGE_OUT ? `test-results/${process.env.PAGE_OUT}` : 'test-results',
  timeout: 60_000,
  expect: { timeout: 20_000 },
  // Two threads of the engine are busy at once in each page; more pages than cores would only wait for each other.
  workers: 2,
  fullyParallel: true,
  reporter: [['list']],
  use: { baseURL: address, headless: true, launchOptions: chromium },
  projects: [
    { name: 'desktop', use: { viewport: { width: 1440, height: 900 } }, testIgnore: /phone/ },
    { name: 'phone', use: { ...devices['Pixel 7'], viewport: { width: 360, height: 800 }, launchOptions: chromium }, testMatch: /phone|views/ },
  ],
  webServer: { command, url: address, reuseExistingServer: false },
});
