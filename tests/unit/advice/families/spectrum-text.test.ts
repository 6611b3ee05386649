import { describe, expect, it } from 'vitest';
import { spectrumFromText } from '../../../../core/advice/families/spectrum-text';

describe('spectrumFromText', () => {
  it('[LF4] reads nm,value lines: heading, comments, byte-order mark and other line ends do no harm', () => {
    const spectrum = spectrumFromText('\uFEFFnm,power\r\n# measured\r\n580,1\r\n\r\n590, 3\r\n600,0.5\r\n', 'lamp.csv');
    expect([570, 580, 585, 590, 600, 601].map(spectrum)).toEqual([0, 1, 2, 3, 0.5, 0]);
  });

  it.each([
    ['580,1\n590,x\n', /lamp\.csv, line 2: the value is "x"/],
    ['580,1\n590,-2\n', /line 2: the value is "-2"/],
    ['580,1\nabc,2\n', /line 2: the wavelength is "abc"/],
    ['nm,power\n580,1\n570,2\n', /line 3: 570 nm after 580 nm: they must rise/],
    ['580,1\n620,2\n', /line 2: 620 nm after 580 nm: more than 20 nm apart/],
    ['580,1,2\n', /line 1: 3 fields, not 2/],
    ['580,1\n', /only 1 wavelengths/],
    ['', /only 0 wavelengths/],
    ['800,1\n810,2\n', /no light between 400 and 700 nm/],
    ['0.58,1\n0.59,2\n', /line 1: the wavelength is "0.58"/],
  ])('[LF4] refuses %j with its line', (text, message) => {
    expect(() => spectrumFromText(text, 'lamp.csv')).toThrow(message);
  });
});
