import type { ComponentChildren } from 'preact';

/** One line of an outline with what takes it out. */
export const ConditionRow = ({
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
