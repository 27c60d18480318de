import type { CautiousSide, CellValue, Constant, Parameter, Position } from '@dwellset/core';
import {
  cautiousWords,
  counted,
  lowerFirst,
  rangeWords,
  sourceWords,
  statusWords,
  upperFirst,
  valueWords,
} from '@dwellset/wording';
import { useSignal } from '@preact/signals';
import { built, opened } from '../../bench/client.ts';
import {
  citePolicy,
  type PolicyCited,
  policyCited,
  setChoice,
  setChoiceReason,
  takeBackChoice,
} from '../../draft/edit.ts';
import { draft } from '../../draft/state.ts';
import { needsPolicy } from '../../draft/toAmendment.ts';
import { Beside } from '../../parts/Beside.tsx';
import { Problems } from '../../parts/Problems.tsx';
import { Reason } from '../../parts/Reason.tsx';
import { SetPicker } from '../../parts/SetPicker.tsx';
import { ValueField } from '../../parts/ValueField.tsx';
import { address } from '../../route.ts';
import { evidenceOf, releaseOf, sourceOf, words } from '../../words.ts';
import { TableChoices } from './TableChoices.tsx';
import { usersOf } from './users.ts';

/** The values that a hospital sets for itself, with what stands behind each. */
export function ChoicesView({ set }: { set: string }) {
  const release = releaseOf(set, 'base');
  const search = useSignal('');
  if (!release) return null;
  const wanted = search.value.trim().toLowerCase();
  const found = release.parameters.filter(({ title, id }) => `${title} ${id}`.toLowerCase().includes(wanted));
  const tables = release.tables.filter(({ title, id }) => `${title} ${id}`.toLowerCase().includes(wanted));
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
        {release.parameters.length + release.tables.length > 6 && (
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
        {found.map((parameter) => (
          <ParameterChoice key={parameter.id} parameter={parameter} set={set} />
        ))}
        {tables.map((table) => (
          <TableChoices key={table.id} table={table} set={set} />
        ))}
        {release.parameters.length + release.tables.length === 0 && <p>This set has no local choices.</p>}
      </div>
      <Beside set={set} />
    </article>
  );
}

function ParameterChoice({ parameter, set }: { parameter: Parameter; set: string }) {
  const { id, title, range, cautious, positions, note, local } = parameter;
  const edit = draft.value.choices[id];
  const value = (edit?.value ?? parameter.default) as Constant;
  const codes = parameter.codes === undefined ? undefined : words.value.codes[parameter.codes];
  const said = (one: Constant) => valueWords(one, parameter, words.value);
  const isLong = parameter.type === 'codes';
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
      <details>
        <summary>
          {positions.length === 0 ? 'No published position' : counted(positions.length, 'published position')}
          , used by {usersOf(id).length === 0 ? 'no rule directly' : counted(usersOf(id).length, 'rule')}
        </summary>
        <Positions positions={positions} said={said} inForce={value} onTake={choose} />
        {note !== undefined && <p class="aside">{note}</p>}
        <p class="aside">
          Used by{' '}
          {usersOf(id).map(({ set: other, rule, title: name }, index) => (
            <span key={`${other}/${rule}`}>
              {index > 0 && ', '}
              <a href={address(['set', other, 'rule', rule])}>{name}</a>
            </span>
          ))}
          . <span class="id">{id}</span>
        </p>
      </details>
    </section>
  );
}

interface PositionsProps {
  readonly positions: readonly Position[];
  readonly said: (value: Constant) => string;
  readonly inForce: unknown;
  readonly onTake: (value: Constant) => void;
}

