import type { Condition } from '@dwellset/core';
import type { JSONPath } from 'jsonc-parser';
import type { ComponentType } from 'preact';
import { ConditionRow } from './ConditionRow.tsx';
import type { OutlineProps } from './editing.ts';
import { newLeaf } from './newLeaf.ts';

interface Props extends OutlineProps {
  readonly members: readonly Condition[];
  /** Shows each member, which may be a group again. */
  readonly Outline: ComponentType<OutlineProps>;
}

/** Conditions that are joined: all of them, or at least one. */
export function ConditionGroup({ condition, members, path, editing, label, onRemove, Outline }: Props) {
  const { disabled, put } = editing;
  const kind = 'all' in condition ? 'all' : 'any';
  const at = (index: number): JSONPath => [...path, kind, index];
  const remove = (index: number) => (members.length === 1 ? onRemove : () => put(at(index), undefined));
  return (
    <fieldset class="group-of">
      <legend class="unseen">{label}</legend>
      <ConditionRow onRemove={onRemove} label={label} disabled={disabled}>
        <select
          aria-label="How these conditions are joined"
          disabled={disabled}
          value={kind}
          onInput={(event) => put(path, { [event.currentTarget.value]: members })}
        >
          <option value="all">All of these</option>
          <option value="any">At least one of these</option>
        </select>
      </ConditionRow>
      <ul class="members">
        {members.map((member, index) => (
          <li key={index}>
            <Outline
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
