/** `evendial help lamps`. */
export const lampsHelp = `evendial lamps [--pigment EDGE,WIDTH] [--dye DYE] [--filament K] [--spectrum FILE] [--json]

What the kinds of lamps would do to the red print and the tint, before anything is bought: red print
in per cent of its redness behind the filament lamp, with the range over red prints, scales and the
lots that a kind of lamp is sold in, and u'v' of the glow.

  --pigment 595,8     the red print: middle and width of its edge in nm; left out: four usual reds
  --dye DYE           none (a clear or white scale); the edge of an amber dye in nm (light 520, deep
                      545); or READINGS.json#NAME, a reading of your scale lit by its filament lamp;
                      left out: clear and light amber both
  --filament 2400     colour temperature of the old lamp in kelvin
  --spectrum FILE     a lamp of your own: lines of nm,value with a decimal point

Exit: 0 done; 2 wrong usage or file, with the line.

  evendial lamps --dye none
`;
