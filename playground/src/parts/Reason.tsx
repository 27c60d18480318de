interface Props {
  readonly label: string;
  readonly value: string;
  readonly onReason: (reason: string) => void;
}

/** Every change needs its reason; it may be written last. */
export const Reason = ({ label, value, onReason }: Props) => (
  <label class="field reason">
    <span>
      {label}
      {value.trim() === '' ? ' – to be stated before it is handed on' : ''}
    </span>
    <textarea class="prose" rows={1} value={value} onInput={(event) => onReason(event.currentTarget.value)} />
  </label>
);
