import { amend, caseOf, type Library, releasesFor } from '@dwellset/authoring';
import { type Assessment, assess, compile, digest, type Parameter } from '@dwellset/core';
import { assessmentHtml, assessmentText, handbookHtml } from '@dwellset/wording';
import { describe, expect, test } from 'vitest';
import { library } from '../policies/shipped.ts';
import { afterOtherOperation, assessed, inBed, releases } from './pages.ts';
import { byId, elementsIn, linksIn, parsed, textOf } from './parsed.ts';

const flat = (text: string): string => text.replace(/\s+/g, ' ');
const asText = (assessment: Assessment) => flat(assessmentText(assessment, { releases, width: 5000 }));

describe('a patient whose catheter is to come out', () => {
  const text = asText(afterOtherOperation());
  const page = parsed(assessmentHtml(afterOtherOperation(), { releases }));
  const at = (id: string) => {
    // A heading stands for the part of the page that it opens.
    const element = byId(page, id)?.parentNode;
    if (!element || !('tagName' in element)) throw new Error(`no ${id}`);
    return { text: textOf(element), links: linksIn(elementsIn(element)) };
  };

  test('why does it say remove? The advice gives the reason, what was found, and the limit that counts', () => {
    const why = at('why:removal/after-operation');
    for (const said of [
      'After an operation the risk of infection grows with each day while the benefit ends early.',
      'hours since the operation: 41.6 h (computed from end of the operation)',
      'reasons to keep the catheter: none (08:40)',
    ]) {
      expect(text).toContain(said);
      expect(why.text).toContain(said);
    }
    expect(text).toContain('time after an operation when removal is considered: 24 h, as published');
    expect(why.links).toEqual(
      expect.arrayContaining(['#choice:postop.remove-within', '#rule:removal/after-operation']),
    );
  });

  test('where do 24 hours come from, and may we make it 48? The choice names sources, positions and range', () => {
    const choice = at('choice:postop.remove-within');
    for (const said of ['as reported, not read in the source (HIC-06)', '24 to 48 h, in steps of 1.']) {
      expect(text).toContain(said);
      expect(choice.text).toContain(said);
    }
    expect(text).toMatch(/24 h · in force – CDC\/HICPAC/);
    expect(text).toMatch(/48 h · may be chosen – Centers for Medicare/);
    expect(choice.text).toContain('24 h in force');
    expect(choice.text).toContain('48 h may be chosen');
    expect(choice.text).toContain('Cautious side The lower value');
    expect(choice.links).toContain('#rule:removal/after-operation');
  });

  test('each value in a statement of reasons leads to the local choice that it is', () => {
    const proof = byId(page, 'rule:removal/after-operation');
    const links = proof ? linksIn(elementsIn(proof)) : [];
    expect(links).toEqual(
      expect.arrayContaining(['#choice:postop.remove-within', '#choice:population.adult-age']),
    );
  });
});

test('why does it not accept bed rest? What was found does not count, and which lists would count it', () => {
  const text = asText(inBed());
  const page = parsed(assessmentHtml(inBed(), { releases })).text;
  for (const shown of [text, page]) {
    expect(shown).toContain(
      'reasons to keep the catheter: immobilisation (08:40), which does not count here',
    );
    expect(shown).toMatch(/Immobility that is accepted as a reason: strict immobility[^:]*, as published/);
    expect(shown.toLowerCase()).toMatch(
      /with "major pelvic or gynaecological surgery"[^;]*"immobilisation"; without/,
    );
    expect(shown).toContain('from memory, not checked (AAF-05)');
  }
});

test('a limit that decided only what is folded away can be followed as well', () => {
  const text = asText(assessed('after-operation'));
  expect(text).toContain('Time after an operation when removal is considered: 24 h, as published');
});

