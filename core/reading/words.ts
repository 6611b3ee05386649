/**
 * The score of evenness in words.
 *
 * @param score  0..100
 * @source our own choice
 * @rule EV6
 */
export function evennessWords(score: number): string {
  if (score >= 95) return 'even to a careful eye';
  if (score >= 80) return 'slightly uneven';
  if (score >= 65) return 'clearly uneven';
  return score >= 50 ? 'hot spot seen at once' : 'spotty';
}

/**
 * The score beside the filament reference's, in words: factory lamps are not perfect either.
 *
 * @param toReference  score less the reference's score, points
 * @source our own choice
 * @rule EV6
 */
export function evennessToReferenceWords(toReference: number): string {
  if (toReference > 2) return 'more even than with the filament';
  if (toReference >= -2) return 'as even as with the filament';
  return toReference >= -8 ? 'a little less even than with the filament' : 'clearly less even than with the filament';
}

/** What of a glow's colour the words need. */
export interface ColourWordsInput {
  /** K; null when there is none. */
  readonly cctK: number | null;
  readonly duv: number | null;
  /** There is a colour temperature, but its plus-minus reaches to where it has no meaning. */
  readonly isTooUnsure: boolean;
  /** More than 5 % of the glow lies outside the file's colour space. */
  readonly outOfGamut: boolean;
}

/** Duv up to here looks like the light of a glowing body: about 5 steps. */
const nearLocusDuv = 0.006;

function tintWords(duv: number | null): string {
  if (duv === null || Math.abs(duv) <= nearLocusDuv) return '';
  return duv > 0 ? ', greener than a filament of that warmth' : ', pinker than a filament of that warmth';
}

/** Hundreds below 5000 K, where an eye tells them apart, else five hundreds. */
function roundedCct(cctK: number): number {
  const step = cctK < 5000 ? 100 : 500;
  return Math.round(cctK / step) * step;
}

function warmthWords(cctK: number): string {
  if (cctK < 2000) return 'deep amber';
  if (cctK < 2600) return 'as warm as a filament lamp run low';
  if (cctK < 3300) return 'warm white';
  return cctK < 5000 ? 'neutral white' : 'cool white';
}

/**
 * What one photo can say about the glow's colour, without a reference: of the glow, never of the lamp.
 *
 * Outside the file's colour space only a lower bound is claimed. No step verdict is given: a camera cannot certify one.
 *
 * @source our own choice; |Duv| <= 0.05 for a colour temperature: CIE 15
 * @rule CF5
 */
export function colourWords({ cctK, duv, isTooUnsure, outOfGamut }: ColourWordsInput): string {
  if (outOfGamut) return "at least this saturated: the glow lies outside the photo's colour space";
  if (cctK === null && isTooUnsure) return 'the plus-minus of the colour is too wide to say how warm it is';
  if (cctK === null) return 'strongly coloured glow, without a colour temperature';
  return `${warmthWords(cctK)}: a glow of about ${roundedCct(cctK)} K${tintWords(duv)}`;
}
