import type { CautiousSide, Position, TableCell } from '@dwellset/core';
import type { Parts } from '../build/parts.ts';
import { type ChoiceValue, staysCautious, valueText } from './cautious.ts';
import { type Choice, valueProblem } from './choiceValue.ts';
import type { Refusals } from './refusals.ts';

/** One choice that a hospital makes, found valid. */
export interface ChoiceMade {
  readonly path: string;
  /** The parameter's or the table's id. */
  readonly id: string;
  readonly cell?: { readonly row: string; readonly column: string };
  readonly from: ChoiceValue;
  readonly to: ChoiceValue;
  /** What the value rests on: of the position picked, and cited. */
  readonly evidence: readonly string[];
  readonly cited: readonly string[];
  readonly reason: string;
}

interface Found extends Choice {
  readonly id: string;
  readonly cautious: CautiousSide;
  readonly positions: readonly Position[];
  readonly cell?: { readonly row: string; readonly column: string };
}

export interface Wanted {
  readonly path: string;
  readonly value: ChoiceValue;
  readonly cited: readonly string[];
  readonly reason: string;
  readonly pointer: string;
}

/** Holds one `set` against the choice it names; refuses it with every reason there is. */
export function setChoice(
  parts: Parts,
  wanted: Wanted,
  locked: ReadonlyMap<string, string>,
  refusals: Refusals,
): ChoiceMade | undefined {
  const { path, value, cited, pointer } = wanted;
  const choice = findChoice(parts, path);
  if (choice === undefined) {
    refusals.add(pointer, 'unknown-choice', `\`${path}\` names no parameter and no cell of a table`);
    return undefined;
  }
  const before = refusals.found.length;
  const problem = valueProblem(choice, value);
  if (problem) refusals.add(pointer, problem.code, problem.message, { expected: problem.expected });
  const lockedRule = locked.get(choice.id);
  if (!problem && lockedRule !== undefined && !staysCautious(choice.cautious, choice.value, value)) {
    const message = `the locked rule \`${lockedRule}\` rests on \`${path}\`, so it may only move to the cautious side`;
    refusals.add(pointer, 'locked-parameter', message, {
      expected: cautiousText(choice),
      received: valueText(value),
    });
  }
  for (const id of cited) {
    if (!parts.evidence.has(id))
      refusals.add(pointer, 'unknown-evidence', `no evidence \`${id}\` is stated anywhere`);
  }
  const picked = choice.positions.filter((position) => same(position.value, value));
  if (
    !problem &&
    picked.length === 0 &&
    !same(choice.value, value) &&
    !cited.some((id) => isLocal(parts, id))
  ) {
    const message = `no published position of \`${path}\` is \`${valueText(value)}\`, so it needs evidence from a local policy`;
    refusals.add(pointer, 'no-local-source', message, { expected: positionsText(choice) });
  }
  if (refusals.found.length > before) return undefined;
  const evidence = [...picked.flatMap((position) => position.evidence), ...cited];
  const { id, cell, value: from } = choice;
  return { path, id, ...(cell && { cell }), from, to: value, evidence, cited, reason: wanted.reason };
}

const same = (a: ChoiceValue, b: ChoiceValue): boolean => JSON.stringify(a) === JSON.stringify(b);

const cautiousText = ({ cautious, value }: Found): string =>
  cautious === 'neither'
    ? `\`${valueText(value)}\`, as it stands`
    : `${cautious} than \`${valueText(value)}\``;

const positionsText = ({ positions }: Found): string =>
  positions.length === 0
    ? 'a cited local policy: no source gives a figure'
    : `${positions.map(({ value }) => valueText(value)).join(' or ')}, or a cited local policy`;

/** Whether the evidence rests on a policy of the hospital itself. */
const isLocal = (parts: Parts, id: string): boolean =>
  parts.evidence.get(id)?.from.some(({ source }) => parts.sources.get(source)?.kind === 'local-policy') ??
  false;

function findChoice(parts: Parts, path: string): Found | undefined {
  const [id, row, column] = path.split('/');
  if (row !== undefined && column !== undefined) return findCell(parts, path, id!, row, column);
  const parameter = parts.parameters.get(path);
  if (parameter === undefined) return undefined;
  const { type, value, step, range, cautious, positions } = parameter;
  const codes = parameter.codes === undefined ? undefined : parts.codes.get(parameter.codes);
  return {
    path,
    id: path,
    type,
    value,
    cautious,
    positions,
    mayBeNone: false,
    ...(step !== undefined && { step }),
    ...(range && { range }),
    ...(codes && { codes }),
  };
}

function findCell(parts: Parts, path: string, id: string, row: string, column: string): Found | undefined {
  const table = parts.tables.get(id);
  const head = table?.columns[column];
  const keys = table === undefined ? undefined : parts.codes.get(table.key);
  if (table === undefined || head === undefined || keys?.[row] === undefined) return undefined;
  const cell: TableCell = table.rows[row]?.[column] ?? { value: table.otherwise?.[column] ?? null };
  const codes = head.codes === undefined ? undefined : parts.codes.get(head.codes);
  const positions = cell.positions ?? [];
  return {
    path,
    id,
    type: head.type,
    value: cell.value,
    cautious: head.cautious ?? 'neither',
    positions,
    mayBeNone: true,
    cell: { row, column },
    ...(cell.range && { range: cell.range }),
    ...(codes && { codes }),
  };
}
