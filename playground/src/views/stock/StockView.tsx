import type { StockItem } from '@dwellset/core';
import { useState } from 'preact/hooks';
import { opened } from '../../bench/client.ts';
import { editStock } from '../../draft/edit.ts';
import { draft } from '../../draft/state.ts';
import { Beside } from '../../parts/Beside.tsx';
import { Reason } from '../../parts/Reason.tsx';
import { ValueField } from '../../parts/ValueField.tsx';
import { address } from '../../route.ts';
import { releaseOf, words } from '../../words.ts';

const bare = (value: unknown): unknown =>
  typeof value === 'object' && value !== null && 'value' in value
    ? (value as { value: unknown }).value
    : value;

/** A stock list: take options out, change what the label says, add the products that the hospital keeps. */
export function StockView({ set, kind }: { set: string; kind: string }) {
  const release = releaseOf(set, 'base');
  const published = release?.stock[kind];
  const key = `${set}/${kind}`;
  const edit = draft.value.stock[key];
  const [title, setTitle] = useState('');
  const all = opened.value;
  if (!release || !published || !all) return <p>There is no stock list of this name.</p>;
  const options = edit?.options ?? published;
  const columns = [...new Set(published.flatMap(({ facts }) => Object.keys(facts)))];
  const put = (after: readonly StockItem[]) => {
    const same = JSON.stringify(after) === JSON.stringify(published);
    editStock(
      all,
      key,
      `stock list ${kind}`,
      same ? undefined : { title: edit?.title ?? kind, reason: edit?.reason ?? '', options: after },
    );
  };
  const setCell = (item: StockItem, fact: string, value: unknown) => {
    const { unit } = words.value.facts.get(fact) ?? {};
    const { [fact]: _, ...others } = item.facts;
    const stated = unit === undefined || unit === '1' ? value : { value, unit };
    put(
      options.map((one) =>
        one.id === item.id
          ? { ...one, facts: value === null || value === '' ? others : { ...others, [fact]: stated } }
          : one,
      ),
    );
  };
  return (
    <article class="wide two">
      <div>
        <header class="title">
          <p class="aside">
            <a href={address(['set', set])}>{release.title}</a>
          </p>
          <h1>Stock list: {kind}</h1>
          <p class="aside">What there is to choose from. An empty cell means that the label says nothing.</p>
        </header>
        {edit && (
          <div class="choice edited">
            <Reason
              label="Why our stock differs"
              value={edit.reason}
              onReason={(reason) => editStock(all, key, `reason for stock list ${kind}`, { ...edit, reason })}
            />
            <button
              type="button"
              onClick={() => editStock(all, key, `take back stock list ${kind}`, undefined)}
            >
              Take back, as published
            </button>
          </div>
        )}
        <div class="table-scroller">
          <table class="cells">
            <thead>
              <tr>
                <th scope="col">Option</th>
                {columns.map((fact) => (
                  <th scope="col" key={fact}>
                    {words.value.facts.get(fact)?.title ?? fact}
                  </th>
                ))}
                <td />
              </tr>
            </thead>
            <tbody>
              {options.map((item) => (
                <tr key={item.id}>
                  <th scope="row">{item.title}</th>
                  {columns.map((fact) => {
                    const found = words.value.facts.get(fact);
                    const value = bare(item.facts[fact]);
                    return (
                      <td key={fact}>
                        {found && value !== undefined ? (
                          <ValueField
                            valued={{
                              type: found.type,
                              unit: found.unit,
                              step: found.step,
                              range: found.limits,
                            }}
                            value={value as number}
                            codes={found.codes === undefined ? undefined : words.value.codes[found.codes]}
                            label={`${item.title}: ${found.title}`}
                            mayBeNone
                            onValue={(one) => setCell(item, fact, one)}
                          />
                        ) : (
                          <span class="aside">–</span>
                        )}
                      </td>
                    );
                  })}
                  <td>
                    {options.length > 1 && (
                      <button type="button" onClick={() => put(options.filter(({ id }) => id !== item.id))}>
                        Take out<span class="unseen"> {item.title}</span>
                      </button>
                    )}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
        <p class="tools">
          <label>
            <span>Add a product like the last one, named</span>
            <input type="text" value={title} onInput={(event) => setTitle(event.currentTarget.value)} />
          </label>
          <button
            type="button"
            onClick={() => {
              const id = title
                .trim()
                .toLowerCase()
                .replaceAll(/[^a-z0-9]+/g, '-')
                .replaceAll(/^-+|-+$/g, '');
              if (id === '' || options.some((one) => one.id === id)) return;
              put([...options, { id, title: title.trim(), facts: options.at(-1)!.facts }]);
              setTitle('');
            }}
          >
            Add
          </button>
        </p>
      </div>
      <Beside set={set} />
    </article>
  );
}
