// Bundles what runs outside the tests: the command line, its decoding child and the sample renderer.
import { build } from 'esbuild';
import { existsSync } from 'node:fs';

const entries = {
  evendial: 'core/node/cli/main.ts',
  engine: 'core/node/engine/engine-main.ts',
  'decode-child': 'core/node/decode-child.ts',
  'render-samples': 'samples/render/main.ts',
  timings: 'tests/timings/main.ts',
};
const entryPoints = Object.fromEntries(Object.entries(entries).filter(([, file]) => existsSync(file)));

await build({
  entryPoints,
  outdir: 'dist',
  outExtension: { '.js': '.cjs' },
  bundle: true,
  platform: 'node',
  target: 'node18',
  format: 'cjs',
  sourcemap: true,
  // Native and WebAssembly parts load their own files from beside themselves.
  external: ['sharp', '@img/*', 'lcms-wasm', 'libheif-js'],
  logLevel: 'warning',
});
