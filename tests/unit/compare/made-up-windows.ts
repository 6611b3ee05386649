import type { ShownWindow } from '../../../core/compare/find-matches';
import { figure, type Figure } from '../../../core/contract/figure';
import type { ComparableFacts, UncertaintyBasis } from '../../../core/contract/comparable';
import type { Gate } from '../../../core/contract/gates';
import type { LightKind } from '../../../core/contract/light';
import type { CameraFacts } from '../../../core/contract/readings';
import { madeUpBasis, madeUpFacts, madeUpReading } from '../cli/made-up';

/** What a test says of a window; the rest is as it is in a good photo. */
export interface MadeUp {
  readonly name: string;
  readonly window?: string;
  readonly role?: 'trial' | 'reference';
  readonly photo?: string;
  readonly camera?: Partial<CameraFacts>;
  readonly light?: LightKind;
  readonly basis?: Partial<UncertaintyBasis>;
  readonly score?: Figure;
  readonly index?: Figure;
  readonly toReference?: Figure;
  readonly glowMean?: Figure;
  readonly uv?: readonly [number, number];
  readonly leftPx?: number;
  readonly witnessY?: number;
  readonly level?: number;
  readonly curveShift?: ComparableFacts['curveShift'];
  readonly gates?: readonly Gate[];
}

const camera: CameraFacts = {
  make: 'Example',
  model: 'One',
  exposureS: 0.1,
  fNumber: 4,
  iso: 100,
  whiteBalance: 'manual',
};

/** A measured window with numbers of our own. */
export function madeUpShown(given: MadeUp): ShownWindow {
  const { name, window = 'scale', role = 'trial', leftPx = 900 } = given;
  const plain = madeUpReading({ name, window });
  const [uPrime, vPrime] = given.uv ?? [0.262, 0.5211];
  const own = { ...camera, ...given.camera };
  const photo = { ...plain.photos[0], sha256: given.photo ?? name, camera: own };
  const cornersPx = [[0, 1200], [800, 1210], [805, 1500], [3, 1490]].map(([x, y]) => [x + leftPx, y] as const); // prettier-ignore
  const reading = {
    ...plain,
    photos: [photo],
    gates: given.gates ?? plain.gates,
    outline: { ...plain.outline, cornersPx },
    evenness: { ...plain.evenness, score: given.score ?? figure(71.2, 3.1) },
    redPrint: { ...plain.redPrint, index: given.index ?? figure(78.3, 12.5) },
    colour: {
      ...plain.colour,
      uPrime: figure(uPrime, 0.0094),
      vPrime: figure(vPrime, 0.0094),
      toReferenceUv: given.toReference ?? figure(0.0152, 0.012),
    },
    luminance: { ...plain.luminance, glowMean: given.glowMean ?? figure(0.31, 0.02) },
  };
  const light = given.light ?? madeUpBasis.light;
  const witness =
    given.witnessY === undefined ? null : { xyz: [0.4, given.witnessY, 0.2] as const, relUncertainty: 0.004 };
  return {
    role,
    reading,
    facts: {
      ...madeUpFacts,
      camera: own,
      level: given.level ?? madeUpFacts.level,
      curveShift: given.curveShift ?? madeUpFacts.curveShift,
      basis: { ...madeUpBasis, light, ...given.basis },
    },
    witness,
  };
}
