import { changedWords, counted, READS_DIFFERENTLY, upperFirst } from '@dwellset/wording';
import { useSignal } from '@preact/signals';
import { built, ledgerOf, opened, settled } from '../../bench/client.ts';
import type { Ledger } from '../../bench/ledger.ts';
import { changeCount } from '../../draft/draft.ts';
import { draft } from '../../draft/state.ts';
import { Legend } from '../../parts/Legend.tsx';
import { SetPicker } from '../../parts/SetPicker.tsx';
import { address } from '../../route.ts';
import { releaseOf } from '../../words.ts';
import { LedgerTable } from './LedgerTable.tsx';

type Show = 'all' | 'changed' | 'applies' | 'undetermined';
type Order = 'written' | 'changed' | 'title';

function pick(ledger: Ledger, search: string, show: Show, order: Order): number[] {
  const wanted = search.trim().toLowerCase();
  const release = releaseOf(ledger.set);
  const titles = new Map(release?.rules.map(({ id, title }) => [id, title.toLowerCase()]));
  const isChanged = (row: number) => ledger.changed(row).length > 0 || ledger.readsDifferently(row);
  const rows = ledger.rows.flatMap((patient, row) => {
    const found =
      wanted === '' ||
      patient.title.toLowerCase().includes(wanted) ||
      (titles.get(patient.rule) ?? '').includes(wanted);
    if (!found) return [];
    if (show === 'changed') return isChanged(row) ? [row] : [];
    if (show === 'all') return [row];
    return ledger.rules.some((rule) => ledger.outcome('ours', row, rule) === show) ? [row] : [];
  });
  if (order === 'title') {
    return rows.sort((a, b) => (ledger.rows[a]!.title < ledger.rows[b]!.title ? -1 : 1));
  }
  if (order === 'written') return rows;
  const weight = new Map(
    rows.map((row) => [row, ledger.changed(row).length * 2 + (ledger.readsDifferently(row) ? 1 : 0)]),
  );
  return rows.sort((a, b) => weight.get(b)! - weight.get(a)! || a - b);
}

/** The heart of the bench: every invented patient of a set by every rule. */
export function LedgerView({ set }: { set: string }) {
  const ledger = ledgerOf(set);
  ledger.tick.value;
  const search = useSignal('');
  const show = useSignal<Show>('all');
  const order = useSignal<Order>('written');
  const release = releaseOf(set);
  if (!release) return <p>There is no rule set of this name.</p>;
  const rows = pick(ledger, search.value, show.value, order.value);
  const isCheck = release.shape === 'checklist';
  return (
    <article class="wide">
      <header class="title">
        <SetPicker set={set} />
        <h1>{release.title}</h1>
        <p class="aside">
          {ledger.isMissing
            ? 'Its invented patients could not be fetched'
            : counted(ledger.rows.length, 'invented patient')}
          , {counted(release.rules.length, isCheck ? 'check' : 'rule')}.{' '}
          <a href={address(['set', set, 'choices'])}>{counted(release.parameters.length, 'local choice')}</a>
          {Object.keys(release.stock).map((kind) => (
            <span key={kind}>
              {' · '}
              <a href={address(['set', set, 'stock', kind])}>Stock list: {kind}</a>
            </span>
          ))}
          {' · '}
          <a href={address(['set', set, 'add'])}>Add a rule</a>
        </p>
      </header>
      <Changed set={set} />
      <search class="tools">
        <label>
          <span>Search</span>
          <input
            type="search"
            value={search.value}
            onInput={(event) => (search.value = event.currentTarget.value)}
          />
        </label>
        <label>
          <span>Show</span>
          <select value={show.value} onInput={(event) => (show.value = event.currentTarget.value as Show)}>
            <option value="all">all patients</option>
            <option value="changed">those that change</option>
            <option value="applies">{isCheck ? 'a check is not met' : 'a rule applies'}</option>
            <option value="undetermined">something is not known</option>
          </select>
        </label>
        <label>
          <span>Order</span>
          <select value={order.value} onInput={(event) => (order.value = event.currentTarget.value as Order)}>
            <option value="written">as written</option>
            <option value="changed">changed by my edit first</option>
            <option value="title">by name</option>
          </select>
        </label>
        <p class="aside found" role="status">
          {rows.length === ledger.rows.length ? '' : `${counted(rows.length, 'patient')} shown`}
        </p>
      </search>
      <LedgerTable
        whole
        ledger={ledger}
        rules={ledger.rules.length === 0 ? release.rules.map(({ id }) => id) : ledger.rules}
        rows={rows}
        caption={`Invented patients by the rules of ${release.title}`}
      />
      <Legend check={isCheck} />
    </article>
  );
}

/** Said where it is not known whom the changes reach. */
export const UNTRIED = 'not tried, its invented patients could not be fetched';

/** How many patients the author's changes move, in the set in view and in the others. */
export function Changed({ set }: { set: string }) {
  const ledger = ledgerOf(set);
  ledger.tick.value;
  if (changeCount(draft.value) === 0) {
    return (
      <p class="changes-line" role="status">
        Nothing is changed yet: every mark is as published.
      </p>
    );
  }
  const mistakes = built.value.refused.filter(({ severity }) => severity === 'error').length;
  if (mistakes > 0) {
    return (
      <p class="changes-line" role="status">
        <strong>Not tried yet</strong>: your changes hold {counted(mistakes, 'mistake')}, and until then every
        mark is as published. <a href={address(['changes'])}>What is wrong</a>
      </p>
    );
  }
  const { changed, reads } = ledger.counts();
  const others = (opened.value?.sets ?? []).flatMap((other) => {
    if (other.id === set) return [];
    const one = ledgerOf(other.id);
    one.tick.value;
    const counts = one.counts();
    const isUntried = one.isMissing && built.value.releases[other.id] !== undefined;
    return counts.changed + counts.reads === 0 && !isUntried ? [] : [{ ...other, counts, isUntried }];
  });
  return (
    <p class="changes-line" role="status">
      <strong>
        {ledger.isMissing
          ? upperFirst(UNTRIED)
          : !settled.value && changed + reads === 0
            ? 'Being tried …'
            : changedWords(changed, reads)}
      </strong>
      {settled.value || changed + reads === 0 ? '' : ' so far; the others are being tried'}
      {settled.value && reads > 0 && <span class="aside"> – {READS_DIFFERENTLY}</span>}
      {others.map(({ id, release, counts, isUntried }) => (
        <span key={id}>
          {' · '}
          <a href={address(['set', id])}>{release.title}</a>:{' '}
          {isUntried ? UNTRIED : changedWords(counts.changed, counts.reads)}
        </span>
      ))}
    </p>
  );
}
