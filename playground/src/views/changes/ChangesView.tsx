import { counted } from '@dwellset/wording';
import { built, opened, tried } from '../../bench/client.ts';
import { changeCount, type Draft, EMPTY, put } from '../../draft/draft.ts';
import { editDraft } from '../../draft/edit.ts';
import { missingIn } from '../../draft/missing.ts';
import { refusalsIn } from '../../draft/refusals.ts';
import { draft } from '../../draft/state.ts';
import { toAmendment } from '../../draft/toAmendment.ts';
import { save } from '../../files/save.ts';
import { Problems } from '../../parts/Problems.tsx';
import { Reason } from '../../parts/Reason.tsx';
import { address } from '../../route.ts';
import { releaseOf } from '../../words.ts';
import { Changed } from '../ledger/LedgerView.tsx';
import { type Described, describe } from './describe.ts';
import { Import } from './Import.tsx';

/** Everything the author has changed, what is still to be stated, and the way out as a file. */
export function ChangesView() {
  const all = opened.value!;
  const changes = describe(draft.value);
  const missing = missingIn(draft.value, all.sets);
  const refusals = refusalsIn(tried.value, built.value.refused);
  const amendment = toAmendment(draft.value, all.sets);
  const moved = movedOn(draft.value);
  return (
    <article class="changes-page">
      <header class="title">
        <h1>Our changes</h1>
        <p class="aside">
          One document for your hospital. The published rules stay as they are; these changes stand on top of
          them, each with its reason.
        </p>
      </header>
      {changeCount(draft.value) > 0 && <Changed set={changes[0]?.set ?? all.sets[0]!.id} />}
      {moved.length > 0 && <MovedOn sets={moved} />}
      {refusals.length > 0 && (
        <section class="section" aria-labelledby="refused">
          <h2 id="refused">What stands against it</h2>
          {[...new Set(refusals.map(({ set, item }) => `${set ?? ''}/${item ?? ''}`))].map((place) => {
            const own = refusals.filter(({ set, item }) => `${set ?? ''}/${item ?? ''}` === place);
            const change = changes.find(
              ({ key, set, title: _ }) =>
                place === `${set}/${key}` || place === key || place.endsWith(`/${key}`),
            );
            return (
              <div key={place}>
                {change && (
                  <p>
                    <a href={address(change.page)}>{change.title}</a>
                  </p>
                )}
                <Problems found={own.map(({ diagnostic }) => diagnostic)} />
              </div>
            );
          })}
        </section>
      )}
      <section class="section" aria-labelledby="changes">
        <h2 id="changes">
          {changes.length === 0 ? 'Nothing is changed yet' : counted(changes.length, 'change')}
        </h2>
        {changes.length === 0 && (
          <p>
            Change a <a href={address(['set', all.sets[0]!.id, 'choices'])}>local choice</a> or a rule of the{' '}
            <a href={address(['set', all.sets[0]!.id])}>ledger</a>, or open an amendment below.
          </p>
        )}
        {changes.map((change) => (
          <Change key={`${change.kind}-${change.key}`} change={change} />
        ))}
      </section>
      {changes.length > 0 && <Head />}
      {changes.length > 0 && (
        <section class="section" aria-labelledby="hand-on">
          <h2 id="hand-on">Hand on</h2>
          {missing.length > 0 && (
            <>
              <p>Still to be stated before anybody can approve it:</p>
              <ul>
                {missing.map(({ what }) => (
                  <li key={what}>{what}</li>
                ))}
              </ul>
            </>
          )}
          <p>
            <button
              type="button"
              class="main"
              onClick={() => amendment && save('amendment.json', `${JSON.stringify(amendment, null, 2)}\n`)}
            >
              {missing.length === 0
                ? 'Save the amendment as a file'
                : 'Save the unfinished amendment as a file'}
            </button>
          </p>
          {Object.entries(draft.value.own).map(([set, document]) => (
            <p key={set}>
              <button
                type="button"
                onClick={() => save(`own.vignettes.json`, `${JSON.stringify(document, null, 2)}\n`)}
              >
                Save our {counted(document.vignettes.length, 'patient')} of {releaseOf(set)?.title}
              </button>
            </p>
          ))}
        </section>
      )}
      <Import />
      {changes.length > 0 && (
        <p class="section">
          <button
            type="button"
            onClick={() => editDraft(all, 'begin again', (before) => ({ ...EMPTY, own: before.own }))}
          >
            Take back every change
          </button>
        </p>
      )}
    </article>
  );
}

