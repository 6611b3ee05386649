// Bundles what runs outside the tests: the command line, its helpers, the sample renderer, and the page of the bench.
import { build } from 'esbuild';
import { existsSync } from 'node:fs';
import { copyFile, mkdir, rm } from 'node:fs/promises';

/** Of a list of entries, those that are there. */
const present = (entries) => Object.fromEntries(Object.entries(entries).filter(([, file]) => existsSync(file)));

const shared = { bundle: true, sourcemap: true, logLevel: 'warning' };

// Native and WebAssembly parts load their own files from beside themselves.
const external = ['sharp', '@img/*', 'lcms-wasm', 'libheif-js', 'opencv-wasm', 'electron'];

await build({
  ...shared,
  entryPoints: present({
    evendial: 'core/node/cli/main.ts',
    engine: 'core/node/engine/engine-main.ts',
    'decode-child': 'core/node/decode-child.ts',
    'render-samples': 'samples/render/main.ts',
    timings: 'tests/timings/main.ts',
    'electron/main': 'electron/main.ts',
    'electron/preload': 'electron/preload.ts',
  }),
  outdir: 'dist',
  outExtension: { '.js': '.cjs' },
  platform: 'node',
  target: 'node18',
  format: 'cjs',
  external,
});

// The page: the bench in a browser and in the window. Chrome 114 is the oldest engine that it is tested in.
const page = present({ main: 'renderer/main.tsx', 'live-worker': 'renderer/live-worker.ts' });
if (page.main && existsSync('renderer/index.html')) {
  await rm('dist/renderer', { recursive: true, force: true });
  await mkdir('dist/renderer', { recursive: true });
  await build({
    ...shared,
    entryPoints: page,
    outdir: 'dist/renderer',
    platform: 'browser',
    target: 'chrome114',
    format: 'esm',
    minify: true,
    jsx: 'automatic',
    jsxImportSource: 'preact',
    loader: { '.woff2': 'file', '.woff': 'empty', '.svg': 'file' },
    assetNames: '[name]-[hash]',
  });
  await copyFile('renderer/index.html', 'dist/renderer/index.html');
}
