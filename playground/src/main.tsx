import { effect } from '@preact/signals';
import { render } from 'preact';
import { App } from './App.tsx';
import { openBench, settled } from './bench/client.ts';
import { keepDraft } from './draft/keep.ts';
import { followNewer, keepPage } from './offline/offline.ts';
import { keepPatient } from './views/patient/state.ts';

followNewer();
render(<App />, document.querySelector('#page')!);
await Promise.all([keepDraft(), keepPatient()]);
openBench();
let begun = false;
effect(() => {
  // The ledger comes first: what is kept for later must not hold it up.
  if (settled.value && !begun) {
    begun = true;
    void keepPage();
  }
});
