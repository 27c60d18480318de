import type { CellValue, Constant, Parameter } from '@dwellset/core';
import { cautiousWords, counted, lowerFirst, rangeWords, upperFirst, valueWords } from '@dwellset/wording';
import { useComputed, useSignal } from '@preact/signals';
import { opened } from '../../bench/client.ts';
import { setChoice } from '../../draft/edit.ts';
import { draft } from '../../draft/state.ts';
import { Beside } from '../../parts/Beside.tsx';
import { Folded } from '../../parts/Folded.tsx';
import { Later } from '../../parts/Later.tsx';
import { SetPicker } from '../../parts/SetPicker.tsx';
import { useMore } from '../../parts/useMore.ts';
import { ValueField } from '../../parts/ValueField.tsx';
import { address } from '../../route.ts';
import { releaseOf, words } from '../../words.ts';
import { Chosen } from './Chosen.tsx';
import { Positions } from './Positions.tsx';
import { TableChoices } from './TableChoices.tsx';
import { usersOf } from './users.ts';

/** Choices drawn before the browser is let go. */
const AT_ONCE = 3;

/** The values that a hospital sets for itself, with what stands behind each. */
export function ChoicesView({ set }: { set: string }) {
  const release = releaseOf(set, 'base');
  const search = useSignal('');
  const count = (release?.parameters.length ?? 0) + (release?.tables.length ?? 0);
  const drawn = useMore(count, AT_ONCE);
  if (!release) return null;
  const wanted = search.value.trim().toLowerCase();
  // Word by word: who looks for the "review interval" does not know how its title begins.
  const isWanted = ({ title, id }: { readonly title: string; readonly id: string }): boolean =>
    wanted.split(/\s+/).every((word) => `${title} ${id}`.toLowerCase().includes(word));
  const found = release.parameters.filter(isWanted);
  const tables = release.tables.filter(isWanted);
  return (
    <article class="wide two">
      <div>
        <header class="title">
          <SetPicker set={set} />
          <h1>Local choices</h1>
          <p class="aside">
            Values that a hospital sets for itself. Each counts in every rule set that uses it. Change one,
            and the patients beside it are tried again at once.
          </p>
        </header>
        {count > 6 && (
          <search class="tools">
            <label>
              <span>Search the choices</span>
              <input
                type="search"
                value={search.value}
                onInput={(event) => (search.value = event.currentTarget.value)}
              />
            </label>
            <p class="aside found" role="status">
              {wanted === '' ? '' : counted(found.length + tables.length, 'choice')}
            </p>
          </search>
        )}
        {found.slice(0, drawn).map((parameter) => (
          <ParameterChoice key={parameter.id} parameter={parameter} set={set} />
        ))}
        {tables.slice(0, Math.max(0, drawn - found.length)).map((table) => (
          <TableChoices key={table.id} table={table} set={set} />
        ))}
        {count === 0 && <p>This set has no local choices.</p>}
      </div>
      <Later>{() => <Beside set={set} />}</Later>
    </article>
  );
}

function ParameterChoice({ parameter, set }: { parameter: Parameter; set: string }) {
  const { id, title, range, cautious, positions, note, local } = parameter;
  // Typing draws anew the choice that is typed into, and no other.
  const edit = useComputed(() => draft.value.choices[id]).value;
  const value = (edit?.value ?? parameter.default) as Constant;
  const codes = parameter.codes === undefined ? undefined : words.value.codes[parameter.codes];
  const said = (one: Constant) => valueWords(one, parameter, words.value);
  const isLong = parameter.type === 'codes';
  const users = usersOf(id);
  const choose = (one: Constant | CellValue) =>
    opened.value && setChoice(opened.value, id, lowerFirst(title), one, parameter.default);
  const field = (
    <ValueField
      valued={parameter}
      value={value}
      codes={codes}
      label={upperFirst(title)}
      describedBy={`about-${id}`}
      onValue={choose}
    />
  );
  return (
    <section class={edit ? 'choice edited' : 'choice'} aria-labelledby={`choice-${id}`}>
      <h2 id={`choice-${id}`}>{upperFirst(title)}</h2>
      {isLong ? (
        <details open={edit !== undefined}>
          <summary>
            {Array.isArray(value)
              ? `${value.length} of ${Object.keys(codes ?? {}).length} on the list`
              : said(value)}
          </summary>
          {field}
        </details>
      ) : (
        field
      )}
      <p class="aside" id={`about-${id}`}>
        {[
          edit || !isLong
            ? `As published: ${isLong ? `${(parameter.default as readonly string[]).length} on the list` : said(parameter.default)}`
            : '',
          range ? `may be ${rangeWords(range, parameter)}` : '',
          cautious === 'neither' ? '' : `the cautious side is ${cautiousWords(cautious)}`,
          local ? 'no source gives a figure' : '',
        ]
          .filter((part) => part !== '')
          .join(' · ')}
        .
      </p>
      <Chosen
        path={id}
        set={set}
        title={title}
        cautious={cautious}
        from={parameter.default}
        said={(one) => said(one as Constant)}
      />
      <Folded
        summary={`${positions.length === 0 ? 'No published position' : counted(positions.length, 'published position')}, used by ${users.length === 0 ? 'no rule directly' : counted(users.length, 'rule')}`}
      >
        {() => (
          <>
            <Positions positions={positions} said={said} inForce={value} onTake={choose} />
            {note !== undefined && <p class="aside">{note}</p>}
            <p class="aside">
              {users.length === 0 ? 'Used by no rule directly' : 'Used by '}
              {users.map(({ set: other, rule, title: name }, index) => (
                <span key={`${other}/${rule}`}>
                  {index > 0 && ', '}
                  <a href={address(['set', other, 'rule', rule])}>{name}</a>
                </span>
              ))}
              . <span class="id">{id}</span>
            </p>
          </>
        )}
      </Folded>
    </section>
  );
}
