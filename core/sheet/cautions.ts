import type { SheetSection } from './sheet-content';

/** Shown on every sheet, whatever is recorded. @source our own words for common practice in electrical safety @rule RS9 */
export const cautions: SheetSection = {
  title: 'Cautions',
  blocks: [
    {
      kind: 'list',
      items: [
        'Mains-powered equipment can kill. Unplug it, let capacitors discharge, and leave work on the mains side to a qualified person under local rules.',
        'Before wiring, measure the lamp supply: AC or DC, and its volts with the lamp in and with it out.',
        'Find out whether the circuit uses the lamp as a signal (pull it: what stops working?), whether lamps are in series, and whether one side lies on the chassis.',
        'Fuse, insulate and strain-relieve; respect the ratings of resistors and LEDs.',
        'Keep LEDs and diffusers away from hot parts; use flame-retardant materials.',
        'Do not stare into bright LEDs.',
      ].map((text) => ({ mark: 'plain' as const, text })),
    },
  ],
};

/** What the figures are, and what they are not. @rule RS9 */
export const limits: readonly string[] = [
  'Figures are estimates from a camera, not from a calibrated photometer. A plus-minus (±, k = 2) holds the true value in nine of ten cases or more, if the checks of the photo have nothing against it.',
  'Evenness counts what an eye at the stated distance sees, print left out: 100 is even, 95 and more even to a careful eye, under 65 a hot spot is seen at once.',
  'Red print compares how redness stands out from the glow with the filament’s photo, which is 100 %. Colour distance is that of the mean glow to the filament’s in u′v′ of CIE 1976; 0.001 is about the least that an eye tells apart side by side.',
  'A camera sees colour otherwise than an eye does, most of all under lamps of few wavelengths: small colour distances are not proof of a match.',
];
