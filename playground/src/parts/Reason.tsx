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
      {value.trim() === '' ? ' (still to be stated)' : ''}
    </span>
    <textarea class="prose" rows={1} value={value} onInput={(event) => onReason(event.currentTarget.value)} />
  </label>
);
