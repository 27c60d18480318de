import { takesList, takesNothing } from '@dwellset/authoring';
import type { Condition, Constant, Fact, Operator } from '@dwellset/core';
import { clauseWords, operatorWords, upperFirst, valueWords } from '@dwellset/wording';
import type { JSONPath } from 'jsonc-parser';
import type { ComponentChildren } from 'preact';
import { opened } from '../../bench/client.ts';
import { ValueField } from '../../parts/ValueField.tsx';
import { words } from '../../words.ts';
import {
  firstValue,
  fitted,
  fittingChoices,
  isReference,
  leaf,
  membersOf,
  operatorsOf,
  type Value,
} from './outline.ts';

export interface Editing {
  readonly set: string;
  readonly conditions: Readonly<Record<string, Condition>>;
  /** Facts of options may be read here. */
  readonly ofOptions: boolean;
  readonly disabled: boolean;
  put(path: JSONPath, value: unknown): void;
}

interface Props {
  readonly condition: Condition;
  readonly path: JSONPath;
  readonly editing: Editing;
  readonly label: string;
  readonly onRemove?: (() => void) | undefined;
}

const STARTS = ['catheter.stage', 'patient.setting'];

/** A condition to begin with; the author changes it at once. */
export function newLeaf(): Condition {
  const facts = words.value.facts;
  const id = STARTS.find((one) => facts.has(one)) ?? [...facts.keys()][0] ?? '';
  return leafOf(id);
}

function leafOf(id: string, operator?: Operator, value?: Value): Condition {
  const fact = words.value.facts.get(id);
  const fitting = operatorsOf(fact);
  const kept = operator && fitting.includes(operator) ? operator : (fitting[0] ?? 'recorded');
  const codes = Object.keys(words.value.codes[fact?.codes ?? ''] ?? {});
  return leaf(id, kept, fitted(kept, value, firstValue(fact, codes)));
}

const Row = ({
  children,
  onRemove,
  label,
  disabled,
}: {
  children: ComponentChildren;
  onRemove?: (() => void) | undefined;
  label: string;
  disabled: boolean;
}) => (
  <div class="condition-row">
    {children}
    {onRemove && !disabled && (
      <button type="button" class="remove" onClick={onRemove} aria-label={`Remove ${label}`}>
        Remove
      </button>
    )}
  </div>
);

/** A condition of a rule as an outline in which every part can be changed. */
export function ConditionOutline(props: Props) {
  const { condition, path, editing, label, onRemove } = props;
  const { disabled, put } = editing;
  const members = membersOf(condition);
  if (members) return <Group {...props} members={members} />;
  if ('not' in condition) {
    return (
      <div class="group-of">
        <Row onRemove={onRemove} label={label} disabled={disabled}>
          <span>The opposite of this</span>
          {!disabled && (
            <button type="button" onClick={() => put(path, condition.not)}>
              Turn round
            </button>
          )}
        </Row>
        <div class="members">
          <ConditionOutline
            condition={condition.not}
            path={[...path, 'not']}
            editing={editing}
            label="the condition turned round"
          />
        </div>
      </div>
    );
  }
  if ('condition' in condition) {
    const named = editing.conditions[condition.condition];
    return (
      <div>
        <Row onRemove={onRemove} label={label} disabled={disabled}>
          <select
            aria-label="A condition with a name"
            disabled={disabled}
            value={condition.condition}
            onInput={(event) => put([...path, 'condition'], event.currentTarget.value)}
          >
            {!named && <option value={condition.condition}>{condition.condition}</option>}
            {Object.keys(editing.conditions).map((name) => (
              <option key={name} value={name}>
                {name.replaceAll('-', ' ')}
              </option>
            ))}
          </select>
          <span>holds</span>
        </Row>
        {named && (
          <details class="named">
            <summary>What "{condition.condition.replaceAll('-', ' ')}" means</summary>
            <p>{upperFirst(clauseWords(named, words.value))}.</p>
          </details>
        )}
      </div>
    );
  }
  if ('fact' in condition) return <FactLeafRow {...props} condition={condition} />;
  return (
    <Row onRemove={onRemove} label={label} disabled={disabled}>
      <span>{upperFirst(clauseWords(condition, words.value))}</span>
      <span class="aside">(a local choice; change how it is asked in the text below)</span>
    </Row>
  );
}

function Group({
  condition,
  members,
  path,
  editing,
  label,
  onRemove,
}: Props & { members: readonly Condition[] }) {
  const { disabled, put } = editing;
  const kind = 'all' in condition ? 'all' : 'any';
  const at = (index: number): JSONPath => [...path, kind, index];
  const remove = (index: number) => (members.length === 1 ? onRemove : () => put(at(index), undefined));
  return (
    <fieldset class="group-of">
      <legend class="unseen">{label}</legend>
      <Row onRemove={onRemove} label={label} disabled={disabled}>
        <select
          aria-label="How these conditions are joined"
          disabled={disabled}
          value={kind}
          onInput={(event) => put(path, { [event.currentTarget.value]: members })}
        >
          <option value="all">All of these</option>
          <option value="any">At least one of these</option>
        </select>
      </Row>
      <ul class="members">
        {members.map((member, index) => (
          <li key={index}>
            <ConditionOutline
              condition={member}
              path={at(index)}
              editing={editing}
              label={`condition ${index + 1}`}
              onRemove={remove(index)}
            />
          </li>
        ))}
      </ul>
      {!disabled && (
        <p class="adding">
          <button type="button" onClick={() => put(at(members.length), newLeaf())}>
            Add a condition
          </button>{' '}
          <button
            type="button"
            onClick={() => put(at(members.length), { [kind === 'all' ? 'any' : 'all']: [newLeaf()] })}
          >
            Add a group
          </button>
        </p>
      )}
    </fieldset>
  );
}

/** Facts by group, in dictionary order; what only options have is offered only where options are read. */
function FactPicker({
  value,
  editing,
  onPick,
}: {
  value: string;
  editing: Editing;
  onPick: (id: string) => void;
}) {
  const groups = opened.value?.dictionary.groups ?? [];
  const facts = [...words.value.facts.values()].filter(
    ({ id, type }) => type !== 'list' && (editing.ofOptions || !id.startsWith('option.')),
  );
  const known = facts.some(({ id }) => id === value);
  const titled = (fact: Fact) => (
    <option key={fact.id} value={fact.id}>
      {upperFirst(fact.title)}
    </option>
  );
  const listed = new Set(groups.map(({ id }) => id));
  const others = facts.filter(({ id }) => !listed.has(id.split('.')[0]!));
  return (
    <select
      aria-label="What is read"
      class="fact"
      disabled={editing.disabled}
      value={value}
      onInput={(event) => onPick(event.currentTarget.value)}
    >
      {!known && <option value={value}>{value}</option>}
      {groups.map(({ id: group, title }) => (
        <optgroup key={group} label={title}>
          {facts.filter(({ id }) => id.startsWith(`${group}.`)).map(titled)}
        </optgroup>
      ))}
      {others.length > 0 && <optgroup label="Others">{others.map(titled)}</optgroup>}
    </select>
  );
}

function FactLeafRow({
  condition,
  path,
  editing,
  label,
  onRemove,
}: Props & { condition: Extract<Condition, { fact: string }> }) {
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
    <Row onRemove={onRemove} label={label} disabled={disabled}>
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
    </Row>
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
