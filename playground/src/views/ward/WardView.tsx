import type { RuleChanges } from '@dwellset/authoring';
import {
  affectedWords,
  moveWords,
  thousands,
  WARD_CAUTION,
  WARD_COUNTED,
  wardChangedWords,
  wardSizeWords,
} from '@dwellset/wording';
import { useEffect } from 'preact/hooks';
import { built, opened } from '../../bench/client.ts';
import { changeCount } from '../../draft/draft.ts';
import { draft } from '../../draft/state.ts';
import { OutcomeMark } from '../../parts/Mark.tsx';
import { Running } from '../../parts/Running.tsx';
import { address } from '../../route.ts';
import { WARD_DAYS, ward, wardResult, wardTitle } from '../../ward/client.ts';
import type { WardResult } from '../../ward/shapes.ts';
import { releaseOf } from '../../words.ts';
import { BurdenTable } from './BurdenTable.tsx';

/** Ten thousand days of an invented ward by the published rules and by the author's. */
export function WardView() {
  useEffect(ward.open, []);
  const result = wardResult.value;
  return (
    <article class="ward">
      <header class="title">
        <h1>Whom it affects</h1>
        <p class="aside">
          {wardTitle.value === '' ? 'An invented ward' : wardTitle.value},{' '}
          {result ? wardSizeWords(result.days, result.patients) : `${thousands(WARD_DAYS)} patient-days`}:
          each day's chart is tried by the published rules and by yours.
        </p>
        <p>
          <strong>{WARD_CAUTION}</strong>
        </p>
      </header>
      <Running
        work={ward}
        words={{
          running: result ? 'The ward is being tried again' : 'The ward is being read and tried',
          failed: 'The ward could not be tried',
          kept: result ? 'The figures below are of the run before. ' : '',
          next: 'The ward is next …',
          again: 'Try the ward',
        }}
      />
      {result && <Changes result={result} />}
      {result && <BurdenTable base={result.base} ours={result.ours} />}
    </article>
  );
}

function Changes({ result }: { result: WardResult }) {
  const { changes } = result;
  const isRefused = built.value.refused.some(({ severity }) => severity === 'error');
  const behind = ward.behind.value || isRefused;
  if (changeCount(draft.value) === 0 || !changes) {
    return (
      <p class="changes-line" role="status">
        {isRefused
          ? 'Your changes hold a mistake, and until then the ward is tried by the published rules only.'
          : changeCount(draft.value) === 0
            ? 'Nothing is changed yet: the ward is tried by the published rules only.'
            : 'Your changes make no rule differ.'}{' '}
        <a href={address(['changes'])}>Our changes</a>
      </p>
    );
  }
  return (
    <section aria-busy={behind}>
      <h2>Changed outcomes</h2>
      <p class="changes-line" role="status">
        <strong>{wardChangedWords(changes, result)}</strong>
        {behind ? ' by the changes before the last; the newest are being tried' : ''}
      </p>
      <p class="aside">{WARD_COUNTED}</p>
      {changes.rules.map((rule) => (
        <RuleMoves key={`${rule.set}/${rule.rule}`} rule={rule} named={result.named} />
      ))}
    </section>
  );
}

function RuleMoves({ rule, named }: { rule: RuleChanges; named: WardResult['named'] }) {
  const release = releaseOf(rule.set);
  const title = release?.rules.find(({ id }) => id === rule.rule)?.title ?? rule.rule;
  return (
    <section class="moved">
      <h3>
        <a href={address(['set', rule.set, 'rule', rule.rule])}>{title}</a>
      </h3>
      <p class="aside">
        {release?.title ?? opened.value?.sets.find(({ id }) => id === rule.set)?.release.title}:{' '}
        {affectedWords(rule.days, rule.patients)}
      </p>
      <ul class="plain">
        {rule.moves.map(({ before, now, days, patients, examples }) => {
          const [from, to] = moveWords(before, now);
          return (
            <li key={`${before} ${now}`}>
              <span class="direction">
                {before && <OutcomeMark outcome={before} />} {from} → <OutcomeMark outcome={now} /> {to}
              </span>
              <span>{affectedWords(days, patients)}</span>
              <span class="examples">
                {examples.map((row) => (
                  <a key={row} href={address(['ward', String(row)])}>
                    patient {named[row]?.patient}, day {named[row]?.day}
                  </a>
                ))}
              </span>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
