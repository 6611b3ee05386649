import { expect, test } from 'vitest';
import { fieldsOfCsvLine, rowsOfCsv } from '../../support/csv';

test('a field in quotes keeps its commas and doubled quotes', () => {
  expect(fieldsOfCsvLine('7,"a, ""b""",,9')).toEqual(['7', 'a, "b"', '', '9']);
});

test('rows are named by the first line; comment and empty lines are left out', () => {
  expect(rowsOfCsv('# source: none\nx,y\r\n1,2\n\n#3,\n')).toEqual([
    { x: '1', y: '2' },
    { x: '#3', y: '' },
  ]);
});

test('a row of another length and an open quote stop the test', () => {
  expect(() => rowsOfCsv('x,y\n1\n')).toThrow('1 fields for 2 columns');
  expect(() => rowsOfCsv('x,y\n"1,2\n')).toThrow('unclosed quote');
});
