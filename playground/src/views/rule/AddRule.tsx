import { useSignal } from '@preact/signals';
import { opened } from '../../bench/client.ts';
import { editRule } from '../../draft/edit.ts';
import { textOf } from '../../draft/ruleText.ts';
import { draft } from '../../draft/state.ts';
import { go } from '../../route.ts';
import { releaseOf } from '../../words.ts';
import { newLeaf } from './newLeaf.ts';

const idOf = (title: string): string =>
  title
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-+|-+$/g, '')
    .slice(0, 40);

/** Begins a rule of the hospital's own; it is written on the page of the rule. */
export function AddRule({ set }: { set: string }) {
  const title = useSignal('');
  const release = releaseOf(set);
  const [place, refusal] = [useSignal(release?.rules.at(-1)?.id ?? ''), useSignal('')];
  if (!release || !opened.value) return null;
  const id = idOf(title.value);
  const taken =
    release.rules.some((rule) => rule.id === id) || draft.value.rules[`${set}/${id}`] !== undefined;
  const begin = (event: Event): void => {
    event.preventDefault();
    if (id === '' || taken) {
      refusal.value = taken ? 'A rule of this name is there already.' : 'Give the rule a title first.';
      return;
    }
    const condition = release.shape === 'checklist' ? { expect: newLeaf() } : { when: newLeaf() };
    const rule = {
      id,
      title: title.value.trim(),
      ...condition,
      advice: { summary: 'Consider …', indicator: 'info' },
      because: 'To be stated.',
      evidence: [],
    };
    editRule(opened.value!, `${set}/${id}`, `add ${title.value}`, () => ({
      text: textOf(rule),
      added: place.value === '' ? {} : { after: place.value },
      reason: '',
    }));
    go(['set', set, 'rule', id]);
  };
  return (
    <article>
      <header class="title">
        <h1>Add a rule</h1>
        <p class="aside">
          To {release.title}. It counts in your hospital only; the published rules stay as they are.
        </p>
      </header>
      <form onSubmit={begin}>
        <label class="field">
          <span>Title</span>
          <input
            type="text"
            value={title.value}
            onInput={(event) => (title.value = event.currentTarget.value)}
          />
        </label>
        <label class="field">
          <span>It stands after</span>
          <select value={place.value} onInput={(event) => (place.value = event.currentTarget.value)}>
            {release.rules.map((rule) => (
              <option key={rule.id} value={rule.id}>
                {rule.title}
              </option>
            ))}
          </select>
        </label>
        {refusal.value !== '' && <p role="alert">{refusal.value}</p>}
        <button type="submit" class="main">
          Write the rule
        </button>
      </form>
    </article>
  );
}
