import { csvHeader } from './csv';
import { lampsHelp } from './lamps-help';
import { mixHelp } from './mix-help';
import { nextHelp } from './next';
import { placeHelp } from './place-help';
import { shadeHelp } from './shade-help';
import { unitHelp } from './unit/unit-help';
import { wrapText } from './wrap';

const overview = `Evendial measures photos of lit scale windows in vintage audio equipment: how even the glow is,
how well the red print shows, and how far the colour is from the filament lamp.

  evendial find PHOTO...           find the lit windows of photos
  evendial measure PHOTO...        measure photos; the window is found, or given with --corners
  evendial measure --series FILE   measure the trials that a series file describes
  evendial compare --series FILE   which trial is better, and what cannot be told apart
  evendial mix                     currents and resistors of a mix of two or three LEDs
  evendial lamps                   what kinds of lamps would do to red print and tint
  evendial shade                   a printable shade that makes the glow even
  evendial next                    what to change next, from one reading
  evendial place                   what moving, turning or dimming a lamp would do
  evendial unit COMMAND            the book: units, their photos, trials and revisions
  evendial demo                    measure the samples; tables, maps and pictures go into out/
  evendial start                   the bench in a window, or in a browser where no window opens
  evendial serve                   the bench in a browser on this machine
  evendial help COMMAND            the options of a command; also: help series, help csv
  evendial --version

Figures are estimates from a camera, not from a calibrated photometer. Nothing leaves this machine.
`;

const measure = `evendial measure PHOTO... [--corners "x,y x,y x,y x,y"] [options]
evendial measure --series FILE [--room R] [--viewing-distance MM] [options of output]

  --corners "x,y x,y x,y x,y"
                      top-left, top-right, bottom-right, bottom-left of the window as one reads it,
                      in pixels of the upright photo; for every photo named; left out: the surest
                      lit window that the search finds
  --rim "x,y x,y x,y x,y x,y"
                      instead of corners, for a round face: 5 or more points on its rim, in any
                      order; implies --outline ellipse; the face is taken to stand upright
  --size 92x18        width x height of the window in mm; left out: 60 mm wide is assumed
  --outline KIND      rectangle (default) or ellipse, inside the corners
  --print KIND        dark print on a glowing ground, light (lit figures on a dark dial), none, auto
  --light KIND        filament, warm-white, cool-white, phosphor-amber, narrow-amber, red+green,
                      red+yellow-green, red, unknown (default: the widest plus-minus)
  --room KIND         dark, lit or unknown (default): whether other light fell on the window;
                      unless it is dark there is no red-print figure
  --lamp-off FILE     the same view with the lamps off, same settings, same room light: subtracted
  --flat-field FILE   an evenly lit white sheet, same focal length, aperture and focus: the lens's
                      dark corners are made good
  --encoding KIND     how code values relate to light: srgb, linear, profile (default)
  --print-photo FILE  the same window by room light, from the same place: only where its print is;
                      a shadow of the lamp's holder is then not taken for print
  --print-photo-corners "x,y x,y x,y x,y"
                      of the window in that photo; left out: the search looks for it, which finds
                      lit windows only
  --reference FILE    the same window with its filament lamp: evenness, light, colour and red print
                      are then told beside it, and its red print is looked for in every photo
  --reference-corners "x,y x,y x,y x,y"
                      of the window in that photo; left out: the search looks for it
  --exposure "1/30 f/4 iso400"
                      any part of it, where the photo does not say
  --bracket           all photos are one exposure series of one scene: from a tripod, three to five
                      photos, 1 to 2 EV apart by the exposure time alone; merged into one reading,
                      with the camera's tone curve recovered from them
  --save-response FILE
                      with --bracket: the tone curve, for later photos of this camera
  --response FILE     read photos by a tone curve that was saved; used where camera, ISO, picture
                      style and colour space agree
  --viewing-distance 500
                      mm, 100 to 5000

Output:
  --maps DIR          maps (CSV) and pictures (PNG) of every reading
  --json              one JSON document on standard output; paths of maps are relative to the folder
                      that the command was called from
  --csv               one row a reading on standard output (evendial help csv)
  --strict            exit 5 when a photo check refuses a figure

Exit: 0 done; 1 a defect of ours; 2 wrong usage or series file; 3 a photo is missing or cannot be
read; 4 impossible corners or no window found; 5 a refusal with --strict; 130 cancelled. The highest
counts, 1 above all.

  evendial measure dial.jpg --corners "412,310 2630,322 2624,760 405,741" --size 92x18 --room dark
  evendial measure --series samples/t60.series.json --maps maps
`;