function Change({ change }: { change: Described }) {
  const all = opened.value!;
  const { kind, key, title, what, reason, page, set } = change;
  const edit = (how: string, make: (draft: Draft) => Draft) => editDraft(all, `${how} ${title}`, make);
  const list = kind === 'choice' ? 'choices' : kind === 'rule' ? 'rules' : 'stock';
  const withReason = (before: Draft, text: string): Draft => {
    const known = before[list][key];
    return known
      ? {
          ...before,
          [list]: put(before[list] as Readonly<Record<string, { reason: string }>>, key, {
            ...known,
            reason: text,
          }),
        }
      : before;
  };
  return (
    <div class="choice">
      <p class="aside">{releaseOf(set)?.title}</p>
      <h3>
        <a href={address(page)}>{title}</a>
      </h3>
      <p>{what}</p>
      <Reason
        label="Reason"
        value={reason}
        onReason={(text) => edit('reason for', (before) => withReason(before, text))}
      />
      <button
        type="button"
        onClick={() =>
          edit('take back', (before) => ({
            ...before,
            [list]: put(before[list] as Readonly<Record<string, unknown>>, key, undefined),
          }))
        }
      >
        Take back<span class="unseen"> {title}</span>
      </button>
    </div>
  );
}

const FIELDS = [
  ['organisation', 'Organisation', 'text'],
  ['approverRole', 'Role that approves', 'text'],
  ['date', 'Date', 'date'],
  ['version', 'Version', 'text'],
  ['id', 'Name of the document', 'text'],
] as const;

function Head() {
  const all = opened.value!;
  return (
    <section class="section" aria-labelledby="head">
      <h2 id="head">Who, and when</h2>
      {FIELDS.map(([key, label, type]) => (
        <label class="field" key={key}>
          <span>{label}</span>
          <input
            {...({ type } as { type: 'text' })}
            value={draft.value.head[key]}
            onInput={(event) => {
              const value = event.currentTarget.value;
              editDraft(all, `state ${label}`, (before) => ({
                ...before,
                head: { ...before.head, [key]: value },
                ...(key === 'organisation' && {
                  sources: before.sources.map((source) =>
                    source.kind === 'local-policy' ? { ...source, body: value } : source,
                  ),
                }),
              }));
            }}
          />
        </label>
      ))}
    </section>
  );
}

/** Sets whose published text is no longer the one that the changes were made on. */
function movedOn(draft: Draft): string[] {
  return (opened.value?.sets ?? []).flatMap(({ id, digest, release }) => {
    const base = draft.base[id];
    return base && (base.digest !== digest || base.version !== release.version) ? [id] : [];
  });
}

function MovedOn({ sets }: { sets: readonly string[] }) {
  const all = opened.value!;
  return (
    <section class="section" aria-labelledby="moved">
      <h2 id="moved">The published rules have moved on</h2>
      <p>
        Your changes were made on another text of{' '}
        {sets.map((set) => releaseOf(set, 'base')?.title).join(', ')}. Nothing of yours is overwritten, and
        nothing is tried until you have looked at every item below: it says what stands there now.
      </p>
      <button
        type="button"
        onClick={() =>
          editDraft(all, 'take the new base', (before) => ({
            ...before,
            base: {
              ...before.base,
              ...Object.fromEntries(
                all.sets
                  .filter(({ id }) => sets.includes(id))
                  .map(({ id, release, digest }) => [id, { version: release.version, digest }]),
              ),
            },
          }))
        }
      >
        I have looked at every item: stand on the new text
      </button>
    </section>
  );
}
