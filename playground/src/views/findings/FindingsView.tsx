import { ANALYSIS_SAYS, findingsWords, findingWords, proofWords } from '@dwellset/wording';
import { useEffect } from 'preact/hooks';
import { built, opened } from '../../bench/client.ts';
import { findings, found } from '../../findings/client.ts';
import { addressOf, type Which } from '../../findings/name.ts';
import type { FoundHere } from '../../findings/shapes.ts';
import { Running } from '../../parts/Running.tsx';
import { address } from '../../route.ts';
import { releaseOf, words } from '../../words.ts';

const isOpen = ({ finding }: FoundHere): boolean => finding.accepted === undefined;

/** What can be said against the rules by themselves, without waiting for a patient who meets it. */
export function FindingsView() {
  useEffect(findings.open, []);
  const all = found.value;
  const open = all.filter(isOpen);
  const behind = findings.behind.value;
  const isRefused = built.value.refused.some(({ severity }) => severity === 'error');
  return (
    <article class="findings">
      <header class="title">
        <h1>Findings in the rules</h1>
        <p class="aside">
          Looked for without any patient: rules that never apply or contradict each other, patients about whom
          nothing is said, choices that leave nothing, values that change nothing. Where somebody exists who
          should not, an invented patient shows it.
        </p>
      </header>
      <Running
        work={findings}
        words={{
          running: 'The rules are being looked through',
          failed: 'The rules could not be looked through',
          kept: 'What is below was found until then. ',
          next: 'The rules are next …',
          again: 'Look through the rules',
        }}
      />
      {isRefused && (
        <p role="status">
          Your changes hold a mistake, and until then only the published rules are looked through.{' '}
          <a href={address(['changes'])}>Our changes</a>
        </p>
      )}
      <p class="changes-line" role="status">
        <strong>
          {findingsWords(open.length, open.filter(({ published }) => !published).length, !behind)}
        </strong>
        {behind ? ': the rules are not looked through to the end' : ''}
      </p>
      <p class="aside">{ANALYSIS_SAYS}</p>
      <Listed title="By your changes" of={open.filter(({ published }) => !published)} />
      <Listed title="In the published rules" of={open.filter(({ published }) => published)} />
      <Accepted of={all.filter((one) => !isOpen(one))} />
    </article>
  );
}

function Listed({ title, of }: { title: string; of: readonly FoundHere[] }) {
  if (of.length === 0) return null;
  return (
    <section>
      <h2>{title}</h2>
      <ul class="plain found">
        {of.map((one) => (
          <Found key={addressOf(one.finding, 'patient')} one={one} />
        ))}
      </ul>
    </section>
  );
}

function Accepted({ of }: { of: readonly FoundHere[] }) {
  if (of.length === 0) return null;
  return (
    <details>
      <summary>{of.length} found and accepted, with the reason</summary>
      <ul class="plain found">
        {of.map((one) => (
          <Found key={addressOf(one.finding, 'patient')} one={one} />
        ))}
      </ul>
    </details>
  );
}

/** One finding in a sentence, the rules it is about, and who shows it. */
function Found({ one: { finding } }: { one: FoundHere }) {
  const { set, of, locked, certainty, witness, beside, proof, accepted } = finding;
  const release = releaseOf(set);
  const checks = new Set(release?.rules.flatMap(({ id, expect }) => (expect === undefined ? [] : [id])));
  const rules = release?.rules.filter(({ id }) => of.some((name) => name.split('/')[0] === id)) ?? [];
  const patient = (which: Which, text: string) => <a href={addressOf(finding, which)}>{text}</a>;
  return (
    <li>
      <p class="aside">
        {opened.value?.sets.find(({ id }) => id === set)?.release.title}
        {locked && ' · locked'}
        {certainty === 'possible' && ' · possible, not shown'}
      </p>
      <p>{findingWords(finding, words.value, checks)}</p>
      {accepted && <p>Accepted: {accepted.reason}</p>}
      {proof && !witness && <p class="aside">{proofWords(proof.facts, certainty)}</p>}
      <p class="leads">
        {witness && patient('patient', 'A patient who shows it')}
        {beside && patient('below', 'The same just below')}
        {beside && patient('above', 'The same just above')}
        {rules.map(({ id, title }) => (
          <a key={id} href={address(['set', set, 'rule', id])}>
            {title}
          </a>
        ))}
      </p>
    </li>
  );
}
