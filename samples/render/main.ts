import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { photoBytes } from './files/photo-file';
import { renderCodes } from './index';
import { type Sample, samples } from './sample-list';
import { seriesFiles } from './series-files';
import { sampleSets, setSamples } from './sets';
import { seriesOfSet } from './sets/set-series';
import { setTruth } from './sets/set-truth';
import { type PhotoTruth, statedTruth, truthText } from './truth-file';

const truths = new Map<Sample, PhotoTruth>();

function truthOf(one: Sample): PhotoTruth {
  const truth = truths.get(one) ?? statedTruth(one);
  truths.set(one, truth);
  return truth;
}

/** As the file beside the photo says it, so that a set's truth can be worked out again from the files. */
function writtenTruth(one: Sample): PhotoTruth {
  return JSON.parse(truthText(truthOf(one))) as PhotoTruth;
}

/** Writes photos with their truth into `folder`/photos; words given limit them. */
async function renderPhotos(folder: string, photos: readonly Sample[], only: readonly string[]): Promise<void> {
  await mkdir(join(folder, 'photos'), { recursive: true });
  for (const one of photos) {
    if (only.length > 0 && !only.some((word) => one.file.includes(word))) continue;
    const truth = truthOf(one);
    const bytes = await photoBytes(renderCodes(one.scene, one.camera), one.camera);
    await writeFile(join(folder, 'photos', one.file), bytes);
    await writeFile(join(folder, 'photos', `${one.file}.truth.json`), truthText(truth));
    const scores = truth.windows.map((window) => `${window.name} ${window.figures.score.toFixed(1)}`).join(', ');
    console.log(`${one.file.padEnd(36)} ${String(Math.round(bytes.length / 1024)).padStart(5)} KiB  ${scores}`);
  }
}

/** Writes all photos with their truth, the series files, and the sets with theirs; words given limit the photos. */
async function renderAll(folder: string, only: readonly string[]): Promise<void> {
  await renderPhotos(folder, samples, only);
  for (const [name, content] of Object.entries(seriesFiles())) {
    await writeFile(join(folder, name), truthText(content));
  }
  const sets = join(folder, 'sets');
  await renderPhotos(sets, setSamples, only);
  for (const set of sampleSets) {
    await writeFile(join(sets, `${set.name}.series.json`), truthText(seriesOfSet(set)));
    await writeFile(join(sets, `${set.name}.truth.json`), truthText(setTruth(set, writtenTruth)));
  }
}

renderAll('samples', process.argv.slice(2)).catch((error: unknown) => {
  console.error(error);
  process.exitCode = 1;
});
