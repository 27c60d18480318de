import { effect } from '@preact/signals';
import { render } from 'preact';
import { App } from './App.tsx';
import { openBench, opened } from './bench/client.ts';
import { keepDraft } from './draft/keep.ts';
import { keepPage } from './offline/offline.ts';
import { keepPatient } from './views/patient/state.ts';

render(<App />, document.querySelector('#page')!);
await Promise.all([keepDraft(), keepPatient()]);
openBench();
let begun = false;
effect(() => {
  // The rules come first: what is kept for later must not hold them up.
  if (opened.value && !begun) {
    begun = true;
    void keepPage();
  }
});
