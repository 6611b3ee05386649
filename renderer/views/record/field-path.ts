/** A step into a record: a key, or an item of a list by its name. */
export type PathStep = string | { readonly item: string };
export type FieldPath = readonly PathStep[];

const item = (name: string): PathStep => ({ item: name });

export const ofTrial = (trial: string): FieldPath => ['trials', item(trial)];
export const ofLamp = (trial: string, lamp: string): FieldPath => [...ofTrial(trial), 'lamps', item(lamp)];
export const ofString = (trial: string, string: string): FieldPath => [...ofTrial(trial), 'strings', item(string)];
export const ofWindow = (window: string): FieldPath => ['windows', item(window)];
export const ofPart = (part: string): FieldPath => ['parts', item(part)];

/** As `unit set` writes it: `trials["Bare, 8 mm"].lamps["left"].currentMa`. */
export function pathText(path: FieldPath): string {
  return path.reduce<string>((text, step) => {
    if (typeof step !== 'string') return `${text}[${JSON.stringify(step.item)}]`;
    return text === '' ? step : `${text}.${step}`;
  }, '');
}

/** What stands there in a record; undefined: nothing. */
export function valueAt(record: unknown, path: FieldPath): unknown {
  return path.reduce<unknown>((value, step) => {
    if (typeof value !== 'object' || value === null) return undefined;
    if (typeof step === 'string') return (value as Readonly<Record<string, unknown>>)[step];
    if (!Array.isArray(value)) return undefined;
    return (value as readonly { readonly name?: unknown }[]).find(({ name }) => name === step.item);
  }, record);
}

/** A value as it stands in a field, and as `unit set` reads it. */
export function textOfValue(value: unknown): string {
  if (value === undefined || value === null) return '';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'string') return value;
  if (typeof value === 'number') return String(value);
  return JSON.stringify(value);
}
