import { INDICATORS, type Indicator, type Release, type Rule } from '@dwellset/core';
import { HEADINGS } from '@dwellset/wording';
import type { JSONPath } from 'jsonc-parser';
import { opened } from '../../bench/client.ts';
import { editRule } from '../../draft/edit.ts';
import { ConditionOutline } from './ConditionOutline.tsx';
import type { Editing } from './editing.ts';
import { newLeaf } from './newLeaf.ts';
import { isCondition } from './outline.ts';
import type { RuleAtHand } from './useRule.ts';

interface Props {
  readonly at: RuleAtHand;
  readonly rule: Rule;
  readonly editing: Editing;
  readonly locked: boolean;
  readonly release: Release;
}

const lines = (detail: unknown): string[] =>
  typeof detail === 'string' ? [detail] : Array.isArray(detail) ? detail.map(String) : [];

/** At most so long once every placeholder is filled in. */
const LONGEST_SUMMARY = 140;

interface Part {
  readonly heading: string;
  readonly path: JSONPath;
  readonly value: unknown;
  readonly ofOptions?: true;
  readonly offer: boolean;
}

function partsOf(rule: Rule, { shape }: Release): Part[] {
  const isChoice = shape === 'choice';
  const isCheck = shape === 'checklist';
  const options = rule.prefers && 'options' in rule.prefers ? rule.prefers.options : undefined;
  const parts: Part[] = [
    { heading: 'Only where', path: ['scope'], value: rule.scope, offer: true },
    { heading: 'When', path: ['when'], value: rule.when, offer: !isCheck },
    { heading: 'Has to hold', path: ['expect'], value: rule.expect, offer: isCheck },
    {
      heading: 'Rules out options that',
      path: ['excludes'],
      value: rule.excludes,
      ofOptions: true,
      offer: isChoice,
    },
    {
      heading: 'Prefers options that',
      path: ['prefers', 'options'],
      value: options,
      ofOptions: true,
      offer: false,
    },
    {
      heading: 'Remarks on options that',
      path: ['remarks'],
      value: rule.remarks,
      ofOptions: true,
      offer: isChoice,
    },
  ];
  return parts.filter(({ value, offer }) => value !== undefined || offer);
}

/** The rule as a form: every condition, every text, each with what the dictionary says about it. */
export function Outline({ at, rule, editing, locked, release }: Props) {
  const { put, disabled } = editing;
  const { key, edit, published } = at;
  return (
    <div class="outline">
      {partsOf(rule, release).map(({ heading, path, value, ofOptions }) => (
        <div class="part" key={heading}>
          <h3>{heading}</h3>
          {value === undefined ? (
            !disabled && (
              <button type="button" onClick={() => put(path, newLeaf())}>
                Add a condition
              </button>
            )
          ) : isCondition(value) ? (
            <ConditionOutline
              condition={value}
              path={path}
              editing={{ ...editing, ofOptions: ofOptions === true }}
              label={heading}
              onRemove={() => put(path, undefined)}
            />
          ) : (
            <p class="aside">This part can be changed in the text below only.</p>
          )}
          {isCondition(value) && !('all' in value) && !disabled && (
            <p class="adding">
              <button type="button" onClick={() => put(path, { all: [value, newLeaf()] })}>
                And another condition
              </button>
            </p>
          )}
        </div>
      ))}
      <Text label="Title" value={rule.title} disabled={disabled} onText={(text) => put(['title'], text)} />
      {rule.advice && <AdviceFields at={at} rule={rule} editing={editing} locked={locked} />}
      <Text
        label="Because"
        value={rule.because}
        disabled={disabled}
        onText={(text) => put(['because'], text)}
      />
      {!locked && published && (
        <p>
          <button
            type="button"
            onClick={() =>
              opened.value &&
              editRule(opened.value, key, `switch off ${rule.title}`, ({ off, ...known }) => {
                if (off) return known.text === undefined ? undefined : known;
                return { ...known, off: true as const };
              })
            }
          >
            {edit?.off ? 'Switch it on again' : 'Switch this rule off here'}
          </button>
        </p>
      )}
    </div>
  );
}

interface TextProps {
  readonly label: string;
  readonly value: unknown;
  readonly disabled: boolean;
  readonly hint?: string;
  readonly onText: (text: string) => void;
}

const Text = ({ label, value, disabled, hint, onText }: TextProps) => (
  <label class="field">
    <span>
      {label}
      {hint !== undefined && ` · ${hint}`}
    </span>
    <textarea
      class="prose"
      rows={1}
      value={String(value ?? '')}
      readOnly={disabled}
      onInput={(event) => onText(event.currentTarget.value)}
    />
  </label>
);

const URGENCY = new Map(HEADINGS);

function AdviceFields({ at, rule, editing, locked }: Omit<Props, 'release'>) {
  const { put, disabled } = editing;
  const advice = rule.advice!;
  const before = at.published?.advice;
  const own = lines(advice.detail).slice(lines(before?.detail).length);
  const raisable = INDICATORS.filter(
    (one) => !locked || INDICATORS.indexOf(one) >= INDICATORS.indexOf(before?.indicator ?? 'info'),
  );
  const spare = LONGEST_SUMMARY - String(advice.summary ?? '').length;
  return (
    <>
      <Text
        label="Says"
        value={advice.summary}
        disabled={disabled}
        hint={spare < 0 ? `${-spare} characters too long` : `${spare} characters left`}
        onText={(text) => put(['advice', 'summary'], text)}
      />
      <Text
        label="Detail, one line a step"
        value={lines(locked ? (before?.detail ?? advice.detail) : advice.detail).join('\n')}
        disabled={disabled}
        onText={(text) => put(['advice', 'detail'], text === '' ? undefined : text.split('\n'))}
      />
      {locked && (
        <Text
          label="Lines that we add"
          value={own.join('\n')}
          disabled={at.broken}
          onText={(text) => {
            const kept = lines(before?.detail);
            const added = text === '' ? [] : text.split('\n');
            put(['advice', 'detail'], added.length === 0 ? before?.detail : [...kept, ...added]);
          }}
        />
      )}
      <label class="field">
        <span>How urgent</span>
        <select
          value={advice.indicator}
          disabled={locked ? at.broken : disabled}
          onInput={(event) => put(['advice', 'indicator'], event.currentTarget.value as Indicator)}
        >
          {raisable.map((one) => (
            <option key={one} value={one}>
              {URGENCY.get(one)}
            </option>
          ))}
        </select>
      </label>
    </>
  );
}