describe('an advice that a cell of a table makes speak', () => {
  const releases = releasesFor(library, 'maintenance-bundle', { hospital: 'harrowmere' });
  const plan = compile(releases, { allow: ['draft'] });
  const of = (rule: string, id: string): Assessment => {
    const { base, vignettes } = library.sets.get('maintenance-bundle')!.vignettes.get(rule)!.value;
    return assess(plan, caseOf(base, vignettes.find((one) => one.id === id)!), { reasons: 'all' });
  };
  const CELL = 'leg bag: 5 days here, 7 days as published – Leg bags leaked at the tap';

  test('tells the cell that was changed here and why, and no other change', () => {
    const assessment = of('leg-bag-changed', 'leg-bag-changed-day-six');
    const [bag] = assessment.advice.filter(({ rule }) => rule === 'leg-bag-changed');
    expect(bag?.summary).toContain('here at most 5');
    const text = flat(assessmentText(assessment, { releases, width: 5000 }));
    expect(text).toContain(CELL);
    expect(text).not.toContain('Full bags were found');
    expect(parsed(assessmentHtml(assessment, { releases })).text).toContain(CELL);
  });

  test('does not tell a cell of another row', () => {
    const assessment = of('valve-changed', 'valve-changed-day-eight');
    expect(assessment.advice.map(({ rule }) => rule)).toContain('valve-changed');
    expect(flat(assessmentText(assessment, { releases, width: 5000 }))).not.toContain('leg bag: 5 days');
  });
});

/** A value off the cautious side of the published one, within everything else that is asked of it. */
function lessCautious({ type, cautious, default: value, range }: Parameter, codes: readonly string[]) {
  if (type === 'number' && range) {
    const [low, high] = range;
    const wanted = cautious === 'lower' ? high : low;
    return wanted === value
      ? low + high - wanted === value || cautious !== 'neither'
        ? undefined
        : low + high - wanted
      : wanted;
  }
  if (type === 'boolean')
    return cautious === 'neither' || value === (cautious === 'higher') ? !value : undefined;
  if (type === 'code') return codes.find((code) => code !== value);
  const listed = value as readonly string[];
  const more = codes.filter((code) => !listed.includes(code)).slice(0, 1);
  if (cautious !== 'higher' && more.length > 0) return [...listed, ...more];
  return listed.length > 1 && cautious !== 'lower' ? listed.slice(1) : undefined;
}

test('what the handbook says no hospital may do is what an amendment is refused for', () => {
  const bases = releases.map(({ amendment: _, ...base }) => base);
  const page = parsed(
    handbookHtml({ releases: bases, digests: new Map(bases.map((one) => [one.id, digest(one)])) }),
  );
  const hospital = library.hospitals.get('harrowmere');
  const amendment = hospital?.amendment;
  if (!amendment) throw new Error('no amendment to start from');
  const wanted = new Map<string, unknown>();
  const seen = new Set<string>();
  const amends = releases.map(({ id, version, parameters, codes }) => ({
    set: id,
    version,
    digest: '0'.repeat(64),
    changes: parameters.flatMap((parameter) => {
      const value = lessCautious(parameter, Object.keys(codes[parameter.codes ?? ''] ?? {}));
      if (value === undefined || seen.has(parameter.id)) return [];
      seen.add(parameter.id);
      wanted.set(parameter.id, value);
      return [
        {
          set: { [parameter.id]: value },
          reason: 'to see whether it may be',
          evidence: ['harrowmere-review-each-shift'],
        },
      ];
    }),
  }));
  const value = { ...amendment.value, amends } as typeof amendment.value;
  const tried: Library = {
    ...library,
    hospitals: new Map([['harrowmere', { ...hospital, amendment: { ...amendment, value } }]]),
  };
  const { refused = [] } = amend(tried, 'harrowmere', { anyBase: true }) ?? {};
  const barred = refused
    .filter(({ code }) => code === 'locked-parameter')
    .map(({ message }) => / rests on `([^`]+)`/.exec(message)?.[1] ?? '');
  const said = [...wanted.keys()].filter((id) => {
    const element = byId(page, `choice:${id}`);
    return element && /locked rules? ("[^"]*" )?rests? on it/.test(textOf(element));
  });
  expect(wanted.size).toBeGreaterThan(20);
  expect(barred.length).toBeGreaterThan(2);
  expect([...said].sort()).toEqual([...barred].sort());
});
