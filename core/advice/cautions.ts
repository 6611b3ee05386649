/**
 * What goes with every resistor value, on every face.
 *
 * @source the project's own list of cautions
 * @rule LA16
 */
export const lampCautions: readonly string[] = [
  'Mains-powered equipment can kill: unplug it, let capacitors discharge, and have mains-side work done by a qualified person under your local rules.',
  'Measure the lamp supply before wiring: AC or DC, volts with the lamp in and with it out. A winding rises when the filament is gone.',
  'Find out whether the circuit uses the lamp as a signal (pull the lamp: what stops working?), and whether lamps are in series.',
  'Find out whether one side of the supply sits on the chassis or is centre-tapped: behind a bridge the LED minus must not touch the chassis.',
  'A bridge can be heard on AM, and pulsed light in photos: add a snubber if it hums, and photograph with whole mains cycles.',
  'Fuse, insulate, strain-relieve; respect resistor power and LED ratings; one resistor a string, never strings in parallel on one.',
  'Keep LEDs and diffusers away from hot parts; use flame-retardant materials; do not stare into bright LEDs.',
  'Figures are estimates from data sheets and a camera, not from a calibrated photometer.',
];
