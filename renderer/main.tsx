import './theme/tokens.css';
import './theme/frame.css';
import './theme/controls.css';
import './theme/figures.css';
import './theme/reading.css';
import './theme/outline.css';
import './theme/compare.css';
import './theme/empty.css';
import './theme/watch.css';
import { render } from 'preact';
import { createLink } from './link/create-link';
import { Bench } from './state/bench';
import { KeptSettings } from './state/kept-settings';
import { Look } from './state/look';
import { App } from './views/app';

const place = document.getElementById('app');
if (!place) throw new Error('index.html has no place for the app');

const look = new Look(document.documentElement, localStorage);
const bench = new Bench(createLink(), new KeptSettings(sessionStorage));
render(<App bench={bench} look={look} />, place);
void bench.start();
