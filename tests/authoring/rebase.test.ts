import { type Library, type RebasedChange, readLibrary, rebase } from '@dwellset/authoring';
import { describe, expect, it } from 'vitest';
import { amendedPolicy, filesOf, localPolicy, policy } from './fixture.ts';
import { type Json, rule } from './invented/documents.ts';

type Documents = Record<string, Json>;

const bypassing = { fact: 'catheter.bypassing', operator: 'equal', value: true };

/** An amendment of the invented policy held against the same policy with changes to its published documents. */
function onto(changes: readonly Json[], move: (documents: Documents) => void): readonly RebasedChange[] {
  return rebasedOn(amendedPolicy({ removal: changes }, localPolicy), move).changes;
}

function rebasedOn(before: Library, move: (documents: Documents) => void) {
  const documents = policy();
  move(documents);
  const amendment = before.hospitals.get('hollow')!.amendment!.value as unknown as Json;
  const after = readLibrary(filesOf({ ...documents, 'hospitals/hollow/amendment.json': amendment }));
  return rebase(before, after, 'hollow')!.sets[0]!;
}

const verdict = ([first, ...more]: readonly RebasedChange[]) => {
  expect(more).toEqual([]);
  return [first!.standing, ...first!.because];
};

const nothing = (): void => {};
const edit =
  (path: string, change: (document: Json) => void) =>
  (documents: Documents): void =>
    change(documents[path]!);
const parameter = (id: string, change: (entry: Json) => void) =>
  edit('choices/dwell.json', ({ parameters }) =>
    change((parameters as Json[]).find((one) => one.id === id)!),
  );
/** A rule gone from the published set, with what names it. */
const without =
  (id: string) =>
  (documents: Documents): void => {
    const set = documents['removal/ruleset.json'] as { rules: string[] };
    set.rules = set.rules.filter((one) => one !== id);
    delete documents[`removal/${id}.rule.json`];
    const review = documents['removal/review.rule.json'];
    if (review) delete review.supersedes;
  };

describe('a local change on another base', () => {
  it('applies unchanged where nothing behind it has moved', () => {
    const kept = [
      { set: { 'dwell.longest': 7 } },
      { switchOff: 'bypassing' },
      { reword: { rule: 'review', title: 'Weekly look' } },
      { addText: { rule: 'overdue', detail: ['Ring the nurse.'] } },
      { add: rule('local', { when: bypassing }), after: 'review' },
    ];
    const found = onto(kept, nothing);
    expect(found.map(({ standing, because, refused }) => [standing, because, refused])).toEqual(
      kept.map(() => ['unchanged', [], []]),
    );
  });

  it('meets a base that moved the same choice, with the value before and after', () => {
    const [found] = onto(
      [{ set: { 'dwell.longest': 7 } }],
      parameter('dwell.longest', (entry) => {
        entry.default = 10;
      }),
    );
    expect([found!.standing, found!.because]).toEqual(['conflict', ['base-changed']]);
    expect(found!.base).toContainEqual({ field: 'value', from: 14, to: 10, wording: false });
    expect(found!.local).toBe(7);
  });

  it('is no longer needed where the base takes the very value, words or level that the hospital has', () => {
    const to7 = parameter('dwell.longest', (entry) => {
      entry.default = 7;
    });
    expect(verdict(onto([{ set: { 'dwell.longest': 7 } }], to7))).toEqual(['superfluous', 'same-now']);
    const titled = edit('removal/review.rule.json', (document) => {
      document.title = 'Weekly look';
    });
    expect(verdict(onto([{ reword: { rule: 'review', title: 'Weekly look' } }], titled))).toEqual([
      'superfluous',
      'same-now',
    ]);
    const raised = edit('removal/bypassing.rule.json', ({ advice }) => {
      (advice as Json).indicator = 'critical';
    });
    expect(verdict(onto([{ raise: { rule: 'bypassing', indicator: 'warning' } }], raised))).toEqual([
      'superfluous',
      'same-now',
    ]);
  });

  it('is no longer needed where the rule that it switches off is gone, and is asked about where it changed it', () => {
    expect(verdict(onto([{ switchOff: 'bypassing' }], without('bypassing')))).toEqual([
      'superfluous',
      'nothing-left',
    ]);
    expect(verdict(onto([{ reword: { rule: 'bypassing', title: 'Look' } }], without('bypassing')))).toEqual([
      'conflict',
      'gone',
    ]);
  });

  it('meets a base that changed the rule it replaces or switches off', () => {
    const stricter = edit('removal/bypassing.rule.json', (document) => {
      document.when = { all: [bypassing, { fact: 'catheter.signs', operator: 'recorded' }] };
    });
    const replaced = { replace: rule('bypassing', { when: bypassing, because: 'Ours.' }) };
    for (const change of [replaced, { switchOff: 'bypassing' }]) {
      expect(verdict(onto([change], stricter))).toEqual(['conflict', 'base-changed']);
    }
  });

  it('is to be looked at where the rule stands and something that it reads does not', () => {
    const condition = edit('removal/ruleset.json', ({ conditions }) => {
      (conditions as Json).overdue = { not: (conditions as Json).overdue };
    });
    const [found] = onto([{ addText: { rule: 'overdue', detail: ['Ring the nurse.'] } }], condition);
    expect([found!.standing, found!.because]).toEqual(['look', ['reads-changed']]);
    expect(found!.reads).toEqual(['condition overdue']);
    expect(found!.locked).toBe(true);
  });

  it('meets a base that now locks the rule, with what the base says to it', () => {
    const locked = edit('removal/bypassing.rule.json', (document) => {
      document.locked = true;
    });
    const [found] = onto([{ switchOff: 'bypassing' }], locked);
    expect([found!.standing, found!.because]).toEqual(['conflict', ['base-changed', 'refused']]);
    expect(found!.refused.map(({ code }) => code)).toEqual(['locked-switched-off']);
  });

  it('meets a base that brought a rule of the same name as the one the hospital added', () => {
    const added = (documents: Documents): void => {
      (documents['removal/ruleset.json'] as { rules: string[] }).rules.push('local');
      documents['removal/local.rule.json'] = {
        $schema: 'urn:dwellset:rule:1',
        ...rule('local', { when: { not: bypassing } }),
      };
    };
    const before = amendedPolicy({ removal: [{ add: rule('local', { when: bypassing }) }] });
    const found = rebasedOn(before, added);
    expect(found.changes.map(({ standing, because }) => [standing, ...because])).toEqual([
      ['conflict', 'now-exists'],
    ]);
    expect(found.newRules).toMatchObject([{ id: 'local', locked: false }]);
  });

  it('says that the base it was made for is not the old one at hand', () => {
    const library = amendedPolicy({ removal: [{ switchOff: 'bypassing' }] });
    expect(rebasedOn(library, nothing).pinned).toBe(true);
    const moved = parameter('dwell.longest', (entry) => {
      entry.default = 10;
    });
    const documents = policy();
    moved(documents);
    const amendment = library.hospitals.get('hollow')!.amendment!.value as unknown as Json;
    const other = readLibrary(filesOf({ ...documents, 'hospitals/hollow/amendment.json': amendment }));
    expect(rebase(other, library, 'hollow')!.sets[0]!.pinned).toBe(false);
    expect(rebase(library, library, 'nobody')).toBeUndefined();
  });
});
