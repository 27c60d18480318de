import type { Condition } from '@dwellset/core';
import type { JSONPath } from 'jsonc-parser';

/** What the parts of an outline need to change the rule around them. */
export interface Editing {
  readonly set: string;
  readonly conditions: Readonly<Record<string, Condition>>;
  /** Facts of options may be read here. */
  readonly ofOptions: boolean;
  readonly disabled: boolean;
  put(path: JSONPath, value: unknown): void;
}

export interface OutlineProps {
  readonly condition: Condition;
  readonly path: JSONPath;
  readonly editing: Editing;
  readonly label: string;
  readonly onRemove?: (() => void) | undefined;
}
