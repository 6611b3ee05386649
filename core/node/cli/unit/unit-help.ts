/** The page of `evendial help unit`. */
export const unitHelp = `evendial unit COMMAND ... [--book DIR] [--json]

The book keeps what was there, tried and chosen for each unit, with its photos byte for byte. Every
change is a revision of its own: nothing that was saved is ever taken away.

  list [--search TEXT]            all units, the last saved first; those that hold all words
  new NAME [--like UNIT]          a new unit; with the windows and trials of another
  show UNIT                       the record
  set UNIT key=value...           any field; an empty value takes it away
  add-window UNIT NAME --size 92x18 [--outline rectangle|ellipse] [--print KIND]
  add-photo UNIT FILE... --role reference|lamp-off|flat-field|print-photo|trial:NAME|other
             [--corners "x,y x,y x,y x,y" [--window NAME]] [--light KIND] [--exposure "1/30 f/4"]
             [--encoding KIND] [--for TRIAL]   a lamp-off, flat-field or print photo of one trial
  add-trial UNIT NAME [--like TRIAL] [--mirror-to WINDOW] [--light KIND]
  measure UNIT [TRIAL] [--maps DIR] [--csv] [--strict]   as measure --series; figures are kept
  choose-trial UNIT TRIAL [--why TEXT]
  timeline UNIT                   what each revision changed
  undo UNIT, redo UNIT            as a new revision
  sheet UNIT --out FILE.pdf|FILE.html [--paper A4|letter] [--share]
                                  the record sheet; --share: no owner, serial number, notes
  export UNIT --out FILE.evendial [--share]
                                  the unit in one file, or export UNIT FILE; a file that is there is
                                  never written over. With --share to be given away: photos made
                                  again without place, person, date, serial numbers
  import FILE.evendial [--dry-run]
  check [--repair]                every revision and every photo by its checksum
  schema                          every key of a record, as JSON Schema

  UNIT       its id, its name, or the beginning of its id
  --book     the folder of the book; left out: evendial/book in your data folder
  --json     one document on standard output; a change prints the whole record

Of several photos of one trial the last is measured; three or more of different exposure times are
merged as by measure --bracket. 'evendial compare --unit UNIT' puts the trials in order.

Keys are written as in the record: before.lamp.base=E10, after.reversible=yes,
"trials[LEDs 8 mm behind].lamps[left].positionMm=23,9,8", "parts[LED].lot=B7",
"photos[dial.jpg].corners[scale]=10,10 90,10 90,30 10,30". Lamps, strings and parts begin with
their first field.

Exit: 0 done; 2 wrong usage or archive; 3 a photo is missing or cannot be read; 4 impossible corners
or no window found; 5 a refusal with --strict; 6 the book is locked, damaged or too new, or its disk
refuses; 130 cancelled.

  evendial unit new "Larkfield T-60"
  evendial unit add-window "Larkfield T-60" scale --size 92x18
  evendial unit add-trial "Larkfield T-60" "LEDs 8 mm behind" --light warm-white
  evendial unit add-photo "Larkfield T-60" try1.jpg --role "trial:LEDs 8 mm behind"
  evendial unit measure "Larkfield T-60"
`;
