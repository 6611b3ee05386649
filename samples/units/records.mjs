// What is told of the sample units: invented, plausible, every group of the record used.

const lampsOf = (names, facts) =>
  Object.fromEntries(
    names.flatMap((name) => Object.entries(facts).map(([key, value]) => [`lamps["${name}"].${key}`, value])),
  );

const bareLed = { type: 'LED 3 mm, clear', bodyMm: 3, flangeMm: 3.8, viewingAngleDeg: 30, lensTreatment: 'none' };
const flatLed = { type: 'LED 5 mm, flat top', bodyMm: 4.8, flangeMm: 5.8, viewingAngleDeg: 110 };
const warm = ['warm-white 1', 'warm-white 2'];
const string = (lamps, ohm, milliamperes) => ({
  'strings["both"].lamps': lamps.join(', '),
  'strings["both"].resistorOhm': ohm,
  'strings["both"].resistorRatedW': 0.25,
  'strings["both"].measuredMa': milliamperes,
});

const before = {
  'before.lamp.base': 'wire leads',
  'before.lamp.size': '4 x 11 mm',
  'before.lamp.ratedV': 8,
  'before.lamp.ratedMa': 100,
  'before.lamp.countOnSupply': 2,
  'before.supply.kind': 'AC',
  'before.supply.hz': 50,
  'before.supply.voltsWithLamp': 6.1,
  'before.supply.voltsWithoutLamp': 7.4,
  'before.supply.wiring': 'parallel',
  'before.supply.dropper': 'none',
  'before.supply.dimmer': 'none',
  'before.supply.chassis': 'one side lies on the chassis',
};

export const tuner = {
  archive: 'larkfield-t60.evendial',
  name: 'Larkfield T-60',
  series: 't60.series.json',
  fields: {
    maker: 'Larkfield',
    model: 'T-60',
    serialNumber: 'T60-00417',
    owner: 'the owner of the sample',
    notes: 'Both lamps were black at the glass. The scale was cleaned from behind before the first photo.',
    ...before,
    'before.supply.alsoOnLine': 'the stereo lamp',
    'before.supply.senseTest': 'nothing stopped working with both lamps pulled',
    'before.light.boot': 'rubber boots',
    'before.light.bootColour': 'amber, bleached to straw',
    'before.light.bootState': 'hard; taken off for the LEDs and kept',
    'before.light.referenceLamp': 'new',
    'before.light.referenceVolts': 6.1,
    'before.light.path': 'behind',
    'before.light.boxWall': 'white paint, yellowed',
    'before.light.cleanedSinceReference': 'no',
    'before.light.glass': 'off',
    'before.notes': 'The reference was taken with new lamps at the voltage of the set.',
  },
  trials: {
    'Bare amber LEDs, 8 mm behind': {
      ...lampsOf(['narrow-amber 1', 'narrow-amber 2'], { ...bareLed, lot: 'A1', tipToScaleMm: 8, currentMa: 8 }),
      ...string(['narrow-amber 1', 'narrow-amber 2'], 680, 8.1),
      supplyVolts: 7.5,
      notes: 'The red print is black.',
    },
    'Bare warm-white LEDs, 8 mm behind': {
      ...lampsOf(warm, { ...bareLed, lot: 'W3', tipToScaleMm: 8, currentMa: 8 }),
      ...string(warm, 560, 7.9),
      supplyVolts: 7.5,
      notes: 'Two spots, seen from across the room.',
    },
    'Warm white behind tracing paper': {
      ...lampsOf(warm, { ...bareLed, lot: 'W3', tipToScaleMm: 10, currentMa: 10 }),
      ...string(warm, 470, 9.8),
      diffuser: 'one sheet of tracing paper, flame-retardant, on the back of the scale',
      supplyVolts: 7.5,
    },
    'Warm white with tape over the spots': {
      ...lampsOf(warm, { ...bareLed, lot: 'W3', tipToScaleMm: 8, currentMa: 10 }),
      ...string(warm, 470, 9.7),
      shade: 'two discs of matt tape, 9 mm, over the lamps',
      supplyVolts: 7.5,
    },
    'Warm white further back, turned inwards': {
      ...lampsOf(warm, { ...flatLed, lot: 'W7', tipToScaleMm: 19, currentMa: 10, lensTreatment: 'sanded, grit 400' }),
      ...string(warm, 470, 9.6),
      diffuser: 'none',
      shade: 'none',
      supplyVolts: 7.5,
      notes: 'On a bracket of 1 mm aluminium that takes the screws of the old lamp holders.',
    },
    'Cool white, 12 mm behind': {
      ...lampsOf(['cool-white 1', 'cool-white 2'], { ...bareLed, lot: 'C2', tipToScaleMm: 12, currentMa: 8 }),
      ...string(['cool-white 1', 'cool-white 2'], 560, 8.2),
      supplyVolts: 7.5,
    },
  },
  chosen: {
    trial: 'Warm white further back, turned inwards',
    why: 'no hot spot is left, and the red print is as red as it was',
  },
  after: {
    'parts["LED"].count': 2,
    'parts["LED"].type': 'warm white, 5 mm, flat top, 110 degrees',
    'parts["LED"].lot': 'W7',
    'parts["LED"].source': 'bought by the hundred',
    'parts["Resistor"].count': 1,
    'parts["Resistor"].type': '470 ohm, metal film, 0.25 W',
    'parts["Bridge and capacitor"].count': 1,
    'parts["Bridge and capacitor"].type': 'four diodes 1 A, 470 microfarad 25 V',
    'parts["Fuse"].count': 1,
    'parts["Fuse"].type': '315 mA, slow, in the lamp line',
    'after.supplyVolts': 7.6,
    'after.temperatureC': 31,
    'after.hum': 'none heard at full volume',
    'after.amNoise': 'none on any station; the capacitor was needed for that',
    'after.functionsRechecked': 'the stereo lamp lights as before',
    'after.reversible': 'yes',
    'after.howToGoBack':
      'Unscrew the bracket, put the lamp holders back on the same screws, join the two wires at the terminal strip. ' +
      'The old lamps, holders and boots are in a bag inside the lid.',
    'after.recheckOn': '2026-12-02',
    'after.notes': 'Lit for two hours with the cover on.',
  },
};

