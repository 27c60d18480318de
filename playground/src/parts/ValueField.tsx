import type { CellValue, CodeList, Constant } from '@dwellset/core';
import { unitWords } from '@dwellset/wording';
import { useEffect, useState } from 'preact/hooks';

interface Valued {
  readonly type: 'boolean' | 'number' | 'code' | 'codes' | 'text' | 'date' | 'date-time' | 'list';
  readonly unit?: string | undefined;
  readonly step?: number | undefined;
  readonly range?: readonly [number, number] | undefined;
}

interface Props {
  readonly valued: Valued;
  readonly value: Constant | CellValue | undefined;
  readonly codes?: CodeList | undefined;
  readonly label: string;
  /** A cell may be without an entry. */
  readonly mayBeNone?: boolean;
  readonly disabled?: boolean;
  readonly describedBy?: string;
  readonly onValue: (value: Constant | CellValue) => void;
}

/** A number as it is being typed: what is no number yet is kept in the field and told to nobody. */
function NumberField({ valued, value, label, mayBeNone, disabled, describedBy, onValue }: Props) {
  const [text, setText] = useState(typeof value === 'number' ? String(value) : '');
  useEffect(() => {
    if (typeof value === 'number' && Number(text) !== value) setText(String(value));
    if (value === null) setText('');
  }, [value]);
  const { step, range, unit } = valued;
  return (
    <span class="measured">
      <input
        type="number"
        value={text}
        step={step ?? 'any'}
        {...(range && { min: range[0], max: range[1] })}
        aria-label={label}
        aria-describedby={describedBy}
        disabled={disabled}
        onInput={(event) => {
          const typed = event.currentTarget.value;
          setText(typed);
          if (typed === '' && mayBeNone) onValue(null);
          else if (typed !== '' && Number.isFinite(Number(typed))) onValue(Number(typed));
        }}
      />{' '}
      <span class="unit">{unitWords(unit, Number(text))}</span>
    </span>
  );
}

/** The control that fits a value: its type, unit, step, limits and list of codes. */
export function ValueField(props: Props) {
  const { valued, value, codes = {}, label, disabled, describedBy, onValue } = props;
  const common = { 'aria-label': label, 'aria-describedby': describedBy, disabled };
  switch (valued.type) {
    case 'number':
      return <NumberField {...props} />;
    case 'boolean':
      return (
        <select
          {...common}
          value={String(value)}
          onInput={(event) => onValue(event.currentTarget.value === 'true')}
        >
          <option value="true">yes</option>
          <option value="false">no</option>
        </select>
      );
    case 'code':
      return (
        <select {...common} value={String(value)} onInput={(event) => onValue(event.currentTarget.value)}>
          {typeof value === 'string' && !(value in codes) && <option value={value}>{value}</option>}
          {Object.entries(codes).map(([code, words]) => (
            <option key={code} value={code}>
              {words}
            </option>
          ))}
        </select>
      );
    case 'codes': {
      const chosen = Array.isArray(value) ? (value as readonly string[]) : [];
      const toggle = (code: string, on: boolean) =>
        onValue(Object.keys(codes).filter((one) => (one === code ? on : chosen.includes(one))));
      return (
        <fieldset class="codes" disabled={disabled}>
          <legend class="unseen">{label}</legend>
          {Object.entries(codes).map(([code, words]) => (
            <label key={code}>
              <input
                type="checkbox"
                checked={chosen.includes(code)}
                onInput={(event) => toggle(code, event.currentTarget.checked)}
              />{' '}
              {words}
            </label>
          ))}
        </fieldset>
      );
    }
    case 'date':
      return (
        <input
          {...common}
          type="date"
          value={String(value ?? '')}
          onInput={(event) => onValue(event.currentTarget.value)}
        />
      );
    default:
      return (
        <input
          {...common}
          type="text"
          value={String(value ?? '')}
          onInput={(event) => onValue(event.currentTarget.value)}
        />
      );
  }
}
