// SPDX-License-Identifier: MIT
import { createHash } from 'node:crypto';
import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { brotliCompressSync, gzipSync } from 'node:zlib';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig, type Plugin } from 'vite';

const OUT = process.env.PAGE_OUT ?? 'dist';

// A service worker whose list of files is the bundle itself: the page is whole without a network after the first visit.
function offline(): Plugin {
  return {
    name: 'offline',
    apply: 'build',
    generateBundle(_, bundle) {
      const files = Object.keys(bundle).filter((name) => !name.endsWith('.map'));
      const version = createHash('sha256').update(files.sort().join('\n')).digest('hex').slice(0, 12);
      const list = JSON.stringify(['./', ...files.map((name) => `./${name}`), './icon.svg', './manifest.webmanifest']);
      this.emitFile({
        type: 'asset',
        fileName: 'offline.js',
        source: `const VERSION='railwright-${version}',FILES=${list};
self.addEventListener('install',e=>e.waitUntil(caches.open(VERSION).then(c=>c.addAll(FILES)).then(()=>self.skipWaiting())));
self.addEventListener('activate',e=>e.waitUntil(caches.keys().then(k=>Promise.all(k.filter(n=>n.startsWith('railwright-')&&n!==VERSION).map(n=>caches.delete(n)))).then(()=>self.clients.claim())));
self.addEventListener('fetch',e=>{if(e.request.method==='GET'&&new URL(e.request.url).origin===location.origin)
e.respondWith(caches.match(e.request,{ignoreVary:true,ignoreSearch:true}).then(r=>r||fetch(e.request)))});
`,
      });
    },
  };
}

// What compresses well stands compressed beside itself, so that a server only hands it out.
function compressed(): Plugin {
  return {
    name: 'compressed',
    apply: 'build',
    closeBundle() {
      for (const entry of readdirSync(OUT, { recursive: true, withFileTypes: true })) {
        if (!entry.isFile() || !/\.(html|js|css|wasm|svg|webmanifest)$/.test(entry.name)) continue;
        const path = join(entry.parentPath, entry.name);
        const bytes = readFileSync(path);
        writeFileSync(`${path}.br`, brotliCompressSync(bytes));
        writeFileSync(`${path}.gz`, gzipSync(bytes, { level: 9 }));
      }
    },
  };
}

export default defineConfig({
  base: './',
  plugins: [svelte(), offline(), compressed()],
  worker: { format: 'es' },
  build: { target: 'es2022', assetsInlineLimit: 0, outDir: OUT, emptyOutDir: true },
  test: { include: ['src/**/*.test.ts'] },
} as ReturnType<typeof defineConfig>);
