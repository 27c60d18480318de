import { buildRelease } from '@dwellset/authoring';
import { analyseSet, FINDING_KINDS, type SetAnalysis } from '@dwellset/authoring/analysis';
import { analysisText, cautions } from '@dwellset/wording';
import { describe, expect, it } from 'vitest';
import { DEFECTS } from '../authoring/analysis/defects.ts';
import { type Invented, invented } from '../authoring/analysis/invented.ts';

const flat = (text: string): string => text.replace(/\s+/g, ' ');

function textOf(set: Invented): { readonly text: string; readonly analysis: SetAnalysis } {
  const library = invented(set);
  const analysis = analyseSet(library, 'care');
  const releases = [buildRelease(library, 'care').release!];
  return { text: flat(analysisText([analysis], { releases })), analysis };
}

describe('what the analysis found, in sentences', () => {
  it.each(FINDING_KINDS)('%s', (kind) => {
    const defect = DEFECTS.find((one) => one.kind === kind && !one.possible)!;
    const { text, analysis } = textOf(defect);
    const [finding] = analysis.findings;
    // A rule is named by its title, never by its id alone, and the sentence is no list of ids.
    expect(text).not.toContain(`${kind}: `);
    for (const id of finding!.of.filter((one) => one in defect.rules)) {
      expect(text).toContain(`"Title of ${id}" (${id})`);
    }
    expect(text.includes('This patient shows it:')).toBe(finding!.witness !== undefined);
    expect(text).toContain(
      `Named in an acceptance as: ${[kind, ...finding!.of].join(' · ')} ${finding!.digest}`,
    );
    expect(text).toContain('Left open in care:');
    for (const caution of cautions) expect(text).toContain(caution);
  });

  it('says "may" of what could neither be shown nor ruled out', () => {
    const { text } = textOf(DEFECTS.find(({ possible }) => possible)!);
    expect(text).toContain('possible · "Title of one" (one) may never apply');
    expect(text).toContain('Neither shown nor ruled out');
  });

  it('quotes two pieces of advice that are read as opposites', () => {
    const { text } = textOf(DEFECTS.find(({ what }) => what === 'to remove and not to remove')!);
    expect(text).toContain('"Title of one" says: Do not remove yet: ask the team.');
    expect(text).toContain('"Title of two" says: Fever: consider removing the catheter.');
  });

  it('gives the reason of what is accepted, and names an acceptance that accepts nothing', () => {
    const [defect] = DEFECTS;
    const { digest, kind, of } = textOf(defect!).analysis.findings[0]!;
    const reason = 'It is there for readers.';
    const idle = { finding: 'gap', of: ['conclusion'], digest, reason };
    const { text } = textOf({ ...defect!, accepted: [{ finding: kind, of, digest, reason }, idle] });
    expect(text).toContain('care: 1 rule, 1 finding, 1 accepted');
    expect(text).toContain('Accepted: It is there for readers.');
    expect(text).toContain('Accepts what is not found any more: gap · conclusion. Leave it out.');
  });

  it('claims no more than was looked for where nothing is found', () => {
    const text = flat(analysisText([{ set: 'care', rules: 3, findings: [], stale: [] }], { releases: [] }));
    expect(text).toContain('care: 3 rules, nothing found');
    expect(text).toContain(
      'Nothing is left open. Nothing found is a statement about these kinds of mistakes only',
    );
    const refused = analysisText([{ set: 'care', rules: 0, findings: [], stale: [], refused: ['no plan'] }], {
      releases: [],
    });
    expect(flat(refused)).toContain('Not analysed: no plan');
    expect(flat(refused)).toContain('Left open in care');
  });
});
