import type { ComponentChildren } from 'preact';
import { opened } from '../bench/client.ts';
import { lazily } from '../parts/lazily.tsx';
import { type Route, setInView } from '../route.ts';
import { ChangesView } from './changes/ChangesView.tsx';
import { ChoicesView } from './choices/ChoicesView.tsx';
import { LedgerView } from './ledger/LedgerView.tsx';
import { PatientView } from './patient/PatientView.tsx';
import { AddRule } from './rule/AddRule.tsx';
import { RulePage } from './rule/RulePage.tsx';
import { StockView } from './stock/StockView.tsx';

const ReviewView = lazily(
  () => import('./review/ReviewView.tsx').then(({ ReviewView }) => ReviewView),
  'The page for the committee',
);

const WardView = lazily(
  () => import('./ward/WardView.tsx').then(({ WardView }) => WardView),
  'The invented ward',
);
const WardPatient = lazily(
  () => import('./ward/WardPatient.tsx').then(({ WardPatient }) => WardPatient),
  'The invented ward',
);

const FindingsView = lazily(
  () => import('./findings/FindingsView.tsx').then(({ FindingsView }) => FindingsView),
  'The page of findings',
);
const FindingPatient = lazily(
  () => import('./findings/FindingPatient.tsx').then(({ FindingPatient }) => FindingPatient),
  'The page of findings',
);

/** The page that an address stands for. */
export function pageOf({ parts, options }: Route): ComponentChildren {
  const [kind, set = '', page, item = ''] = parts;
  if (kind === undefined) return <LedgerView set={setInView.value} />;
  if (kind === 'changes') return <ChangesView />;
  if (kind === 'review') return <ReviewView />;
  if (kind === 'ward') return set === '' ? <WardView /> : <WardPatient key={set} row={Number(set)} />;
  if (kind === 'findings') {
    return set === '' ? <FindingsView /> : <FindingPatient name={set} which={page ?? 'patient'} />;
  }
  if (kind === 'patient') return <PatientView from={null} />;
  if (kind === 'set' && opened.value?.sets.some(({ id }) => id === set)) {
    if (page === 'choices') return <ChoicesView key={set} set={set} />;
    if (page === 'rule') return <RulePage key={`${set}/${item}`} set={set} id={item} />;
    if (page === 'patient')
      return <PatientView key={`${set}/${options.get('for')}`} set={set} from={options.get('for')} />;
    if (page === 'stock') return <StockView key={`${set}/${item}`} set={set} kind={item} />;
    if (page === 'add') return <AddRule key={set} set={set} />;
    if (page === undefined) return <LedgerView key={set} set={set} />;
  }
  return (
    <article>
      <h1>No such page</h1>
      <p>
        The address names nothing in this bench. <a href="#/">Back to the ledger</a>
      </p>
    </article>
  );
}
