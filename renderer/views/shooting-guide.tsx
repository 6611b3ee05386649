import type { JSX } from 'preact';

const steps = [
  'Tripod, or the camera propped up; the window straight on, about a third of the frame wide.',
  'Dark room. Take the glass off, or see that nothing is mirrored in it.',
  'Fix the exposure and the white balance. The brightest spot just under white: 200 to 235 of 255.',
  'HDR, night and portrait modes off. Raw, or the exposures a step apart, if the camera can.',
  'On mains-fed lamps 1/10 or 1/5 s; LEDs lit for five minutes.',
  'One photo more with the lamps off, same settings. The filament lamp first, before it comes out.',
];

/** How to take a photo that can be measured. */
export function ShootingGuide(): JSX.Element {
  return (
    <section class="guide" aria-labelledby="guide-title">
      <h2 id="guide-title">A photo that can be measured</h2>
      <ol>
        {steps.map((step) => (
          <li key={step}>{step}</li>
        ))}
      </ol>
    </section>
  );
}

/** Where wires are touched, cautions are shown in full. */
export function Caution(): JSX.Element {
  return (
    <p class="caution">
      <b>Mains can kill.</b> Unplug the unit and let its capacitors discharge before you touch anything inside; leave
      mains-side work to a qualified person under your local rules. Do not stare into bright LEDs. The figures are a
      camera’s estimates, not a calibrated photometer’s.
    </p>
  );
}
