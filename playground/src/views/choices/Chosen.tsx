import type { CautiousSide, CellValue, Constant } from '@dwellset/core';
import { lowerFirst, statusWords } from '@dwellset/wording';
import { built, opened } from '../../bench/client.ts';
import {
  citePolicy,
  type PolicyCited,
  policyCited,
  setChoiceReason,
  takeBackChoice,
} from '../../draft/edit.ts';
import { draft } from '../../draft/state.ts';
import { needsPolicy } from '../../draft/toAmendment.ts';
import { Problems } from '../../parts/Problems.tsx';
import { Reason } from '../../parts/Reason.tsx';
import { releaseOf } from '../../words.ts';

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
