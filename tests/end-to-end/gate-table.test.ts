import { describe, expect, it } from 'vitest';
import { type FigureGroup, type Gate, gateCodes, type GateLevel } from '../../core/contract/gates';
import type { Reading } from '../../core/contract/readings';
import { type GatePhoto, readGatePhoto } from '../support/gate-photo';
import { gateRows, notByOnePhoto, plain } from '../support/gate-rows';
import { isLongRun } from '../support/long-run';

const slowMs = 60_000;

/** One photo for each gate; its other levels and causes in the long run, for which each run of the tests has no time. */
const rows = gateRows.filter(({ code }, i) => isLongRun || gateRows.findIndex((row) => row.code === code) === i);

const readings = new Map<GatePhoto, Promise<Reading>>();
function read(photo: GatePhoto): Promise<Reading> {
  const reading = readings.get(photo) ?? readGatePhoto(photo);
  readings.set(photo, reading);
  return reading;
}

const severity = (level: GateLevel): number => ['note', 'warn', 'refuse'].indexOf(level);
/** A message as it stands in a reason. */
const clause = (message: string): string => message.replace(/\.$/, '').toLowerCase();
const told = ({ code, level }: Gate): string => `${level} ${code}`;

/** Why the figures of a group are not given; null when they are. */
const reasonOf: Record<FigureGroup, (reading: Reading) => string | null> = {
  evenness: ({ evenness }) => evenness.score.reason ?? null,
  spots: ({ spotsReason }) => spotsReason ?? null,
  luminance: ({ luminance }) => luminance.glowMean.reason ?? null,
  colour: ({ colour }) => colour.uPrime.reason ?? null,
  redPrint: ({ redPrint }) => redPrint.redness.reason ?? null,
};

describe('[GT7, GT8] every gate on a photo', () => {
  it('has a row, or a reason why one photo cannot raise it', () => {
    const shown = new Set(rows.map(({ code }) => code));
    expect(gateCodes.filter((code) => !shown.has(code) && notByOnePhoto[code] === undefined)).toEqual([]);
    expect(gateCodes.filter((code) => shown.has(code) && notByOnePhoto[code] !== undefined)).toEqual([]);
  });

  it(
    'the photo that all others are changes of raises none of its own',
    async () => {
      const { gates } = await read(plain);
      expect(gates.map(told)).toEqual(['warn ROOM_UNKNOWN', 'note PRINT_MASK_SINGLE_PHOTO']);
    },
    slowMs,
  );

  it.each(rows)(
    '$level $code: $shown',
    async ({ code, level, photo, near }) => {
      const reading = await read(photo);
      const raised = reading.gates.filter((gate) => gate.code === code && gate.level === level);
      expect(raised.map(told), reading.gates.map(told).join(', ')).toEqual([`${level} ${code}`]);
      const [{ message, remedy, affects }] = raised;
      expect(message).toMatch(/^[A-Z\d].{20,}\.$/);
      expect(remedy).toMatch(/^[A-Z].{15,}\.$/);
      if (level === 'refuse') {
        const refusals = reading.gates.filter((gate) => gate.level === 'refuse').map((gate) => clause(gate.message));
        // Of lit figures no red print is judged anyway.
        const groups = affects.filter((group) => group !== 'redPrint' || reading.outline.print !== 'light');
        for (const group of groups) expect(refusals).toContain(clause(reasonOf[group](reading) ?? 'given'));
      }
      const beside = (await read(near)).gates.filter((gate) => gate.code === code);
      expect(beside.filter((gate) => severity(gate.level) >= severity(level)).map(told)).toEqual([]);
    },
    slowMs,
  );

  it(
    'different causes have different remedies',
    async () => {
      const codesOf = new Map<string, Set<string>>();
      for (const { photo } of rows) {
        for (const { remedy, code } of (await read(photo)).gates) {
          codesOf.set(remedy, (codesOf.get(remedy) ?? new Set()).add(code));
        }
      }
      expect([...codesOf].filter(([, codes]) => codes.size > 1)).toEqual([]);
    },
    slowMs,
  );
});
