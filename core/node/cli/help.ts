import { csvHeader } from './csv';
import { wrapText } from './wrap';

const overview = `Evendial measures photos of lit scale windows in vintage audio equipment: how even the glow is,
how well the red print shows, and how far the colour is from the filament lamp.

  evendial measure PHOTO...        measure photos, with --corners
  evendial measure --series FILE   measure the trials that a series file describes
  evendial demo                    measure the samples; tables, maps and pictures go into out/
  evendial help COMMAND            the options of a command; also: help series, help csv
  evendial --version

Figures are estimates from a camera, not from a calibrated photometer. Nothing leaves this machine.
`;

const measure = `evendial measure PHOTO... --corners "x,y x,y x,y x,y" [options]
evendial measure --series FILE [--room R] [--viewing-distance MM] [options of output]

  --corners "x,y x,y x,y x,y"
                      top-left, top-right, bottom-right, bottom-left of the window as one reads it,
                      in pixels of the upright photo; for every photo named
  --size 92x18        width x height of the window in mm; left out: 60 mm wide is assumed
  --outline KIND      rectangle (default) or ellipse, inside the corners
  --print KIND        dark print on a glowing ground, light (glowing print on a dark ground), none, auto
  --light KIND        filament, warm-white, cool-white, phosphor-amber, narrow-amber, red+green,
                      red+yellow-green, red, unknown (default: the widest plus-minus)
  --room KIND         dark, lit or unknown (default): whether other light fell on the window;
                      unless it is dark there is no red-print figure
  --encoding KIND     how code values relate to light: srgb, linear, profile (default)
  --exposure "1/30 f/4 iso400"
                      any part of it, where the photo does not say
  --viewing-distance 500
                      mm, 100 to 5000

Output:
  --maps DIR          maps (CSV) and pictures (PNG) of every reading
  --json              one JSON document on standard output; paths of maps are relative to the folder
                      that the command was called from
  --csv               one row a reading on standard output (evendial help csv)
  --strict            exit 5 when a photo check refuses a figure

Exit: 0 done; 1 a defect of ours; 2 wrong usage or series file; 3 a photo is missing or cannot be read;
4 impossible corners; 5 a refusal with --strict; 130 cancelled. The highest counts, 1 above all.

  evendial measure dial.jpg --corners "412,310 2630,322 2624,760 405,741" --size 92x18 --room dark
  evendial measure --series samples/t60.series.json --maps maps
`;

const series = `A series file (JSON) describes windows and trials. Paths are relative to its folder; unknown keys are
refused, with their place.

{ "format": "evendial-series", "version": 1, "room": "dark", "viewingDistanceMm": 500,
  "windows": [
    { "name": "scale", "widthMm": 92, "heightMm": 18,        each 2 to 1000 mm
      "outline": { "kind": "rectangle" },                    or "ellipse" (with "cutMm": points), "polygon" ("pointsMm")
      "print": "dark",                                       dark, light, none, auto
      "leaveOut": [ { "pointsMm": [[1,1],[5,1],[5,4]] } ],   never counts as glow
      "painted": { "red": [], "dark": [] } } ],              print that the search misses, as leaveOut
  "reference": { "photos": ["filament.jpg"], "light": "filament",
                 "corners": { "scale": [[0,0],[9,0],[9,4],[0,4]] } },
                                                             or another window of one photo: "window": "right"
  "trials": [
    { "name": "LEDs 8 mm behind", "light": "warm-white",
      "photos": [ { "file": "a.tif", "exposureS": 0.1, "fNumber": 4, "iso": 100, "encoding": "linear" } ],
      "corners": { "scale": [[0,0],[9,0],[9,4],[0,4]] },     an entry for every window that the photo shows
      "lamps": [ { "name": "left", "positionMm": [23,9,8], "tiltDeg": [0,0], "currentMa": 10, "on": true } ] } ] }

Not built yet: several photos a trial (brackets), lampOff, flatField, printPhoto, witness, and
leaving corners out.
`;

const demo = `evendial demo

Measures the samples that come with the program and writes readings (JSON, CSV, text), maps and
pictures into out/ in the folder it is called from; out/index.html shows them together.
The samples are invented and rendered.
`;

const csv = `The columns of --csv, in this order; new ones go to the end. Every figure has its plus-minus (k = 2)
beside it; an empty field is a figure that cannot be given (the table and --json say why). Ratios are
0..1, redPrintIndex is per cent, toReferenceUv and the other distances are in u'v' of CIE 1976.
A photo that cannot be measured has its code in "error".

${wrapText(csvHeader.join(', '), 96)
  .map((line) => `  ${line}`)
  .join('\n')}
`;

const topics: Readonly<Record<string, string>> = { measure, series, csv, demo };

/** The topics that have a page of their own. */
export const helpTopics: readonly string[] = Object.keys(topics);

/** The help page of a topic, the overview without one, or null for an unknown topic. */
export function helpText(topic: string | undefined): string | null {
  if (topic === undefined) return overview;
  return Object.hasOwn(topics, topic) ? topics[topic] : null;
}
