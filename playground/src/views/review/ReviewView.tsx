import type { LockedProof } from '@dwellset/authoring';
import type { Outcome, Rule } from '@dwellset/core';
import {
  adoptedWords,
  changedWords,
  counted,
  outcomeWords,
  placesFilled,
  tallyWords,
  upperFirst,
} from '@dwellset/wording';
import { useEffect, useState } from 'preact/hooks';
import { ask, built, ledgerOf, opened, settled } from '../../bench/client.ts';
import { missingIn } from '../../draft/missing.ts';
import { draft } from '../../draft/state.ts';
import { checkOf, OutcomeMark } from '../../parts/Mark.tsx';
import { releaseOf, words } from '../../words.ts';
import { describe } from '../changes/describe.ts';
import { EvidenceLine } from '../choices/Positions.tsx';
import { UNTRIED } from '../ledger/LedgerView.tsx';

/** What a committee needs on paper: what is changed, why, on what grounds, and for whom. */
export function ReviewView() {
  const all = opened.value!;
  const changes = describe(draft.value);
  const missing = missingIn(draft.value, all.sets);
  const { organisation, approverRole, date, id, version } = draft.value.head;
  const [proof, setProof] = useState<LockedProof | undefined>();
  useEffect(() => {
    let wanted = true;
    ask('prove', {}).then(
      (found) => wanted && setProof(found),
      () => undefined,
    );
    return () => {
      wanted = false;
    };
  }, [built.value]);
  const refused = built.value.refused.filter(({ severity }) => severity === 'error').length;
  return (
    <article class="review">
      <header class="title">
        <p class="aside">
          {id} {version} · {organisation || 'organisation to be stated'} ·{' '}
          {approverRole || 'approving role to be stated'} · {date || 'date to be stated'}
        </p>
        <h1>Local changes for approval</h1>
        <p>{adoptedWords(undefined)}</p>
        <p class="no-print">
          <button type="button" class="main" onClick={() => print()}>
            Print
          </button>
        </p>
      </header>
      {missing.length > 0 && changes.length > 0 && (
        <p class="notice-line">Not ready: still to be stated {missing.map(({ what }) => what).join('; ')}.</p>
      )}
      {refused > 0 && (
        <p class="notice-line">
          Not ready: {counted(refused, 'mistake')} stand against these changes, so nothing below was tried
          with them.
        </p>
      )}
      {changes.length === 0 && <p>Nothing is changed: the rules stand as published.</p>}
      {changes.map(({ key, kind, title, what, reason, set }) => (
        <section key={`${kind}-${key}`} class="section">
          <h2>{title}</h2>
          <dl>
            <div>
              <dt>In</dt>
              <dd>{releaseOf(set)?.title}</dd>
            </div>
            <div>
              <dt>Change</dt>
              <dd>{what}</dd>
            </div>
            <div>
              <dt>Reason</dt>
              <dd>{reason || 'still to be stated'}</dd>
            </div>
            {kind === 'choice' && (draft.value.choices[key]?.evidence.length ?? 0) > 0 && (
              <div>
                <dt>Rests on</dt>
                <dd>
                  <ul class="plain">
                    {draft.value.choices[key]!.evidence.map((one) => (
                      <EvidenceLine key={one} id={one} />
                    ))}
                  </ul>
                </dd>
              </div>
            )}
            {kind === 'rule' && <RuleNow set={set} rule={key.split('/')[1]!} />}
          </dl>
        </section>
      ))}
      {all.sets.map(({ id: set }) => (
        <Patients key={set} set={set} />
      ))}
      {changes.length > 0 && (
        <section class="section">
          <h2>Locked rules</h2>
          <p>
            {proof === undefined
              ? 'Being held against the published rules …'
              : proof.lost.length === 0
                ? `In all ${proof.compared} patients of locked rules the outcome and the summary stay as they have to.`
                : `In ${counted(proof.lost.length, 'patient')} a locked rule no longer says what it has to.`}
          </p>
        </section>
      )}
      <section class="section">
        <h2>Which rules</h2>
        <ul class="plain">
          {all.sets.map(({ id: set, release, digest }) => (
            <li key={set}>
              {release.title}{' '}
              <span class="id">
                {set} {release.version} · {release.status} · published {digest.slice(0, 12)}
              </span>
            </li>
          ))}
        </ul>
      </section>
      <section class="section signing">
        <h2>Approval</h2>
        <p>Role and date: …………………………………………………………</p>
        <p>Review due: ………………………………</p>
      </section>
    </article>
  );
}

function RuleNow({ set, rule: id }: { set: string; rule: string }) {
  const ledger = ledgerOf(set);
  ledger.tick.value;
  const rule = releaseOf(set)?.rules.find((one) => one.id === id);
  const before = releaseOf(set, 'base')?.rules.find((one) => one.id === id);
  return (
    <>
      {before?.advice && (
        <div>
          <dt>Published</dt>
          <dd>{placesFilled(before.advice.summary, words.value)}</dd>
        </div>
      )}
      {rule?.advice && rule.advice.summary !== before?.advice?.summary && (
        <div>
          <dt>Here</dt>
          <dd>{placesFilled(rule.advice.summary, words.value)}</dd>
        </div>
      )}
      <div>
        <dt>Patients</dt>
        <dd>{ledger.isMissing ? UNTRIED : tallyWords(ledger.tally(id), rule?.expect !== undefined)}</dd>
      </div>
    </>
  );
}

/** More patients than this are counted; the ledger shows them all. */
const MOST = 20;

/** The invented patients that change, each with the rules that end differently. */
function Patients({ set }: { set: string }) {
  const ledger = ledgerOf(set);
  ledger.tick.value;
  const { changed, reads } = ledger.counts();
  const release = releaseOf(set);
  if (ledger.isMissing && release && built.value.releases[set]) {
    return (
      <section class="section">
        <h2>{release.title}</h2>
        <p>
          <strong>{upperFirst(UNTRIED)}.</strong>
        </p>
      </section>
    );
  }
  if (changed + reads === 0 || !release) return null;
  const moves = new Map<string, { rule: Rule; before: Outcome; now: Outcome; patients: string[] }>();
  ledger.rows.forEach((row, at) => {
    for (const id of ledger.changed(at)) {
      const rule = release.rules.find((one) => one.id === id);
      const [before, now] = [ledger.outcome('base', at, id), ledger.outcome('ours', at, id)];
      if (!rule || !before || !now) continue;
      const key = `${id} ${before} ${now}`;
      const known = moves.get(key) ?? { rule, before, now, patients: [] };
      known.patients.push(row.title);
      moves.set(key, known);
    }
  });
  return (
    <section class="section">
      <h2>{release.title}</h2>
      <p>
        {changedWords(changed, reads)} of {ledger.rows.length} invented patients
        {settled.value ? '' : ' so far'}.
      </p>
      {[...moves].map(([key, { rule, before, now, patients }]) => {
        const check = rule.expect !== undefined;
        const ended = (outcome: Outcome) => (
          <>
            <OutcomeMark outcome={outcome} check={check} />{' '}
            {outcomeWords({ outcome, ...(check && { check: checkOf(outcome) }) })}
          </>
        );
        return (
          <div key={key} class="move-of">
            <h3>{rule.title}</h3>
            <p>
              As published {ended(before)}; here {ended(now)}, for {counted(patients.length, 'patient')}:
            </p>
            <ul>
              {patients.slice(0, MOST).map((title) => (
                <li key={title}>{title}</li>
              ))}
            </ul>
            {patients.length > MOST && <p>and {patients.length - MOST} more, in the ledger.</p>}
          </div>
        );
      })}
    </section>
  );
}
