/** Commands of the contract that this version does not know yet, and what to use instead. */
export const commandsNotBuilt: Readonly<Record<string, string>> = {
  shade: 'Use the luminance map of evendial measure --maps DIR to see where there is too much light.',
  place: 'Move the lamp, photograph again, and measure both photos.',
  next: 'Look at the spots and the luminance map of evendial measure --maps DIR.',
};
