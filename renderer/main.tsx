import './theme/tokens.css';
import './theme/frame.css';
import './theme/controls.css';
import './theme/figures.css';
import './theme/reading.css';
import './theme/outline.css';
import './theme/compare.css';
import './theme/next.css';
import './theme/empty.css';
import './theme/units.css';
import './theme/unit.css';
import './theme/record.css';
import './theme/watch.css';
import { render } from 'preact';
import { createLink } from './link/create-link';
import { Advice } from './state/advice';
import { Bench } from './state/bench';
import { Book } from './state/book';
import { Filings } from './state/filings';
import { KeptEdits } from './state/kept-edits';
import { KeptSettings } from './state/kept-settings';
import { Look } from './state/look';
import { MixForm } from './state/mix-form';
import { Places } from './state/place';
import { Plans } from './state/plans';
import { App } from './views/app';
import { takeArchive } from './views/take-files';

const place = document.getElementById('app');
if (!place) throw new Error('index.html has no place for the app');

const look = new Look(document.documentElement, localStorage);
const link = createLink();
const settings = new KeptSettings(sessionStorage);
const bench = new Bench(link, settings);
const filings = new Filings(sessionStorage);
const plans = new Plans(sessionStorage);
const mixForm = new MixForm(sessionStorage);
bench.tellLost([
  ...(settings.isDamaged ? ['outlines and settings'] : []),
  ...(filings.isDamaged ? ['which photo lies in which unit'] : []),
  ...(plans.isDamaged ? ['planned changes'] : []),
  ...(mixForm.isDamaged ? ['the form of the lamp mix'] : []),
]);
const book = new Book(link, new KeptEdits(localStorage), (said) => bench.say(said), [filings, plans]);
const advice = new Advice(() => new Worker('advice-worker.js', { type: 'module' }));
const around = {
  book,
  places: new Places(sessionStorage),
  filings,
  plans,
  mixForm,
  advice,
};
render(<App bench={bench} look={look} around={around} />, place);
link.onEvent((event) => {
  if (event.type === 'archive') void takeArchive(event.added, around);
});
void bench.start().then(async (waiting) => {
  for (const added of waiting) await takeArchive(added, around);
});
