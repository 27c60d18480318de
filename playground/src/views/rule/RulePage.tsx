import type { Condition, Rule } from '@dwellset/core';
import { counted, LOCKED, placesFilled, sentenceWith, tallyWords, upperFirst } from '@dwellset/wording';
import type { JSONPath } from 'jsonc-parser';
import { ledgerOf, opened } from '../../bench/client.ts';
import { editRule } from '../../draft/edit.ts';
import { edited } from '../../draft/ruleText.ts';
import { Beside } from '../../parts/Beside.tsx';
import { Later } from '../../parts/Later.tsx';
import { Problems } from '../../parts/Problems.tsx';
import { Reason } from '../../parts/Reason.tsx';
import { address, route } from '../../route.ts';
import { releaseOf, words } from '../../words.ts';
import { EvidenceLine } from '../choices/Positions.tsx';
import { conditionsBehind } from '../choices/users.ts';
import { ForPatient } from '../reasons/ForPatient.tsx';
import type { Editing } from './editing.ts';
import { Outline } from './Outline.tsx';
import { isCondition } from './outline.ts';
import { RuleText } from './RuleText.tsx';
import { mended } from './textPlace.ts';
import { type RuleAtHand, useRule } from './useRule.ts';

/** One rule: what it says and for whom, as a sentence, as an outline and as text, and the patients it changes. */
export function RulePage({ set, id }: { set: string; id: string }) {
  const at = useRule(set, id);
  const release = releaseOf(set);
  const { rule, edit, published } = at;
  if (!release || !rule) {
    return (
      <article>
        <h1>No such rule</h1>
        <p>
          <a href={address(['set', set])}>Back to the ledger</a>
        </p>
      </article>
    );
  }
  const patient = route.value.options.get('for');
  const locked = published?.locked === true;
  const mistakes = at.found.filter(({ severity }) => severity === 'error');
  const editing: Editing = {
    set,
    conditions: release.conditions,
    ofOptions: false,
    disabled: locked || at.broken || edit?.off === true,
    put: (path: JSONPath, value: unknown) => at.setText(edited(at.text, path, value)),
  };
  return (
    <article class="wide two">
      <div class="rule-page">
        <header class="title">
          <p class="aside">
            <a href={address(['set', set])}>{release.title}</a> · {state(at)} ·{' '}
            <span class="id">{at.key}</span>
          </p>
          <h1>{rule.title}</h1>
          <p class="tally">
            {edit?.off ? (
              'Switched off here.'
            ) : (
              <Ends set={set} id={id} isCheck={rule.expect !== undefined} />
            )}
          </p>
        </header>
        {locked && (
          <p class="notice-line">
            {upperFirst(LOCKED)}, replace it or reword it, because patients were harmed where this was missing
            or late. Lines may be added to it, and its urgency raised.
          </p>
        )}
        <Says rule={rule} conditions={release.conditions} />
        {edit && <Edit at={at} />}
        {mistakes.length > 0 && (
          <section aria-labelledby="mistakes">
            <h2 id="mistakes">{counted(mistakes.length, 'mistake')} in this rule</h2>
            <Problems
              found={at.found}
              places
              onFix={(one, to) => at.setText(mended(at.text, one.range, to), `put ${to}`)}
            />
            <p class="aside">Until they are mended, the patients are tried by the rules as published.</p>
          </section>
        )}
        {patient !== null && <ForPatient set={set} rule={id} patient={patient} />}
        <section aria-labelledby="outline">
          <h2 id="outline">Outline</h2>
          {at.broken && (
            <p class="aside">The text below cannot be read at the moment; this is how it read last.</p>
          )}
          <Later>
            {() => <Outline at={at} rule={rule} editing={editing} locked={locked} release={release} />}
          </Later>
        </section>
        <Later>{() => <RuleText at={at} readOnly={locked || edit?.off === true} />}</Later>
        <section aria-labelledby="evidence">
          <h2 id="evidence">What it rests on</h2>
          <Evidence ids={Array.isArray(rule.evidence) ? rule.evidence : []} />
        </section>
      </div>
      <Later>{() => <Beside set={set} rule={id} />}</Later>
    </article>
  );
}

