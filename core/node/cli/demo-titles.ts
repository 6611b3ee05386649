/** What the samples' series show, by the names of their files; a series without a title here is called by its file's name. */
export const seriesTitles: Readonly<Record<string, { readonly title: string; readonly about: string }>> = {
  t60: {
    title: 'An evening with the tuning scale',
    about:
      'The filament lamps, then seven tries with LEDs: bare, behind tracing paper, taped, moved back and turned, mixed, cool. One camera, one exposure, an ordinary JPEG whose tone curve is not known.',
  },
  m4: {
    title: 'The round level meter',
    about: 'A round window, measured inside the square around it.',
  },
  both: {
    title: 'Two windows in one photo',
    about: 'The tuning scale and the level meter side by side, each measured by itself.',
  },
  't60-black': {
    title: 'A black dial with lit figures',
    about: 'Only figures and lines glow: evenly lit, and with a bare LED close behind one figure.',
  },
  't60-small': {
    title: 'Two small windows',
    about: 'A tuning meter of 16 x 7 mm and a band window of 12 x 5 mm, where print hides much of the light.',
  },
};
