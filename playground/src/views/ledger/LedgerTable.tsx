import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import type { Ledger } from '../../bench/ledger.ts';
import { useGradually } from '../../parts/useGradually.ts';
import { useRows } from '../../parts/useRows.ts';
import { address, go } from '../../route.ts';
import { releaseOf } from '../../words.ts';
import { LedgerRow } from './LedgerRow.tsx';

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
  // Lines come with their marks; drawn without, every cell would be drawn twice.
  const visible = useRows(scroller, ledger.rules.length === 0 ? 0 : rows.length, height);
  const drawn = useGradually(
    visible.items.map(({ index }) => index),
    rules.length + 1,
  );
  const release = releaseOf(ledger.set);
  const written = useMemo(() => new Map(release?.rules.map((rule) => [rule.id, rule])), [release]);
  const title = (rule: string) => written.get(rule)?.title ?? rule;
  const drawnColumns = useMemo(
    () => rules.map((rule) => ({ rule, isCheck: written.get(rule)?.expect !== undefined })),
    [rules.join(), written],
  );
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
  /** The cell of an event, as row and column. */
  const cellOf = ({ target }: Event): readonly [number, number] | undefined => {
    const at = target instanceof Element && target.closest<HTMLElement>('[data-at]')?.dataset.at;
    const [row, column] = at ? at.split('-').map(Number) : [];
    return row === undefined || column === undefined ? undefined : [row, column];
  };
  const onFocusIn = (event: Event): void => {
    const cell = cellOf(event);
    if (cell && (cell[0] !== atRow || cell[1] !== atColumn)) setAt(cell);
  };
  const onClick = (event: Event): void => {
    const cell = cellOf(event);
    // The patient's name is a link of its own.
    if (cell && cell[1] > 0) open(...cell);
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
        <Gap height={visible.before} />
        <tbody ref={body} onKeyDown={onKeyDown} onFocusIn={onFocusIn} onClick={onClick}>
          {visible.items.slice(0, drawn).map(({ index }) => {
            const row = rows[index]!;
            const patient = ledger.rows[row];
            if (!patient) return null;
            const above = ledger.rows[rows[index - 1] ?? -1];
            const isFirst = above?.rule !== patient.rule || index === visible.items[0]?.index;
            const text = !isFirst ? '' : patient.own ? 'Kept by you' : title(patient.rule);
            return (
              <LedgerRow
                key={patient.key}
                ledger={ledger}
                columns={drawnColumns}
                row={row}
                index={index}
                focusable={index === focusRow ? atColumn : -1}
                margin={whole ? { text, lines: runOf(index) } : undefined}
                short={shorts}
              />
            );
          })}
        </tbody>
        <Gap height={visible.after + (visible.items.length - drawn) * height} />
      </table>
    </div>
  );
}

/**
 * The room of lines out of view. A line of its own: what is stated for a whole body of lines is worked out anew for
 * each of its cells.
 */
const Gap = ({ height }: { height: number }) =>
  height === 0 ? null : (
    <tbody class="gap" aria-hidden="true">
      <tr>
        <td style={{ height: `${height}px` }} />
      </tr>
    </tbody>
  );
