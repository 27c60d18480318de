import { resolve } from 'node:path';
import { generateFactTypes, readLibrary } from '@dwellset/authoring';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import { filesOf, policy } from './fixture.ts';
import { doc } from './invented/documents.ts';

const urine = doc('facts', {
  group: 'urine',
  order: 9,
  title: 'Urine',
  facts: [
    {
      id: 'urine.volumes',
      type: 'list',
      kind: 'events',
      at: ['at'],
      item: {
        at: { type: 'date-time', title: 'at' },
        volume: { type: 'number', unit: 'mL', title: 'volume' },
        clots: { type: 'number', unit: '1', title: 'clots' },
        seen: { type: 'code', codes: 'looks', title: 'look */' },
      },
      title: 'Volumes',
      question: 'Which volumes are charted?',
    },
  ],
});
const policyWithList = policy();
const codes = policyWithList['facts/codes.json'] as { lists: object };
const types = generateFactTypes(
  readLibrary(
    filesOf({
      ...policyWithList,
      'facts/codes.json': { ...codes, lists: { ...codes.lists, looks: { clear: 'Clear', red: 'Red' } } },
      'facts/urine.json': urine,
    }),
  ),
);
const folder = resolve(import.meta.dirname);
const TYPES = resolve(folder, 'generated.d.ts');
const USER = resolve(folder, 'generated.user.ts');

/** Compiles cases against the generated types, both held in memory; gives the messages of the compiler by case. */
function compiled(cases: readonly string[]): string[][] {
  const lines = cases.map((facts, index) => `export const case${index}: CaseFacts = ${facts};`);
  const text = new Map([
    [TYPES, types],
    [USER, ["import type { CaseFacts } from './generated.d.ts';", ...lines].join('\n')],
  ]);
  const options: ts.CompilerOptions = {
    strict: true,
    exactOptionalPropertyTypes: true,
    noEmit: true,
    target: ts.ScriptTarget.ES2022,
    module: ts.ModuleKind.NodeNext,
    moduleResolution: ts.ModuleResolutionKind.NodeNext,
    customConditions: ['dwellset-source'],
    allowImportingTsExtensions: true,
    types: [],
  };
  const host = ts.createCompilerHost(options);
  const { fileExists, readFile, getSourceFile } = host;
  host.fileExists = (path) => text.has(path) || fileExists(path);
  host.readFile = (path) => text.get(path) ?? readFile(path);
  host.getSourceFile = (path, ...rest) => {
    const held = text.get(path);
    return held === undefined
      ? getSourceFile(path, ...rest)
      : ts.createSourceFile(path, held, ts.ScriptTarget.ES2022);
  };
  const program = ts.createProgram([USER], options, host);
  const found: string[][] = cases.map(() => []);
  for (const path of [TYPES, USER]) {
    const file = program.getSourceFile(path)!;
    for (const { start = 0, messageText } of [
      ...program.getSyntacticDiagnostics(file),
      ...program.getSemanticDiagnostics(file),
    ]) {
      const message = ts.flattenDiagnosticMessageText(messageText, ' ');
      const line = file.getLineAndCharacterOfPosition(start).line;
      if (path === USER && line > 0) found[line - 1]!.push(message);
      else throw new Error(`${path}:${line}: ${message}`);
    }
  }
  return found;
}

describe('cases typed by the fact dictionary', () => {
  it('compile where facts, codes and units are as the dictionary has them', () => {
    const cases = [
      `{ 'catheter.stage': 'in-place', 'catheter.inserted-at': '2030-02-09T12:00:00Z', 'allergy.latex': null }`,
      `{ 'catheter.days-in': { value: 3, unit: 'd', comparator: '>' } }`,
      `{ 'catheter.signs': ['fever'], 'catheter.bypassing': { absent: 'asked-unknown' } }`,
      `{ 'catheter.signs': { yes: ['fever'], no: ['pain'] } }`,
      `{ 'catheter.bypassing': { value: true, at: '2030-03-01T11:00:00Z', from: 'chart' } }`,
      `{ 'urine.volumes': [] }`,
      `{ 'urine.volumes': [{ at: '2030-03-01', volume: { value: 60, unit: 'mL' }, clots: 2, seen: 'red' }, {}] }`,
      `{ 'urine.volumes': { items: [{ volume: null, seen: { absent: 'not-asked' } }], complete: false } }`,
      `{ 'urine.volumes': { absent: 'asked-unknown' } }`,
    ];
    expect(compiled(cases)).toEqual(cases.map(() => []));
  });

  it.each([
    ['a misspelt fact', `{ 'catheter.stagee': 'in-place' }`, 'catheter.stagee'],
    ['a misspelt code', `{ 'catheter.stage': 'in-plaice' }`, 'in-plaice'],
    ['a misspelt code in a list', `{ 'catheter.signs': ['fevre'] }`, 'fevre'],
    ['another unit', `{ 'catheter.days-in': { value: 3, unit: 'h' } }`, '"h"'],
    ['a number without its unit', `{ 'catheter.days-in': 3 }`, 'number'],
    ['a value of another type', `{ 'catheter.bypassing': 'yes' }`, 'Value<boolean>'],
    ['a reason that is none', `{ 'catheter.bypassing': { absent: 'lost' } }`, 'lost'],
    ['a misspelt field of an entry', `{ 'urine.volumes': [{ volum: null }] }`, 'volum'],
    ['a misspelt code in an entry', `{ 'urine.volumes': [{ seen: 'rde' }] }`, 'rde'],
    ['another unit in an entry', `{ 'urine.volumes': [{ volume: { value: 1, unit: 'L' } }] }`, '"L"'],
    ['one value for a list', `{ 'urine.volumes': 3 }`, 'number'],
    ['an attribute of an option', `{ 'option.size': { value: 12, unit: '[Ch]' } }`, 'option.size'],
  ])('do not compile with %s', (_, facts, named) => {
    const [messages] = compiled([facts]);
    expect(messages).toHaveLength(1);
    expect(messages![0]).toContain(named);
  });

  it('ask the question of the dictionary in the editor', () => {
    expect(types).toContain("/** Is urine bypassing? */\n  readonly 'catheter.bypassing'?: Value<boolean>;");
  });
});
