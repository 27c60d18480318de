import type { CellValue, Constant, Table } from '@dwellset/core';
import { counted, lowerFirst, unitWords, upperFirst, valueWords } from '@dwellset/wording';
import { useComputed } from '@preact/signals';
import { opened } from '../../bench/client.ts';
import { setChoice } from '../../draft/edit.ts';
import { draft } from '../../draft/state.ts';
import { Folded } from '../../parts/Folded.tsx';
import { ValueField } from '../../parts/ValueField.tsx';
import { words } from '../../words.ts';
import { Chosen } from './Chosen.tsx';
import { EvidenceLine, Positions } from './Positions.tsx';

/** A table of local choices, cell by cell. */
export function TableChoices({ table, set }: { table: Table; set: string }) {
  const keys = words.value.codes[table.key] ?? {};
  const columns = Object.entries(table.columns);
  const publishedOf = (row: string, column: string): CellValue =>
    table.rows[row]?.[column]?.value ?? table.otherwise?.[column] ?? null;
  const title = (row: string, column: string) =>
    `${table.title}: ${keys[row] ?? row}${columns.length > 1 ? `, ${column}` : ''}`;
  const isOwn = (path: string): boolean => path.startsWith(`${table.id}/`);
  // As one text, so that typing into another choice draws nothing here.
  useComputed(() => JSON.stringify(Object.entries(draft.value.choices).filter(([path]) => isOwn(path))))
    .value;
  const { choices } = draft.peek();
  const edited = Object.keys(choices).filter(isOwn);
  const cells = Object.keys(keys).flatMap((row) =>
    columns.map(([column, head]) => ({ row, column, head, path: `${table.id}/${row}/${column}` })),
  );
  return (
    <section class={edited.length > 0 ? 'choice edited' : 'choice'} aria-labelledby={`choice-${table.id}`}>
      <h2 id={`choice-${table.id}`}>{upperFirst(table.title)}</h2>
      <Folded
        open={edited.length > 0}
        summary={`Table of ${counted(Object.keys(keys).length, 'row')}${edited.length > 0 ? `, ${edited.length} changed` : ''}`}
      >
        {() => (
          <>
            <div class="table-scroller">
              <table class="cells">
                <thead>
                  <tr>
                    <td />
                    {columns.map(([column, { unit }]) => (
                      <th scope="col" key={column}>
                        {upperFirst(column.replaceAll('-', ' '))}
                        {unit !== undefined && <span class="id"> {unitWords(unit, 2)}</span>}
                      </th>
                    ))}
                  </tr>
                </thead>
                <tbody>
                  {Object.entries(keys).map(([row, name]) => (
                    <tr key={row}>
                      <th scope="row">{name}</th>
                      {columns.map(([column, head]) => {
                        const path = `${table.id}/${row}/${column}`;
                        const published = publishedOf(row, column);
                        const value = choices[path]?.value;
                        return (
                          <td key={column} class={value === undefined ? undefined : 'inked'}>
                            <ValueField
                              valued={{ type: head.type, range: table.rows[row]?.[column]?.range }}
                              value={value === undefined ? published : value}
                              codes={head.codes === undefined ? undefined : words.value.codes[head.codes]}
                              label={title(row, column)}
                              mayBeNone
                              onValue={(one) =>
                                opened.value &&
                                setChoice(opened.value, path, lowerFirst(title(row, column)), one, published)
                              }
                            />
                          </td>
                        );
                      })}
                    </tr>
                  ))}
                </tbody>
              </table>
            </div>
            {cells
              .filter(({ path }) => edited.includes(path))
              .map(({ row, column, head, path }) => (
                <div key={path}>
                  <h3>{upperFirst(title(row, column))}</h3>
                  <Chosen
                    path={path}
                    set={set}
                    title={title(row, column)}
                    cautious={head.cautious ?? 'neither'}
                    from={publishedOf(row, column)}
                    said={String}
                  />
                </div>
              ))}
            <Folded summary="What stands behind the values">
              {() =>
                cells.map(({ row, column, head, path }) => {
                  const cell = table.rows[row]?.[column];
                  if (!cell || (cell.positions ?? []).length + (cell.evidence ?? []).length === 0)
                    return null;
                  const codes = head.codes === undefined ? {} : { codes: head.codes };
                  const unit = head.unit === undefined ? {} : { unit: head.unit };
                  return (
                    <div key={path}>
                      <h3>{upperFirst(title(row, column))}</h3>
                      <Positions
                        positions={cell.positions ?? []}
                        said={(one: Constant) => valueWords(one, { ...codes, ...unit }, words.value)}
                        inForce={choices[path]?.value ?? cell.value}
                        onTake={(one) =>
                          opened.value &&
                          setChoice(
                            opened.value,
                            path,
                            lowerFirst(title(row, column)),
                            one,
                            publishedOf(row, column),
                          )
                        }
                      />
                      <ul class="plain">
                        {cell.evidence?.map((id) => (
                          <EvidenceLine key={id} id={id} />
                        ))}
                      </ul>
                    </div>
                  );
                })
              }
            </Folded>
          </>
        )}
      </Folded>
    </section>
  );
}
