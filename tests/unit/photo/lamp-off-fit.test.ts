import { describe, expect, it } from 'vitest';
import { isDarkRoom, lampOffSettingsMismatch } from '../../../core/photo/lamp-off-fit';

const exposure = { exposureS: 1 / 30, fNumber: 4, iso: 400 };
const lit = { exposure, focalLengthMm: 50 };

describe('lampOffSettingsMismatch', () => {
  it.each([
    [lit, null],
    [{ exposure }, null],
    [{ ...lit, exposure: { ...exposure, exposureS: 4 / 30 } }, null],
    [{ ...lit, exposure: { ...exposure, exposureS: 5 / 30 } }, /2\.3 EV apart/],
    [{ ...lit, exposure: { ...exposure, iso: 80 } }, /2\.3 EV apart/],
    [{ ...lit, exposure: { ...exposure, fNumber: 5.6 } }, /f-numbers differ/],
    [{ ...lit, focalLengthMm: 35 }, /focal lengths differ/],
    [{ ...lit, exposure: null }, /lamp-off photo is not known/],
  ])('[LU10] %j: %s', (off, reason) => {
    const mismatch = lampOffSettingsMismatch(lit, off);
    if (reason === null) expect(mismatch).toBeNull();
    else expect(mismatch).toMatch(reason);
  });

  it('[LU10] says when it is the lit photo whose exposure is missing', () => {
    expect(lampOffSettingsMismatch({ exposure: null }, lit)).toMatch(/lit photo is not known/);
  });
});

describe('isDarkRoom', () => {
  it('[LU10] is under 1 % of the lit median; a lit photo without light proves nothing', () => {
    expect(isDarkRoom(0.5, 0)).toBe(true);
    expect(isDarkRoom(0.5, 0.0049)).toBe(true);
    expect(isDarkRoom(0.5, 0.005)).toBe(false);
    expect(isDarkRoom(0, 0)).toBe(false);
  });
});
