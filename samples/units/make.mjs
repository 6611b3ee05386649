// Builds the sample units as archives: `npm run sample-units`. What is told of them is invented; photos are the samples.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import process from 'node:process';
import { meter, tuner } from './records.mjs';

const samples = path.resolve(import.meta.dirname, '..');
const program = path.resolve(samples, '../dist/evendial.cjs');
const book = mkdtempSync(path.join(tmpdir(), 'evendial-sample-units-'));

/** One call of the program on the book that is being made; its JSON. */
function unit(...words) {
  const out = execFileSync(process.execPath, [program, 'unit', ...words, '--book', book, '--json'], {
    encoding: 'utf8',
  });
  return JSON.parse(out);
}

const cornersText = (corners) => corners.map((point) => point.join(',')).join(' ');
const fieldsOf = (fields, prefix = '') => Object.entries(fields).map(([key, value]) => `${prefix}${key}=${value}`);

function addPhoto(id, window, role, { photos: [photo], light, corners }, more = []) {
  const { file, encoding } = typeof photo === 'string' ? { file: photo } : photo;
  const stated = encoding === undefined ? [] : ['--encoding', encoding];
  const place = ['--corners', cornersText(corners[window]), '--window', window];
  unit('add-photo', id, path.join(samples, file), '--role', role, '--light', light, ...place, ...stated, ...more);
}

function addLamps(id, { name, lamps }) {
  const fields = lamps.flatMap((lamp) => {
    const at = `trials["${name}"].lamps["${lamp.name}"]`;
    return [`${at}.positionMm=${lamp.positionMm}`, `${at}.tiltDeg=${lamp.tiltDeg}`];
  });
  unit('set', id, ...fields);
}

function makeUnit({ name, series: file, fields, trials, chosen, after }) {
  const series = JSON.parse(readFileSync(path.join(samples, file), 'utf8'));
  const [window] = series.windows;
  const { id } = unit('new', name);
  unit('add-window', id, window.name, '--size', `${window.widthMm}x${window.heightMm}`, '--print', window.print);
  unit('set', id, `photography.room=${series.room}`, `photography.viewingDistanceMm=${series.viewingDistanceMm}`);
  if (window.outline.kind !== 'rectangle')
    unit('set', id, `windows["${window.name}"].outline=${JSON.stringify(window.outline)}`);
  unit('set', id, ...fieldsOf(fields));
  addPhoto(id, window.name, 'reference', series.reference);
  for (const trial of series.trials.filter(({ name: called }) => trials[called])) {
    unit('add-trial', id, trial.name, '--light', trial.light);
    addLamps(id, trial);
    unit('set', id, ...fieldsOf(trials[trial.name], `trials["${trial.name}"].`));
    addPhoto(id, window.name, `trial:${trial.name}`, trial);
  }
  unit('measure', id);
  unit('choose-trial', id, chosen.trial, '--why', chosen.why);
  unit('set', id, ...fieldsOf(after));
  return id;
}

try {
  for (const sample of [tuner, meter]) {
    const id = makeUnit(sample);
    const { photos, revisions } = unit('export', id, path.join(samples, sample.archive));
    process.stdout.write(`${sample.archive}: ${photos} photos, ${revisions} revisions\n`);
  }
} finally {
  rmSync(book, { recursive: true });
}
