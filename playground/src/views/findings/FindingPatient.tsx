import { useEffect } from 'preact/hooks';
import { findings, found } from '../../findings/client.ts';
import { nameOf, shownIn } from '../../findings/name.ts';
import { address } from '../../route.ts';
import { PatientView } from '../patient/PatientView.tsx';

const TITLES: Readonly<Record<string, string>> = {
  below: 'An invented patient just below the value',
  above: 'An invented patient just above the value',
};

/** The patient who shows a finding; after a reload the rules are looked through again first. */
export function FindingPatient({ name, which }: { name: string; which: string }) {
  useEffect(findings.open, []);
  const one = found.value.find(({ finding }) => nameOf(finding) === name);
  const shown = one && shownIn(one.finding, which);
  const back = <a href={address(['findings'])}>Findings in the rules</a>;
  if (shown) {
    const title = TITLES[which] ?? 'An invented patient who shows a finding';
    return (
      <>
        <p class="aside">{back}</p>
        <PatientView from={null} given={{ name: `findings/${name}/${which}`, title, case: shown.case }} />
      </>
    );
  }
  if (findings.failure.value !== undefined) {
    return <p role="alert">The rules could not be looked through: {findings.failure.value}.</p>;
  }
  if (findings.behind.value && !findings.stopped.value) {
    return <p role="status">The rules are being looked through …</p>;
  }
  return (
    <article>
      <h1>No such finding</h1>
      <p>By the rules as they are now nothing like it is found. {back}</p>
    </article>
  );
}