/** What sources stand for, each with its sources; one click takes it. */
export function Positions({ positions, said, inForce, onTake }: PositionsProps) {
  return (
    <ul class="plain positions">
      {positions.map(({ value, evidence, note }, index) => (
        <li key={index}>
          <strong>{upperFirst(said(value))}</strong>{' '}
          {JSON.stringify(value) === JSON.stringify(inForce) ? (
            <span class="id">in force</span>
          ) : (
            <button type="button" onClick={() => onTake(value)}>
              Take this
            </button>
          )}
          {note !== undefined && <p class="aside">{note}</p>}
          <ul class="plain">
            {evidence.map((id) => (
              <EvidenceLine key={id} id={id} />
            ))}
          </ul>
        </li>
      ))}
    </ul>
  );
}

/** One statement with its sources and how it is known. */
export function EvidenceLine({ id }: { id: string }) {
  const found = evidenceOf(id);
  if (!found) return <li class="aside">{id}: stated nowhere</li>;
  return (
    <li>
      {found.statement} <span class="id">{id}</span>
      {found.from.map((item, index) => {
        const source = sourceOf(item.source);
        return (
          <div class="aside" key={index}>
            {source
              ? sourceWords({
                  ...item,
                  body: source.body,
                  title: source.title,
                  ...(source.year !== undefined && { year: source.year }),
                  ...(source.edition !== undefined && { edition: source.edition }),
                })
              : statusWords(item.status)}
          </div>
        );
      })}
    </li>
  );
}

interface ChosenProps {
  readonly path: string;
  readonly set: string;
  readonly title: string;
  readonly cautious: CautiousSide;
  readonly from: Constant | CellValue;
  readonly said: (value: Constant | CellValue) => string;
}

/** Which way a number went from the published one. */
function sideOf(cautious: CautiousSide, from: unknown, to: unknown): string | undefined {
  if (cautious === 'neither' || typeof from !== 'number' || typeof to !== 'number' || from === to)
    return undefined;
  const safer = cautious === 'lower' ? to < from : to > from;
  return safer
    ? 'This is on the cautious side of the published value.'
    : 'This is away from the cautious side.';
}

/** What goes with a choice that was made: what stands against it, its reason, its policy, and the way back. */
export function Chosen({ path, set, title, cautious, from }: ChosenProps) {
  const edit = draft.value.choices[path];
  const release = releaseOf(set, 'base');
  if (!edit || !release || !opened.value) return null;
  const at = `/set/${path.replaceAll('/', '~1')}`;
  const refused = built.value.refused.filter(({ pointer }) => pointer.endsWith(at));
  const unsourced = needsPolicy(path, edit, release);
  const side = sideOf(cautious, from, edit.value);
  const all = opened.value;
  return (
    <div class="chosen">
      <Problems found={refused} />
      {side !== undefined && <p class="aside">{side}</p>}
      <Reason
        label="Why we choose this"
        value={edit.reason}
        onReason={(reason) => setChoiceReason(all, path, lowerFirst(title), reason)}
      />
      {unsourced && <Policy path={path} title={title} />}
      <button type="button" onClick={() => takeBackChoice(all, path, lowerFirst(title))}>
        Take back, as published
      </button>
    </div>
  );
}

function Policy({ path, title }: { path: string; title: string }) {
  const cited = policyCited(draft.value, path);
  const cite = (part: Partial<PolicyCited>) =>
    opened.value && citePolicy(opened.value, path, lowerFirst(title), { ...cited, ...part });
  const field = (label: string, key: 'title' | 'section' | 'statement') => (
    <label class="field">
      <span>{label}</span>
      <input type="text" value={cited[key]} onInput={(event) => cite({ [key]: event.currentTarget.value })} />
    </label>
  );
  return (
    <fieldset class="policy">
      <legend>No published source stands for this value: name the local policy it rests on</legend>
      {field('Policy', 'title')}
      {field('Section', 'section')}
      {field('What it says, in our words', 'statement')}
      <label>
        <input
          type="checkbox"
          checked={cited.read}
          onInput={(event) => cite({ read: event.currentTarget.checked })}
        />{' '}
        I have read this passage (otherwise it counts as {statusWords('memory')})
      </label>
    </fieldset>
  );
}
