/**
 * What to heed where a window's size was not given: lengths are true only as far as the assumed size is.
 *
 * @source lengths in mm scale with the size; wording our own choice
 * @rule AV10
 */
export const assumedSizeCaution =
  'The size of the window is assumed: measure it with a caliper and give it, else these mm and what is printed are not true.';
