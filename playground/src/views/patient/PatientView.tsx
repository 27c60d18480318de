import type { Case } from '@dwellset/core';
import { counted, endedWords, upperFirst } from '@dwellset/wording';
import { useSignal } from '@preact/signals';
import { useEffect, useMemo } from 'preact/hooks';
import { ask, ledgerOf, opened } from '../../bench/client.ts';
import { changeCount } from '../../draft/draft.ts';
import { draft } from '../../draft/state.ts';
import { save } from '../../files/save.ts';
import { lazily } from '../../parts/lazily.tsx';
import { OutcomeMark } from '../../parts/Mark.tsx';
import { address, go } from '../../route.ts';
import { useAssessment, usePatient } from '../reasons/useAssessment.ts';
import { AssessmentView } from './AssessmentView.tsx';
import { CaseText } from './CaseText.tsx';
import { Keep } from './Keep.tsx';
import { Questions } from './Questions.tsx';
import { newPatient, patient, takenFrom } from './state.ts';
import { onTheClock, withOffset } from './zoned.ts';

const Timeline = lazily(() => import('./Timeline.tsx').then(({ Timeline }) => Timeline), 'The timeline');

/** A patient by the rules in force here: the questions on one side, what follows on the other. */
export function PatientView({
  set,
  from,
  given,
}: {
  set?: string;
  from: string | null;
  /** A patient from elsewhere, such as a day of an invented ward. */
  given?: { readonly name: string; readonly title: string; readonly case: Case };
}) {
  const all = opened.value?.sets ?? [];
  const chosen = useSignal(set ?? '');
  const at = useSignal<string | undefined>(undefined);
  const published = usePatient(set ?? '', set === undefined ? null : from);
  const isMissing = given === undefined && published === null;
  const loaded = given?.case ?? published;
  const name = given?.name ?? (set !== undefined && from !== null ? `${set}/${from}` : undefined);
  useEffect(() => {
    if (loaded && name !== undefined && takenFrom.value !== name) {
      takenFrom.value = name;
      patient.value = loaded;
      at.value = undefined;
    }
  }, [loaded, name]);
  /** The one that the address names is not here yet; the one tried before must not be taken for them. */
  const isComing = name !== undefined && takenFrom.value !== name && !isMissing;
  const sets = chosen.value === '' ? all.map(({ id }) => id) : [chosen.value];
  const tried = useMemo(
    (): Case => (at.value === undefined ? patient.value : { ...patient.value, asOf: at.value }),
    [patient.value, at.value],
  );
  const ours = useAssessment('ours', sets, isComing ? undefined : tried);
  const title =
    given?.title ??
    (name === undefined
      ? 'A patient'
      : (ledgerOf(set!).rows.find(({ key }) => key === from)?.title ?? 'A patient'));
  return (
    <article class="wide two patient">
      <div>
        <header class="title">
          <h1>{upperFirst(title)}</h1>
          <p class="aside">
            {name === undefined
              ? 'Answer what is known; leave out what nobody has supplied. Nothing that you enter leaves this page. Use invented patients only.'
              : 'An invented patient. Change an answer to see what would follow; the one you opened stays as it is.'}
          </p>
        </header>
        <Bar chosen={chosen.value} onChosen={(one) => (chosen.value = one)} name={name} />
        <Moment />
        {isMissing && (
          <p class="notice-line">
            No patient of this name was found in this set; below is the one that was tried last.
          </p>
        )}
        {/* Another patient is another form: changed field by field it would hold the page up. */}
        {!isComing && <Questions key={takenFrom.value} sets={sets} />}
        <CaseText />
      </div>
      <div class="beside-wide" aria-live="off">
        <Difference sets={sets} tried={tried} />
        {ours.failed !== undefined && <p role="alert">{ours.failed}</p>}
        {ours.assessment ? (
          <AssessmentView assessment={ours.assessment}>
            <Timeline
              sets={sets}
              patient={patient.value}
              at={at.value}
              onAt={(one: string | undefined) => (at.value = one)}
            />
          </AssessmentView>
        ) : (
          <p class="aside">The patient is being tried …</p>
        )}
      </div>
    </article>
  );
}

