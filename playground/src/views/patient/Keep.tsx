import { useSignal } from '@preact/signals';
import { ask, opened } from '../../bench/client.ts';
import type { VignettesDocument } from '../../draft/draft.ts';
import { editDraft } from '../../draft/edit.ts';
import { releaseOf } from '../../words.ts';
import { patient } from './state.ts';

/** Keeps the patient as one of the author's own, held to what the rules give now. */
export function Keep({ set }: { set: string }) {
  const title = useSignal('');
  const said = useSignal('');
  const keep = async (): Promise<void> => {
    const name = title.value.trim();
    if (name === '' || !opened.value) {
      said.value = 'Give the patient a title first.';
      return;
    }
    const { assessment } = await ask('assess', { side: 'ours', sets: [set], patient: patient.value });
    const rules = assessment.ruleSets.find(({ id }) => id === set)?.rules ?? [];
    const expect = {
      rules: Object.fromEntries(rules.map(({ id, outcome, check }) => [id, check ?? outcome])),
    };
    editDraft(opened.value, `keep ${name}`, (before) => {
      const { asOf, timeZone, recordedAt, searched, facts, chosen } = patient.value;
      const known = before.own[set];
      const id = `own-${(known?.vignettes.length ?? 0) + 1}`;
      const vignette = {
        id,
        title: name,
        asOf,
        timeZone,
        ...(recordedAt && { recordedAt }),
        ...(searched && { searched }),
        facts,
        ...(chosen && { chosen }),
        expect,
      };
      const document = {
        $schema: 'urn:dwellset:vignettes:1',
        base: known?.base ?? { asOf, timeZone, facts: {} },
        vignettes: [...(known?.vignettes ?? []), vignette],
      } as unknown as VignettesDocument;
      return { ...before, own: { ...before.own, [set]: document } };
    });
    title.value = '';
    said.value = `Kept: it stands first in the ledger of ${releaseOf(set)?.title}.`;
  };
  return (
    <span class="keep">
      <label>
        <span>Keep this patient as</span>
        <input
          type="text"
          value={title.value}
          onInput={(event) => (title.value = event.currentTarget.value)}
        />
      </label>{' '}
      <button type="button" onClick={() => void keep()}>
        Keep
      </button>{' '}
      <span class="aside" role="status">
        {said.value}
      </span>
    </span>
  );
}
