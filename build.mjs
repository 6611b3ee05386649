// Bundles what runs outside the tests: the command line, its helpers, the sample renderer, and the page of the bench.
import { build } from 'esbuild';
import { existsSync } from 'node:fs';
import { copyFile, mkdir, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import path from 'node:path';

/** Of a list of entries, those that are there. */
const present = (entries) => Object.fromEntries(Object.entries(entries).filter(([, file]) => existsSync(file)));

const shared = { bundle: true, sourcemap: true, logLevel: 'warning', metafile: true };
const bundled = [];

// Native and WebAssembly parts load their own files from beside themselves.
const external = ['sharp', '@img/*', 'lcms-wasm', 'libheif-js', 'opencv-wasm', 'electron'];

/** The writer of printed documents is half of the text that a program would read at each start, and seldom wanted. */
const writerApart = {
  name: 'writer-apart',
  setup: ({ onResolve }) => onResolve({ filter: /^pdfkit$/ }, () => ({ path: './pdfkit.cjs', external: true })),
};

const programs = await build({
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
  plugins: [writerApart],
});
bundled.push(programs);

const writer = await build({
  ...shared,
  // Its module build asks for its own address, which a bundle of this format does not have.
  entryPoints: { pdfkit: './node_modules/pdfkit/js/pdfkit.js' },
  outdir: 'dist',
  outExtension: { '.js': '.cjs' },
  platform: 'node',
  target: 'node18',
  format: 'cjs',
});
bundled.push(writer);

// The page: the bench in a browser and in the window. Chrome 114 is the oldest engine that it is tested in.
const page = present({
  main: 'renderer/main.tsx',
  'live-worker': 'renderer/live-worker.ts',
  'lamps-worker': 'renderer/lamps-worker.ts',
  'advice-worker': 'renderer/advice-worker.ts',
});
if (page.main && existsSync('renderer/index.html')) {
  await rm('dist/renderer', { recursive: true, force: true });
  await mkdir('dist/renderer', { recursive: true });
  const built = await build({
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
  bundled.push(built);
  await copyFile('renderer/index.html', 'dist/renderer/index.html');
  await copyFile('electron/icon/icon.svg', 'dist/renderer/icon.svg');
}
await copyFile('electron/icon/icon.png', 'dist/electron/icon.png');

// Letters for printed documents: each file is read only when a text needs it.
const fontParts = ['latin', 'latin-ext', 'greek', 'greek-ext', 'cyrillic', 'cyrillic-ext', 'vietnamese'];
const fontFiles = [
  ...fontParts.flatMap((part) =>
    ['400-normal', '600-normal', '400-italic'].map(
      (face) => `node_modules/@fontsource/source-sans-3/files/source-sans-3-${part}-${face}.woff`,
    ),
  ),
  ...['DejaVuSans', 'DejaVuSans-Bold', 'DejaVuSans-Oblique'].map(
    (name) => `node_modules/dejavu-fonts-ttf/ttf/${name}.ttf`,
  ),
];
await mkdir('dist/fonts', { recursive: true });
await Promise.all(fontFiles.map((file) => copyFile(file, `dist/fonts/${path.basename(file)}`)));
bundled.push({ metafile: { inputs: Object.fromEntries(fontFiles.map((file) => [file, {}])) } });

/** The packages of which something lies in the bundles, with the licences that have to travel with it. */
async function licencesOf(results) {
  const inputs = results.flatMap(({ metafile }) => Object.keys(metafile.inputs));
  const folders = inputs.flatMap((input) => input.match(/^.*node_modules\/(?:@[^/]+\/)?[^/]+/) ?? []);
  const texts = [];
  for (const folder of [...new Set(folders)].sort()) {
    const { name, version, license } = JSON.parse(await readFile(`${folder}/package.json`, 'utf8'));
    const files = (await readdir(folder)).filter((file) => /^(licen[cs]e|copying|notice)/i.test(file));
    const own = await Promise.all(files.map((file) => readFile(`${folder}/${file}`, 'utf8')));
    texts.push([`${name} ${version} (${license})`, ...own.map((text) => text.trim())].join('\n\n'));
  }
  return texts.join(`\n\n${'-'.repeat(80)}\n\n`);
}

await writeFile('dist/licences.txt', `${await licencesOf(bundled)}\n`);
