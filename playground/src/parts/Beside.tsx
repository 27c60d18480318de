import { counted } from '@dwellset/wording';
import { useSignal } from '@preact/signals';
import { ledgerOf } from '../bench/client.ts';
import type { Ledger } from '../bench/ledger.ts';
import { address } from '../route.ts';
import { LedgerTable } from '../views/ledger/LedgerTable.tsx';
import { Changed } from '../views/ledger/LedgerView.tsx';
import { releaseOf } from '../words.ts';

/** More columns than this would not fit beside a page. */
const MOST = 7;

function changedRules(ledger: Ledger, rows: readonly number[]): string[] {
  const found = new Set(rows.flatMap((row) => ledger.changed(row)));
  return ledger.rules.filter((rule) => found.has(rule));
}

/** Beside what is edited: the patients it changes, and the others on demand. */
export function Beside({ set, rule }: { set: string; rule?: string }) {
  const ledger = ledgerOf(set);
  ledger.tick.value;
  const all = useSignal(false);
  const places = ledger.rows.map((_, row) => row);
  const changed = places.filter((row) => ledger.changed(row).length > 0 || ledger.readsDifferently(row));
  const own =
    rule === undefined
      ? []
      : places.filter((row) => ledger.rows[row]!.rule === rule && !changed.includes(row));
  const shown = all.value
    ? [...changed, ...places.filter((row) => !changed.includes(row))]
    : [...changed, ...own];
  const others = changedRules(ledger, changed).filter((one) => one !== rule);
  const columns = [...(rule !== undefined && ledger.rules.includes(rule) ? [rule] : []), ...others].slice(
    0,
    MOST,
  );
  return (
    <aside class="beside" aria-label="Patients">
      <Changed set={set} />
      {shown.length > 0 && (
        <LedgerTable
          ledger={ledger}
          rules={columns}
          rows={shown}
          caption={`Patients of ${releaseOf(set)?.title ?? set} beside this page`}
        />
      )}
      <p class="aside">
        {rule !== undefined &&
          own.length > 0 &&
          !all.value &&
          'Those that change, then those written for this rule. '}
        <button type="button" onClick={() => (all.value = !all.value)} aria-pressed={all.value}>
          {all.value ? 'Show fewer' : `Show all ${counted(ledger.rows.length, 'patient')}`}
        </button>{' '}
        <a href={address(['set', set])}>Whole ledger</a>
      </p>
    </aside>
  );
}
