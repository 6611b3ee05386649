/** `evendial help shade`. */
export const shadeHelp = `evendial shade --reading READINGS.json[#NAME] --gap MM --out FILE.pdf|FILE.svg [options]

A shade to be printed on film and mounted behind the scale, that lets less light through where there
is too much. Needs the maps of the reading: measure with --maps DIR --json.

  --reading FILE#NAME the reading; #NAME may be left out when the file holds one
  --gap 1.5           between shade and scale in mm, 0 to 20: the gap blurs the shade; without it
                      there is no forecast, only the shape
  --target p20        the light to be left, as a percentile of the glow
  --style STYLE       halftone (default; needs a gap of 0.8 mm or more) or contours: lines for a
                      grey pen, one layer more inside each
  --mirror            the window as seen from behind, for ink on that side
  --out FILE          the page, true to size: .pdf or .svg; beside it FILE.transmission.csv
  --json              one JSON document on standard output

The score with the shade is the worst that a gap 30 per cent smaller or larger, or a shade 1 mm
aside, would give. A shade only takes light away: move, turn or diffuse the lamps first.

Exit: 0 done; 2 wrong usage or file; 5 refused, with the reason.

  evendial measure dial.jpg --size 92x18 --maps maps --json > readings.json
  evendial shade --reading readings.json --gap 1.5 --out shade.pdf
`;