const compare = `evendial compare --series FILE | --unit UNIT [--book DIR] [--json] [--maps DIR] [--strict]

Measures reference and trials of a series file, or of a unit of the book, and compares every two
trials of each window: by evenness, by red print (nearest to the filament first), by colour distance
to the filament. Trials whose difference is within its plus-minus stand together: they cannot be
told apart, and a line says what would help. Photos taken alike (camera, exposure, white balance,
framing) share most of their error, so that their differences are surer than each figure alone.

Lamps that the trials describe ("lamps", evendial help series) give a table for each lamp and
coordinate in which alone trials differ. Windows of one photo are matched: how much dimmer, how far
in colour; one that is dark shows how much light leaks into it.

  --unit UNIT         of the book that --book names (evendial help unit); nothing is kept
  --json              readings, ranking, pairs and match as one JSON document
  --maps DIR          the maps of measure --maps, and of every two readings of one window where one
                      has more of its light: NAME-minus-NAME.difference.png and .csv
  --strict            exit 5 when a photo check refuses a figure

Photos that are missing are named together; the others are compared. Exit codes as for measure.
`;

const find = `evendial find PHOTO... [--json]

Finds the lit windows of photos, the surest first: outline, confidence (0 to 1; under 0.5 it may be
something else), and the corners as --corners of measure takes them. A window that is cut by the
edge of the photo is not found.

Exit: 0 done; 2 wrong usage; 3 a photo is missing or cannot be read; 4 no window found; 130
cancelled.
`;

/** A series file to begin with: valid as it stands. */
export const seriesExample = `{
  "format": "evendial-series",
  "version": 1,
  "room": "dark",
  "viewingDistanceMm": 500,
  "windows": [
    { "name": "scale", "widthMm": 92, "heightMm": 18, "print": "dark" },
    { "name": "meter", "widthMm": 38, "heightMm": 38, "print": "dark",
      "outline": { "kind": "ellipse", "cutMm": [[0, 0], [38, 0], [38, 26.5], [0, 26.5]] } }
  ],
  "reference": {
    "photos": ["filament.jpg"],
    "light": "filament",
    "corners": {
      "scale": [[612, 540], [2950, 548], [2946, 1004], [608, 996]],
      "meter": [[3110, 420], [3970, 424], [3966, 1284], [3106, 1280]]
    }
  },
  "trials": [
    {
      "name": "LEDs 8 mm behind",
      "photos": ["try1.jpg"],
      "light": "warm-white",
      "corners": { "scale": [[610, 541], [2949, 550], [2944, 1006], [607, 997]] }
    },
    {
      "name": "LEDs 14 mm behind, turned inwards",
      "photos": [
        { "file": "try2.tif", "encoding": "linear", "exposureS": 0.1, "fNumber": 4, "iso": 100 }
      ],
      "light": "warm-white",
      "corners": { "scale": [[611, 539], [2951, 547], [2947, 1003], [609, 995]] }
    }
  ]
}
`;

