import type { Parameter, Position, Rule, Table } from '@dwellset/core';
import type { Parts } from '../build/parts.ts';
import { usedByRule } from '../build/used.ts';
import type { ChoiceMade } from './setChoice.ts';

/** Puts the choices in force. Local evidence becomes a position of its own, so that it travels with the value. */
export function applyChoices(parts: Parts, choices: readonly ChoiceMade[]): Parts {
  const parameters = new Map(parts.parameters);
  const tables = new Map(parts.tables);
  for (const choice of choices) {
    const parameter = parameters.get(choice.id);
    const table = tables.get(choice.id);
    if (parameter) parameters.set(choice.id, setParameter(parameter, choice));
    else if (table && choice.cell) tables.set(choice.id, setCell(table, choice, choice.cell));
  }
  return { ...parts, parameters, tables };
}

function setParameter(parameter: Parameter, choice: ChoiceMade): Parameter {
  const value = choice.to as Parameter['value'];
  return { ...parameter, value, positions: [...parameter.positions, ...cited(choice)] };
}

function setCell(table: Table, choice: ChoiceMade, { row, column }: { row: string; column: string }): Table {
  const cells = table.rows[row] ?? otherCells(table);
  const before = cells[column];
  const positions = [...(before?.positions ?? []), ...cited(choice)];
  const value = choice.to as string | number | boolean | null;
  const cell = { ...before, value, ...(positions.length > 0 && { positions }) };
  return { ...table, rows: { ...table.rows, [row]: { ...cells, [column]: cell } } };
}

/** A row that the table did not have yet starts as what the table says of every other code. */
const otherCells = ({ otherwise }: Table): Table['rows'][string] =>
  Object.fromEntries(Object.entries(otherwise ?? {}).map(([column, value]) => [column, { value }]));

const cited = ({ to, cited: evidence }: ChoiceMade): Position[] =>
  evidence.length === 0 || to === null ? [] : [{ value: to, evidence }];

/** The evidence behind a choice speaks with every rule that rests on it. */
export function citeChoices(parts: Parts, choices: readonly ChoiceMade[]): Parts {
  const rules = parts.rules.map((rule): Rule => {
    const { parameters, tables } = usedByRule(parts, rule);
    const picked = choices.filter(({ id }) => parameters.has(id) || tables.has(id));
    const evidence = [...new Set([...rule.evidence, ...picked.flatMap((choice) => choice.evidence)])];
    return evidence.length === rule.evidence.length ? rule : { ...rule, evidence };
  });
  return { ...parts, rules };
}
