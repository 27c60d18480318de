import { render } from 'preact';
import { App } from './App.tsx';
import { openBench } from './bench/client.ts';
import { keepDraft } from './draft/keep.ts';
import { keepPatient } from './views/patient/state.ts';

render(<App />, document.querySelector('#page')!);
await Promise.all([keepDraft(), keepPatient()]);
openBench();