function Bar({
  chosen,
  onChosen,
  name,
}: {
  chosen: string;
  onChosen: (set: string) => void;
  name: string | undefined;
}) {
  return (
    <div class="tools">
      <label>
        <span>Tried by</span>
        <select value={chosen} onInput={(event) => onChosen(event.currentTarget.value)}>
          <option value="">all rule sets</option>
          {opened.value?.sets.map(({ id, release }) => (
            <option key={id} value={id}>
              {release.title}
            </option>
          ))}
        </select>
      </label>
      <button
        type="button"
        onClick={() => {
          newPatient();
          if (name !== undefined) go(['patient']);
        }}
      >
        A new patient
      </button>
      {chosen !== '' && <Keep set={chosen} />}
      <SaveAssessment sets={chosen === '' ? (opened.value?.sets ?? []).map(({ id }) => id) : [chosen]} />
    </div>
  );
}

function SaveAssessment({ sets }: { sets: readonly string[] }) {
  return (
    <button
      type="button"
      onClick={async () => {
        const { assessment } = await ask('assess', { side: 'ours', sets, patient: patient.value });
        save('assessment.json', JSON.stringify(assessment, null, 2));
      }}
    >
      Save the assessment
    </button>
  );
}

/** What the author's changes do to this patient. */
function Difference({ sets, tried }: { sets: readonly string[]; tried: Case }) {
  const changed = changeCount(draft.value) > 0;
  const base = useAssessment('base', sets, changed ? tried : undefined).assessment;
  const ours = useAssessment('ours', sets, changed ? tried : undefined).assessment;
  if (!changed || !base || !ours) return null;
  const before = new Map(
    base.ruleSets.flatMap((set) => set.rules.map((rule) => [`${set.id}/${rule.id}`, rule] as const)),
  );
  const moved = ours.ruleSets.flatMap((set) =>
    set.rules.flatMap((rule) => {
      const was = before.get(`${set.id}/${rule.id}`);
      return was?.outcome === rule.outcome ? [] : [{ set: set.id, rule, was }];
    }),
  );
  return (
    <p class="changes-line">
      <strong>
        {moved.length === 0
          ? 'Your changes move no rule for this patient'
          : `${counted(moved.length, 'rule')} ${moved.length === 1 ? 'ends' : 'end'} differently by your changes`}
      </strong>
      {moved.map(({ set, rule, was }) => (
        <span class="move" key={`${set}/${rule.id}`}>
          <a href={address(['set', set, 'rule', rule.id])}>{rule.title}</a>:{' '}
          {was && (
            <>
              <OutcomeMark outcome={was.outcome} check={was.check !== undefined} /> {endedWords(was)} →{' '}
            </>
          )}
          <OutcomeMark outcome={rule.outcome} check={rule.check !== undefined} /> {endedWords(rule)}
        </span>
      ))}
    </p>
  );
}

function Moment() {
  const { asOf, timeZone, recordedAt } = patient.value;
  return (
    <div class="tools">
      <label>
        <span>As of ({timeZone})</span>
        <input
          type="datetime-local"
          value={onTheClock(asOf, timeZone)}
          onInput={(event) => {
            if (event.currentTarget.value !== '')
              patient.value = { ...patient.value, asOf: withOffset(event.currentTarget.value, timeZone) };
          }}
        />
      </label>
      <label>
        <span>Recorded at, unless said</span>
        <input
          type="datetime-local"
          value={recordedAt === undefined ? '' : onTheClock(recordedAt, timeZone)}
          onInput={(event) => {
            const { recordedAt: _, ...others } = patient.value;
            const local = event.currentTarget.value;
            patient.value = local === '' ? others : { ...others, recordedAt: withOffset(local, timeZone) };
          }}
        />
      </label>
    </div>
  );
}