/** How the rule ends over all invented patients. */
function Ends({ set, id, isCheck }: { set: string; id: string; isCheck: boolean }) {
  const ledger = ledgerOf(set);
  ledger.tick.value;
  return <>{tallyWords(ledger.tally(id), isCheck)}</>;
}

function state({ edit, published, text, publishedText }: RuleAtHand): string {
  if (edit?.off) return 'switched off here';
  if (!published) return 'a rule of our own';
  return text === publishedText ? 'as published' : 'changed here';
}

const HEADINGS: readonly (readonly [heading: string, part: (rule: Rule) => unknown])[] = [
  ['Only where', ({ scope }) => scope],
  ['When', ({ when }) => when],
  ['Has to hold', ({ expect }) => expect],
  ['Rules out', ({ excludes }) => excludes],
  ['Prefers', ({ prefers }) => (prefers && 'options' in prefers ? prefers.options : undefined)],
  ['Remarks on', ({ remarks }) => remarks],
];

/** The rule in plain sentences, with what its named conditions mean. */
function Says({ rule, conditions }: { rule: Rule; conditions: Readonly<Record<string, Condition>> }) {
  const told = (value: unknown): string =>
    isCondition(value) ? sentenceWith(value, words.value) : 'This part cannot be put into a sentence yet.';
  const behind = conditionsBehind(rule, conditions);
  return (
    <section class="says" aria-label="The rule in words">
      <dl>
        {HEADINGS.flatMap(([heading, part]) => {
          const value = part(rule);
          return value === undefined ? [] : [<Line key={heading} heading={heading} text={told(value)} />];
        })}
        {rule.prefers && 'lowest' in rule.prefers && (
          <Line
            heading="Prefers"
            text={`The lowest ${words.value.facts.get(rule.prefers.lowest)?.title ?? rule.prefers.lowest} first.`}
          />
        )}
        {rule.advice && (
          <Line heading="Says" text={placesFilled(String(rule.advice.summary), words.value)} strong />
        )}
        <Line heading="Because" text={placesFilled(String(rule.because), words.value)} />
      </dl>
      {behind.length > 0 && (
        <details>
          <summary>{counted(behind.length, 'named condition')} behind it</summary>
          <dl>
            {behind.map((name) => (
              <Line key={name} heading={name.replaceAll('-', ' ')} text={told(conditions[name])} />
            ))}
          </dl>
        </details>
      )}
    </section>
  );
}

const Line = ({ heading, text, strong = false }: { heading: string; text: string; strong?: boolean }) => (
  <div>
    <dt>{heading}</dt>
    <dd class={strong ? 'summary' : undefined}>{text}</dd>
  </div>
);

function Edit({ at }: { at: RuleAtHand }) {
  const { key, edit, published, publishedText, rule } = at;
  const all = opened.value;
  if (!edit || !all) return null;
  const what = published?.title ?? rule?.title ?? key;
  return (
    <section class="choice edited" aria-label="Your change">
      <Reason
        label={edit.off ? 'Why it is switched off here' : 'Why we change this rule'}
        value={edit.reason}
        onReason={(reason) => editRule(all, key, `reason for ${what}`, (known) => ({ ...known, reason }))}
      />
      {published && publishedText !== undefined && !edit.off && (
        <details>
          <summary>The text as published</summary>
          <pre>{publishedText}</pre>
        </details>
      )}
      <p>
        <button
          type="button"
          onClick={() => {
            editRule(all, key, `take back ${what}`, () => undefined);
          }}
        >
          {published ? 'Take back, as published' : 'Remove this rule'}
        </button>
      </p>
    </section>
  );
}

/** The first statement is the primary one; a long list unfolds. */
function Evidence({ ids }: { ids: readonly string[] }) {
  const lines = (some: readonly string[]) => (
    <ul class="plain evidence">
      {some.map((one) => (
        <EvidenceLine key={one} id={one} />
      ))}
    </ul>
  );
  return (
    <>
      {ids.length === 0 ? <p class="aside">It cites nothing.</p> : lines(ids.slice(0, 2))}
      {ids.length > 2 && (
        <details>
          <summary>and {ids.length - 2} more</summary>
          {lines(ids.slice(2))}
        </details>
      )}
    </>
  );
}
