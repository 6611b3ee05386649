import type { BenchError, BenchVerb } from '../core/contract/bench';

/** The address of the page: a scheme of its own, so that the page has an origin and no file address. */
export const pageAddress = 'app://main/';

/** Every verb has its channel; there are no others but those below. */
export const channelOf = (verb: BenchVerb): string => `bench:${verb}`;
export const addFileChannel = 'bench:add-file';
export const addBytesChannel = 'bench:add-bytes';
export const eventChannel = 'bench:event';

/** An answer on its way to the page; a rejected promise would lose all but its text. */
export type Sent = { readonly answer: unknown } | { readonly error: BenchError };

/** In the order of the contract; the compiler sees to it that none is missing. */
const everyVerb: Readonly<Record<BenchVerb, true>> = {
  hello: true,
  addSamples: true,
  removePhotos: true,
  find: true,
  measure: true,
  pixels: true,
  linear: true,
  exportReading: true,
  printShade: true,
  compare: true,
  match: true,
  watchRead: true,
  watchChoose: true,
  watchStop: true,
  carryOutline: true,
  cancel: true,
  bookList: true,
  unitRead: true,
  unitCreate: true,
  unitEdit: true,
  unitRestore: true,
  unitRepair: true,
  unitLeftovers: true,
  unitTimeline: true,
  unitThumbnail: true,
  fileReadings: true,
  layUnit: true,
  unitSheet: true,
  unitExport: true,
  unitImport: true,
};
export const verbs = Object.keys(everyVerb) as BenchVerb[];
