// culori ships no types; these are the few functions that the tests compare with.
declare module 'culori' {
  interface CuloriColour {
    readonly mode: string;
    readonly [channel: string]: number | string | undefined;
  }
  export function converter(mode: string): (colour: CuloriColour) => Record<string, number>;
  export function differenceCiede2000(): (a: CuloriColour, b: CuloriColour) => number;
}
