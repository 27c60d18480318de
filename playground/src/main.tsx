import { render } from 'preact';
import { App } from './App.tsx';
import { openBench } from './bench/client.ts';
import { keepDraft } from './draft/keep.ts';

render(<App />, document.querySelector('#page')!);
await keepDraft();
openBench();
