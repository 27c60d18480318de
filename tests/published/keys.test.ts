/// <reference types="node" />
import { readFileSync } from 'node:fs';
import { scoreboard } from '@dwellset/authoring';
import { type EvidenceStatus, STATUSES } from '@dwellset/core';
import { describe, expect, it } from 'vitest';
import { library } from '../policies/shipped.ts';

interface Row {
  readonly id: string;
  readonly weakest: EvidenceStatus;
  readonly strongest?: EvidenceStatus;
}

const rows = new Map(
  Object.values(
    JSON.parse(readFileSync(new URL('../policies/evidence-rows.json', import.meta.url), 'utf8')) as Record<
      string,
      readonly Row[]
    >,
  )
    .flat()
    .map((row) => [row.id, row] as const),
);
const keys = scoreboard(library);
const cases = keys.flatMap((key) => key.cases.map((one) => ({ ...one, key: key.id })));
const named = (one: { key: string; id: string }) => `${one.key}/${one.id}`;

describe('answers that others published', () => {
  it.each([
    'hicpac-table-2',
    'map-operations',
    'turp-removal',
    'scip-inf-9',
    'nice-statements',
    'eaun-statements',
    'npsa-female-length',
    'charriere-sizes',
    'gel-labels',
    'female-practice',
  ])('are there: %s', (key) => {
    expect(keys.find(({ id }) => id === key)?.cases.length).toBeGreaterThan(4);
  });

  it.each(cases.map((one) => [named(one), one] as const))(
    '%s agrees, is open, or differs for a reason',
    (_, one) => {
      if (one.verdict === 'disagreed') expect(one.differs, JSON.stringify(one.judged)).toBeTypeOf('string');
      else expect(one.judged.length).toBeGreaterThan(0);
    },
  );

  it('agree more often than not, some of them independently', () => {
    const agreed = cases.filter(({ verdict }) => verdict === 'agreed');
    expect(agreed.length).toBeGreaterThan(cases.length / 2);
    expect(agreed.filter(({ fed }) => !fed).length).toBeGreaterThan(10);
    expect(agreed.filter(({ fed }) => fed).length).toBeGreaterThan(20);
  });

  it('say for every case how the answer is known, never better than the row that it restates', () => {
    const raised = cases.filter(({ row, status }) => {
      const known = row === undefined ? undefined : rows.get(row);
      if (known === undefined) return false;
      return STATUSES.indexOf(status) < STATUSES.indexOf(known.strongest ?? known.weakest);
    });
    expect(raised.map(named)).toEqual([]);
    expect(cases.filter(({ row }) => row !== undefined && !rows.has(row)).map(named)).toEqual([]);
  });

  it('are called common practice where no source stands behind them', () => {
    const practice = cases.filter(({ key }) => key === 'female-practice');
    expect(
      practice.every(({ status, source }) => status === 'practice' && source === 'common-practice'),
    ).toBe(true);
  });

  it('show the local choice on which sources differ', () => {
    const loose = cases.find(({ id }) => id === 'immobilisation-read-loosely');
    expect(loose?.verdict).toBe('disagreed');
    expect(loose?.conflicts).toMatchObject([
      { choice: 'indication.accepted-immobility', here: ['strict'], there: ['bed-rest', 'strict'] },
    ]);
  });
});
