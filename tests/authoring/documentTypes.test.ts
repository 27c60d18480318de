import { type DocumentOf, documentKinds, documentSchemas, kindOf, urnOf } from '@dwellset/authoring';
import type {
  Adoption,
  Case,
  CodeList,
  Condition,
  Evidence,
  Fact,
  Hazard,
  Parameter,
  Rule,
  Source,
  StockItem,
  Table,
} from '@dwellset/core';
import { describe, expect, expectTypeOf, it } from 'vitest';

// The type checker judges these: a document that passed its schema must be usable as what the core runs.
describe('what a document holds is what the core runs', () => {
  it('has the types of the core', () => {
    expectTypeOf<DocumentOf<'facts'>['facts'][number]>().toExtend<Fact>();
    expectTypeOf<DocumentOf<'codes'>['lists'][string]>().toExtend<CodeList>();
    expectTypeOf<
      DocumentOf<'choices'>['parameters'][number] & Pick<Parameter, 'value'>
    >().toExtend<Parameter>();
    expectTypeOf<DocumentOf<'choices'>['tables'][number]>().toExtend<Table>();
    expectTypeOf<DocumentOf<'sources'>['sources'][number]>().toExtend<Source>();
    expectTypeOf<DocumentOf<'evidence'>['evidence'][number]>().toExtend<Evidence>();
    expectTypeOf<DocumentOf<'hazards'>['hazards'][number]>().toExtend<Hazard>();
    expectTypeOf<DocumentOf<'rule'>>().toExtend<Rule>();
    expectTypeOf<NonNullable<DocumentOf<'rule'>['when']>>().toExtend<Condition>();
    expectTypeOf<DocumentOf<'stock'>['options'][number]>().toExtend<StockItem>();
    expectTypeOf<DocumentOf<'adoption'>>().toExtend<Adoption>();
    expectTypeOf<DocumentOf<'case'>>().toExtend<Case>();
  });

  it('leaves out nothing that the core may hold', () => {
    expectTypeOf<keyof Fact>().toExtend<keyof DocumentOf<'facts'>['facts'][number]>();
    expectTypeOf<Exclude<keyof Parameter, 'value'>>().toExtend<
      keyof DocumentOf<'choices'>['parameters'][number]
    >();
    expectTypeOf<Exclude<keyof Rule, 'local'>>().toExtend<keyof DocumentOf<'rule'>>();
    expectTypeOf<keyof Case>().toExtend<keyof DocumentOf<'case'>>();
  });
});

describe('the kinds of documents', () => {
  it('are told apart by the URN in `$schema`', () => {
    for (const kind of documentKinds) expect(kindOf({ $schema: urnOf(kind) })).toBe(kind);
    expect(kindOf({ $schema: 'urn:dwellset:rule:2' })).toBeUndefined();
    expect(kindOf([])).toBeUndefined();
    expect(documentKinds).toHaveLength(Object.keys(documentSchemas).length);
  });
});