const series = `A series file (JSON) describes windows and trials. This one can be copied as it is:

${seriesExample}
What it means:
  paths        relative to the series file's folder
  windows      width and height in mm, each 2 to 1000
    outline    "rectangle" (when left out); "ellipse", for which widthMm x heightMm is the box
               around it and "cutMm" the polygon that is left when a part of it is covered;
               "polygon" with "pointsMm"; all in mm from the top left of the window
    print      dark, light (lit figures on a dark dial), none, auto
    leaveOut   [{ "pointsMm": [[1, 1], [5, 1], [5, 4]] }]: no glow, as a screw
    painted    { "red": [], "dark": [] }: print that the search misses, written as leaveOut
  photos       one photo; three or more are one exposure series, merged into one reading
  response     a file of --save-response, beside "windows": read by the camera's own tone curve
  reference    the filament lamps, before you pulled them; may be left out; "window": "meter" takes
               another window of one photo as the reference
  corners      top-left, top-right, bottom-right, bottom-left, in pixels; an entry for every window
               that the photo shows; left out: where the print of the first photo is found again
  printPhoto   a photo by room light: only the place of the print is taken from it; of a trial or
               of the reference
  light        filament, warm-white, cool-white, phosphor-amber, narrow-amber, red+green,
               red+yellow-green, red, unknown
  encoding     linear for files developed linearly from raw, srgb, profile (when left out)
  lampOff      a photo with the lamps off, same settings, same room light: subtracted; in a trial
               or the reference, written as one of "photos"
  flatField    a photo of an evenly lit white sheet, same focal length, aperture and focus
  witness      { "photoPolygonPx": [[10, 10], [90, 10], [90, 80]] }: a patch that did not change
               between photos (steadily lit paper); for compare, where exposures are not known
  lamps        [{ "name": "left", "positionMm": [23, 9, 8], "tiltDeg": [0, 0], "currentMa": 10,
               "on": true }], in a trial: what evendial compare makes tables of

Unknown keys are refused, with their place.
`;

const demo = `evendial demo

Measures the samples that come with the program and writes readings (JSON, CSV, text), maps and
pictures into out/ in the folder it is called from; out/index.html shows them together.
The samples are invented and rendered.
`;

const serve = `evendial serve [--port N] [--book DIR] [--watch DIR]

Opens the bench for a browser on this machine and prints its address, to be opened whole: what
stands behind the # lets only you in. Nobody else on the network reaches it. Photos that are
dropped on the page are kept in a temporary folder until the bench is ended with Ctrl-C.

  --port N            0 to 65535; left out or 0: any free one
  --book DIR          the folder of the book; left out: evendial/book in your data folder
  --watch DIR         new photos in it (of a camera, or a phone's synchronisation) are laid on the
                      bench and measured as they arrive; what lies there already is left alone,
                      folders in it are not looked into, and nothing in it is changed

Exit: 0 ended with Ctrl-C; 2 wrong usage, the port is taken, or the folder cannot be watched.
`;

const start = `evendial start [--book DIR] [--watch DIR]

Opens the bench in a window of its own. Where that cannot be (no runtime for the window, or no
display), it says why and serves the bench to a browser, as evendial serve does.

  --book DIR          the folder of the book; left out: evendial/book in your data folder
  --watch DIR         as with evendial serve

Exit: 0 the window was closed, or the bench was ended with Ctrl-C; 2 wrong usage.
`;

const csv = `The columns of --csv, in this order; new ones go to the end. Every figure has its plus-minus (k = 2)
beside it; an empty field is a figure that cannot be given (the table and --json say why). Ratios
are 0..1, redPrintIndex is per cent, toReferenceUv and the other distances are in u'v' of CIE 1976.
A photo that cannot be measured has its code in "error". Words and spots of a refused figure are
empty; scoreReason, redPrintReason, colourReason and spotsReason say why.

${wrapText(csvHeader.join(', '), 96)
  .map((line) => `  ${line}`)
  .join('\n')}
`;

const topics: Readonly<Record<string, string>> = {
  measure,
  compare,
  find,
  series,
  csv,
  mix: mixHelp,
  shade: shadeHelp,
  next: nextHelp,
  place: placeHelp,
  lamps: lampsHelp,
  demo,
  start,
  serve,
  unit: unitHelp,
};

/** The topics that have a page of their own. */
export const helpTopics: readonly string[] = Object.keys(topics);

/** The help page of a topic, the overview without one, or null for an unknown topic. */
export function helpText(topic: string | undefined): string | null {
  if (topic === undefined) return overview;
  return Object.hasOwn(topics, topic) ? topics[topic] : null;
}
