import { stepNote } from '../../display/step-note';
import { wrapText } from './wrap';

/** `evendial help mix`. */
export const mixHelp = `evendial mix --lamp LAMP --lamp LAMP [--lamp LAMP] --target T (--supply V | --supply-ac V --hz HZ)

Currents and resistors of a mix of two or three kinds of LEDs, each on a string of its own.

  --lamp "name=red,dominantNm=625,mcd=800,atMa=20,angleDeg=30,vf=2.0,maxMa=20"
                      as the data sheet says: dominantNm= or xy=0.17,0.70 or spectrum=FILE; with
                      halfWidthNm=33; light as mcd= and angleDeg= (full viewing angle) or lm=, at
                      atMa=; vf= of one LED; maxMa=; inSeries= how many in the string
  --same-lens         all lenses are alike: mcd stand for light without angles
  --target T          2400K; "2700K 6.3/8V": a lamp rated 2700 K at 8 V, run at 6.3 V; xy=0.46,0.41;
                      READINGS.json#NAME, best the filament photo of this scale
  --supply 12         direct volts, measured with the lamp in
  --supply-ac 6.3 --hz 50 [--capacitor 470]
                      alternating volts, a bridge and a capacitor (microfarad)
  --supply-without-lamp 14.1
                      the same volts with the lamp out
  --current 10        mA of the strongest string; left out: half of each maximum
  --e-series E24      E12, E24 or E96: values that resistors are bought in
  --scale-dye DYE     none, edge of an amber dye in nm, or READINGS.json#NAME of the scale lit by
                      its filament lamp; --filament 2400 is that lamp's temperature
  --measured READINGS.json#NAME [--measured-currents 10,3.8]
                      a try that was measured, and its mA: the next try is corrected by it
  --before READINGS.json#NAME --before-currents 10,2
                      the try before that one: both together tell what a change of current does in
                      these photos, so that the third try comes near enough
  --json              one JSON document on standard output

${wrapText(stepNote, 100).join('\n')}

Exit: 0 done, also when the target is out of reach; 2 wrong usage or file; 5 no resistor can be
given: light not known, current over the maximum, supply too low.

  evendial mix --lamp "name=red,dominantNm=625,mcd=800,atMa=20,angleDeg=30,vf=2,maxMa=20" \\
    --lamp "name=green,dominantNm=525,mcd=2500,atMa=20,angleDeg=30,vf=3.2,maxMa=20" \\
    --supply 12 --target 2400K --current 10
`;
