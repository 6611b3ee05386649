/** `evendial help place`. */
export const placeHelp = `evendial place --reading READINGS.json[#NAME] --move "dx,dy,dz" [--tilt "tx,ty"] | --search LIMITS
evendial place --single-lamp READINGS.json#A --single-lamp READINGS.json#B [--ratio 1:0.8]

What moving, turning or dimming a lamp would do to the evenness, before anything is moved. Readings
need their maps: measure with --maps DIR --json.

  --single-lamp FILE#NAME
                      a reading of one lamp lit alone, once for each lamp, all photos at a known
                      exposure: their light is added; no model of a lamp, so the surest way
  --ratio 1:0.8       currents over those of the photos; left out: the best are looked for
  --lamp 1            which lamp is moved, numbered from the left: 1 (default) or 2; or all, the
                      same way
  --move "dx,dy,dz"   by so many mm: right, down, away from you
  --tilt "tx,ty"      turned by so many degrees: to the right, downwards
  --search "x0,x1,y0,y1,z0,z1"
                      the best place within these limits, mm of the window, z behind the scale:
                      leave room for the lamp's body
  --maps DIR          the light as forecast: NAME.predicted-luminance.csv
  --json              one JSON document on standard output

Without single-lamp readings one or two lamps are fitted to the light. Refused where the light does
not tell where they are.

Exit: 0 done; 2 wrong usage or file; 5 refused, with the reason.

  evendial place --reading readings.json --move "0,0,10"
`;
