import type { LightKind, PrintKind, RoomKind } from '../../core/contract/light';
import type { PhotoRole } from '../../core/contract/unit-record';

/** What the user may choose from, in words; the same on all screens. */
export const lightWords: Readonly<Record<LightKind, string>> = {
  filament: 'filament lamp',
  'warm-white': 'warm white LED',
  'cool-white': 'cool white LED',
  'phosphor-amber': 'amber LED with phosphor',
  'narrow-amber': 'narrow amber LED',
  'red+green': 'red + green LED',
  'red+yellow-green': 'red + yellow-green LED',
  red: 'red LED',
  unknown: 'not known',
};

export const printWords: Readonly<Record<PrintKind, string>> = {
  auto: 'decide by itself',
  dark: 'dark print on a lit ground',
  light: 'lit figures on a dark ground',
  none: 'no print',
};

export const roomWords: Readonly<Record<RoomKind, string>> = {
  dark: 'dark room',
  lit: 'other light fell on it',
  unknown: 'not known',
};

export const roleWords: Readonly<Record<PhotoRole, string>> = {
  reference: 'filament reference',
  trial: 'trial',
  'lamp-off': 'lamp-off photo',
  'flat-field': 'flat field',
  'print-photo': 'print photo',
  other: 'other photo',
};

/** All keys of a list of words. */
export const kindsOf = <Kind extends string>(words: Readonly<Record<Kind, string>>): Kind[] =>
  Object.keys(words) as Kind[];
