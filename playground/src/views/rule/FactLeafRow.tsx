import { takesList, takesNothing } from '@dwellset/authoring';
import type { Condition, Constant, Operator } from '@dwellset/core';
import { operatorWords, valueWords } from '@dwellset/wording';
import { ValueField } from '../../parts/ValueField.tsx';
import { words } from '../../words.ts';
import { ConditionRow } from './ConditionRow.tsx';
import type { OutlineProps } from './editing.ts';
import { FactPicker } from './FactPicker.tsx';
import { leafOf } from './newLeaf.ts';
import { firstValue, fitted, fittingChoices, isReference, operatorsOf, type Value } from './outline.ts';

/** A fact, how it is compared, and what with: a fixed value or a local choice. */
export function FactLeafRow({
  condition,
  path,
  editing,
  label,
  onRemove,
}: OutlineProps & { condition: Extract<Condition, { fact: string }> }) {
  const { disabled, put } = editing;
  const fact = words.value.facts.get(condition.fact);
  const { operator } = condition;
  const value = condition.value;
  const codes = fact?.codes === undefined ? undefined : words.value.codes[fact.codes];
  const choices = fittingChoices(fact, operator, words.value.parameters.values());
  const isChoice = isReference(value);
  const setOperator = (next: Operator) => put(path, leafOf(condition.fact, next, value));
  const fittings = operatorsOf(fact);
  return (
    <ConditionRow onRemove={onRemove} label={label} disabled={disabled}>
      <FactPicker
        value={condition.fact}
        editing={editing}
        onPick={(id) => put(path, leafOf(id, operator, value))}
      />
      <select
        aria-label="How it is compared"
        disabled={disabled}
        value={operator}
        onInput={(event) => setOperator(event.currentTarget.value as Operator)}
      >
        {!fittings.includes(operator) && <option value={operator}>{operator}</option>}
        {fittings.map((one) => (
          <option key={one} value={one}>
            {operatorWords(one, fact?.type)}
          </option>
        ))}
      </select>
      {!takesNothing(operator) && (choices.length > 0 || isChoice) && (
        <select
          aria-label="A fixed value, or a local choice"
          disabled={disabled}
          value={isChoice ? value.parameter : ''}
          onInput={(event) => {
            const id = event.currentTarget.value;
            put(
              [...path, 'value'],
              id === ''
                ? (fixed(value) ?? fitted(operator, undefined, firstValue(fact, Object.keys(codes ?? {}))))
                : { parameter: id },
            );
          }}
        >
          <option value="">a fixed value</option>
          {isChoice && !choices.some(({ id }) => id === value.parameter) && (
            <option value={value.parameter}>{value.parameter}</option>
          )}
          {choices.map(({ id, title }) => (
            <option key={id} value={id}>
              local choice: {title}
            </option>
          ))}
        </select>
      )}
      {isChoice && <InForce id={value.parameter} />}
      {!takesNothing(operator) && !isChoice && (
        <ValueField
          valued={{
            type: takesList(operator) ? 'codes' : fact?.type === 'codes' ? 'code' : (fact?.type ?? 'text'),
            unit: fact?.unit,
            step: fact?.step,
            range: fact?.limits,
          }}
          value={value as Constant}
          codes={codes}
          label="The value"
          disabled={disabled}
          onValue={(one) => put([...path, 'value'], one)}
        />
      )}
    </ConditionRow>
  );
}

/** The constant that a local choice stands for now, to go on from. */
function fixed(value: Value): Constant | undefined {
  return isReference(value) ? words.value.parameters.get(value.parameter)?.value : value;
}

function InForce({ id }: { id: string }) {
  const parameter = words.value.parameters.get(id);
  if (!parameter) return <span class="aside">not defined</span>;
  const long = Array.isArray(parameter.value);
  return (
    <span class="aside">
      (now{' '}
      {long
        ? `${(parameter.value as readonly string[]).length} on the list`
        : valueWords(parameter.value, parameter, words.value)}
      )
    </span>
  );
}
