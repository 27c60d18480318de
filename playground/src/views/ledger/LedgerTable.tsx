import { outcomeWords } from '@dwellset/wording';
import { useEffect, useRef, useState } from 'preact/hooks';
import type { Ledger } from '../../bench/ledger.ts';
import { checkOf, OutcomeMark } from '../../parts/Mark.tsx';
import { useRows } from '../../parts/useRows.ts';
import { address, go } from '../../route.ts';
import { releaseOf } from '../../words.ts';

interface Props {
  readonly ledger: Ledger;
  /** Columns. */
  readonly rules: readonly string[];
  /** Places in the ledger's rows, in the order shown. */
  readonly rows: readonly number[];
  readonly caption: string;
  /** With the rule in whose file a patient stands, and what the set comes to. */
  readonly whole?: boolean;
}

const rowHeight = (): number =>
  Math.round(1.75 * Number.parseFloat(getComputedStyle(document.documentElement).fontSize));

/** Invented patients by rules. Only the rows in view are drawn; arrow keys walk over the cells. */
export function LedgerTable({ ledger, rules, rows, caption, whole = false }: Props) {
  const scroller = useRef<HTMLDivElement>(null);
  const body = useRef<HTMLTableSectionElement>(null);
  const [height, setHeight] = useState(rowHeight);
  const [[atRow, atColumn], setAt] = useState<readonly [number, number]>([0, 0]);
  const moved = useRef<readonly [row: number, column: number]>(undefined);
  useEffect(() => {
    const measure = () => setHeight(rowHeight());
    addEventListener('resize', measure);
    return () => removeEventListener('resize', measure);
  }, []);
  const visible = useRows(scroller, rows.length, height);
  const release = releaseOf(ledger.set);
  const title = (rule: string) => release?.rules.find(({ id }) => id === rule)?.title ?? rule;
  const isCheck = (rule: string) => release?.rules.find(({ id }) => id === rule)?.expect !== undefined;
  useEffect(() => {
    // A render from before the key was pressed, or one without the line yet, leaves the step to a later one.
    if (moved.current?.[0] !== atRow || moved.current[1] !== atColumn) return;
    const cell = body.current?.querySelector<HTMLElement>(`[data-at="${atRow}-${atColumn}"]`);
    if (!cell) return;
    moved.current = undefined;
    (cell.querySelector('a') ?? cell).focus();
  });

  const shorts = whole && release?.shape !== 'advice';
  const columns = rules.length + 1;
  const open = (row: number, column: number): void => {
    const patient = ledger.rows[rows[row] ?? -1];
    const rule = rules[column - 1];
    if (!patient) return;
    if (rule === undefined) go(['set', ledger.set, 'patient'], { for: patient.key });
    else go(['set', ledger.set, 'rule', rule], { for: patient.key });
  };
  const STEPS: Readonly<Record<string, readonly [number, number]>> = {
    ArrowDown: [1, 0],
    ArrowUp: [-1, 0],
    ArrowLeft: [0, -1],
    ArrowRight: [0, 1],
    PageDown: [10, 0],
    PageUp: [-10, 0],
    Home: [0, -columns],
    End: [0, columns],
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key === 'Enter') {
      event.preventDefault();
      open(atRow, atColumn);
      return;
    }
    const step = STEPS[event.key];
    if (!step || event.ctrlKey || event.altKey || event.metaKey) return;
    event.preventDefault();
    const row = Math.max(0, Math.min(rows.length - 1, atRow + step[0]));
    const column = Math.max(0, Math.min(columns - 1, atColumn + step[1]));
    moved.current = [row, column];
    setAt([row, column]);
    visible.scrollTo(row);
  };
  /** How many lines a margin label may take: down to where the next one begins. */
  const runOf = (index: number): number => {
    const rule = ledger.rows[rows[index] ?? -1]?.rule;
    let length = 1;
    while (length < 3 && ledger.rows[rows[index + length] ?? -1]?.rule === rule) length += 1;
    return length;
  };
  const focusRow = visible.items.some(({ index }) => index === atRow) ? atRow : visible.items[0]?.index;

  return (
    <div class="scroller" ref={scroller}>
      <table
        class={whole ? 'ledger whole' : 'ledger'}
        // biome-ignore lint/a11y/noNoninteractiveElementToInteractiveRole: arrow keys walk over its cells, as in a grid
        role="grid"
        aria-rowcount={rows.length + 1}
        aria-label={caption}
        style={{ '--row': `${height}px` }}
      >
        <thead>
          <tr>
            {whole && (
              <th scope="col" class="of">
                Written for
              </th>
            )}
            <th scope="col" class="patient">
              Patient
            </th>
            {rules.map((rule) => (
              <th scope="col" key={rule} class="rule">
                <a href={address(['set', ledger.set, 'rule', rule])} title={title(rule)}>
                  <span>{title(rule)}</span>
                </a>
              </th>
            ))}
            {shorts && (
              <th scope="col" class="short">
                Comes to
              </th>
            )}
          </tr>
        </thead>
        <tbody
          ref={body}
          onKeyDown={onKeyDown}
          style={{ '--before': `${visible.before}px`, '--after': `${visible.after}px` }}
        >
          {visible.items.map(({ index }) => {
            const row = rows[index]!;
            const patient = ledger.rows[row];
            if (!patient) return null;
            const above = ledger.rows[rows[index - 1] ?? -1];
            const changed = ledger.changed(row).length > 0;
            const reads = !changed && ledger.readsDifferently(row);
            return (
              <tr
                key={patient.key}
                aria-rowindex={index + 2}
                class={changed ? 'changed' : reads ? 'reads' : undefined}
              >
                {whole && (
                  <td class="of">
                    {(above?.rule !== patient.rule || index === visible.items[0]?.index) && (
                      <span style={{ '--lines': runOf(index) }}>
                        {patient.own ? 'Kept by you' : title(patient.rule)}
                      </span>
                    )}
                  </td>
                )}
                <th scope="row" class="patient" data-at={`${index}-0`}>
                  <a
                    href={address(['set', ledger.set, 'patient'], { for: patient.key })}
                    tabIndex={index === focusRow && atColumn === 0 ? 0 : -1}
                    onFocus={() => setAt([index, 0])}
                    title={patient.title}
                  >
                    {patient.title}
                  </a>
                </th>
                {rules.map((rule, column) => (
                  <Cell
                    key={rule}
                    ledger={ledger}
                    row={row}
                    rule={rule}
                    check={isCheck(rule)}
                    at={`${index}-${column + 1}`}
                    focusable={index === focusRow && atColumn === column + 1}
                    onFocus={() => setAt([index, column + 1])}
                    onClick={() => open(index, column + 1)}
                  />
                ))}
                {shorts && <td class="short">{ledger.short(row) ?? ''}</td>}
              </tr>
            );
          })}
        </tbody>
      </table>
    </div>
  );
}

interface CellProps {
  readonly ledger: Ledger;
  readonly row: number;
  readonly rule: string;
  readonly check: boolean;
  readonly at: string;
  readonly focusable: boolean;
  readonly onFocus: () => void;
  readonly onClick: () => void;
}

function Cell({ ledger, row, rule, check, at, focusable, onFocus, onClick }: CellProps) {
  const now = ledger.outcome('ours', row, rule);
  const changed = ledger.isChanged(row, rule);
  const before = changed ? ledger.outcome('base', row, rule) : undefined;
  const said = (outcome: NonNullable<typeof now>): string =>
    outcomeWords({ outcome, ...(check && { check: checkOf(outcome) }) });
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: the table answers Enter for its cells
    <td
      class={changed ? 'cell inked' : 'cell'}
      data-at={at}
      tabIndex={focusable ? 0 : -1}
      onFocus={onFocus}
      onClick={onClick}
    >
      {now && <OutcomeMark outcome={now} check={check} />}
      <span class="unseen">
        {now ? said(now) : 'not yet tried'}
        {changed && (before ? `, as published: ${said(before)}` : ', a rule of your own')}
      </span>
    </td>
  );
}
