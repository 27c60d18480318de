import { clauseWords, upperFirst } from '@dwellset/wording';
import { words } from '../../words.ts';
import { ConditionGroup } from './ConditionGroup.tsx';
import { ConditionRow } from './ConditionRow.tsx';
import type { OutlineProps } from './editing.ts';
import { FactLeafRow } from './FactLeafRow.tsx';
import { membersOf } from './outline.ts';

/** A condition of a rule as an outline in which every part can be changed. */
export function ConditionOutline(props: OutlineProps) {
  const { condition, path, editing, label, onRemove } = props;
  const { disabled, put } = editing;
  const members = membersOf(condition);
  if (members) return <ConditionGroup {...props} members={members} Outline={ConditionOutline} />;
  if ('not' in condition) {
    return (
      <div class="group-of">
        <ConditionRow onRemove={onRemove} label={label} disabled={disabled}>
          <span>The opposite of this</span>
          {!disabled && (
            <button type="button" onClick={() => put(path, condition.not)}>
              Turn round
            </button>
          )}
        </ConditionRow>
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
        <ConditionRow onRemove={onRemove} label={label} disabled={disabled}>
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
        </ConditionRow>
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
    <ConditionRow onRemove={onRemove} label={label} disabled={disabled}>
      <span>{upperFirst(clauseWords(condition, words.value))}</span>
      <span class="aside">(a local choice; change how it is asked in the text below)</span>
    </ConditionRow>
  );
}