export const meter = {
  archive: 'larkfield-m4.evendial',
  name: 'Larkfield M-4',
  series: 'm4.series.json',
  fields: {
    maker: 'Larkfield',
    model: 'M-4',
    serialNumber: 'M4-00122',
    owner: 'the owner of the sample',
    ...before,
    'before.lamp.countOnSupply': 1,
    'before.supply.wiring': 'single',
    'before.supply.senseTest': 'the needle rests where it did',
    'before.light.referenceLamp': 'tired',
    'before.light.referenceVolts': 6.1,
    'before.light.path': 'edge-lit',
    'before.light.glass': 'on',
  },
  trials: {
    'Warm white at the left side': {
      ...lampsOf(['warm-white 1'], { ...bareLed, lot: 'W3', tipToScaleMm: 11, currentMa: 6 }),
      'strings["one"].lamps': 'warm-white 1',
      'strings["one"].resistorOhm': 820,
      'strings["one"].measuredMa': 5.9,
      supplyVolts: 7.5,
    },
    'Amber at the top': {
      ...lampsOf(['narrow-amber 1'], { ...bareLed, lot: 'A1', tipToScaleMm: 11, currentMa: 6 }),
      'strings["one"].lamps': 'narrow-amber 1',
      'strings["one"].resistorOhm': 910,
      'strings["one"].measuredMa': 6.1,
      supplyVolts: 7.5,
    },
  },
  chosen: { trial: 'Warm white at the left side', why: 'the red zone is still red; a lamp on the right is to follow' },
  after: {
    'parts["LED"].count': 1,
    'parts["LED"].lot': 'W3',
    'after.reversible': 'yes',
    'after.howToGoBack': 'The LED stands in the old lamp clip: pull it out and put a lamp in.',
  },
};
