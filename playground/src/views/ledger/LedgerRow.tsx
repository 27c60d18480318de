import { outcomeWords } from '@dwellset/wording';
import { useMemo } from 'preact/hooks';
import type { Ledger } from '../../bench/ledger.ts';
import { checkOf, OutcomeMark } from '../../parts/Mark.tsx';
import { address } from '../../route.ts';

interface Column {
  readonly rule: string;
  readonly isCheck: boolean;
}

interface Props {
  readonly ledger: Ledger;
  readonly columns: readonly Column[];
  /** Place among the ledger's rows. */
  readonly row: number;
  /** Place among the rows shown. */
  readonly index: number;
  /** The column that can be reached with the tab key; -1 in every row but one. */
  readonly focusable: number;
  /** For whom it was written, over so many lines; none where the table has no such margin. */
  readonly margin?: { readonly text: string; readonly lines: number } | undefined;
  /** With what the set comes to. */
  readonly short: boolean;
}

/** One invented patient by all rules; drawn anew only where something of it changed. */
export function LedgerRow({ ledger, columns, row, index, focusable, margin, short }: Props) {
  const patient = ledger.rows[row];
  const tick = ledger.tick.peek();
  const drawn = useMemo(() => ledger.drawn(row, columns), [ledger, tick, row, columns]);
  return useMemo(() => {
    if (!patient) return null;
    const changed = ledger.changed(row).length > 0;
    const reads = !changed && ledger.readsDifferently(row);
    return (
      <tr aria-rowindex={index + 2} class={changed ? 'changed' : reads ? 'reads' : undefined}>
        {margin && (
          <td class="of">
            {margin.text !== '' && <span style={{ '--lines': margin.lines }}>{margin.text}</span>}
          </td>
        )}
        <th scope="row" class="patient" data-at={`${index}-0`}>
          <a
            href={address(['set', ledger.set, 'patient'], { for: patient.key })}
            tabIndex={focusable === 0 ? 0 : -1}
            title={patient.title}
          >
            {patient.title}
          </a>
        </th>
        {columns.map((column, at) => (
          <Cell
            key={column.rule}
            ledger={ledger}
            row={row}
            {...column}
            at={`${index}-${at + 1}`}
            focusable={focusable === at + 1}
          />
        ))}
        {short && <td class="short">{ledger.short(row) ?? ''}</td>}
      </tr>
    );
  }, [ledger, columns, row, index, focusable, margin?.text, margin?.lines, short, drawn]);
}

interface CellProps extends Column {
  readonly ledger: Ledger;
  readonly row: number;
  readonly at: string;
  readonly focusable: boolean;
}

function Cell({ ledger, row, rule, isCheck, at, focusable }: CellProps) {
  const now = ledger.outcome('ours', row, rule);
  const changed = ledger.isChanged(row, rule);
  const before = changed ? ledger.outcome('base', row, rule) : undefined;
  const said = (outcome: NonNullable<typeof now>): string =>
    outcomeWords({ outcome, ...(isCheck && { check: checkOf(outcome) }) });
  const end = !changed ? '' : before ? `, as published: ${said(before)}` : ', a rule of your own';
  return (
    // A name and no hidden text: fifteen hundred clipped texts are most of what drawing a screen of cells costs.
    <td
      class={changed ? 'cell inked' : 'cell'}
      data-at={at}
      tabIndex={focusable ? 0 : -1}
      aria-label={`${now ? said(now) : 'not yet tried'}${end}`}
    >
      {now && <OutcomeMark outcome={now} check={isCheck} />}
    </td>
  );
}
