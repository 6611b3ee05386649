import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** Splits one line of a CSV file: commas part fields, double quotes hold a field together, `""` inside quotes is one quote. */
export function fieldsOfCsvLine(line: string): string[] {
  const fields: string[] = [];
  let field = '';
  let quoted = false;
  for (let i = 0; i < line.length; i++) {
    const sign = line[i];
    if (quoted && sign === '"' && line[i + 1] === '"') {
      field += '"';
      i++;
    } else if (sign === '"') quoted = !quoted;
    else if (sign === ',' && !quoted) {
      fields.push(field);
      field = '';
    } else field += sign;
  }
  if (quoted) throw new Error(`unclosed quote in the line: ${line}`);
  return [...fields, field];
}

/**
 * Rows of a CSV text as name -> text; the first line names the columns. A row of another length stops the test.
 * Lines that start with "# " are comments; a bare "#" may open a value (colour codes).
 */
export function rowsOfCsv(text: string): Record<string, string>[] {
  const [head, ...lines] = text
    .replace(/^\uFEFF/, '')
    .split(/\r?\n/)
    .filter((line) => line.trim() !== '' && !line.startsWith('# '));
  const names = fieldsOfCsvLine(head);
  return lines.map((line) => {
    const fields = fieldsOfCsvLine(line);
    if (fields.length !== names.length) throw new Error(`${fields.length} fields for ${names.length} columns: ${line}`);
    return Object.fromEntries(names.map((name, i) => [name, fields[i]]));
  });
}

/** A table of `tests/published/data/`, by its file name. */
export function readPublished(name: string): Record<string, string>[] {
  return rowsOfCsv(readFileSync(fileURLToPath(new URL(`../published/data/${name}`, import.meta.url)), 'utf8'));
}
