// What the job's text says, key by key: what fields show, as it was written. What it means, only the engine knows.

import { computed } from '@preact/signals';
import { parse } from 'smol-toml';
import { jobText } from './job_desk';

/** Keys and indices from the top of the job's text, as changes take them. */
export type Path = readonly (string | number)[];

const document = computed<unknown>(() => {
  try {
    return parse(jobText.value);
  } catch {
    return {}; // the engine tells what is wrong with it
  }
});

const part = (of: unknown, key: string | number): unknown =>
  typeof of === 'object' && of !== null ? Reflect.get(of, key) : undefined;

/** The value at a path; undefined where nothing is written. */
export const writtenAt = (path: Path): unknown => path.reduce(part, document.value);

/** The same as it stands in a field: a number or a word as text, anything else as nothing. */
export function wordAt(path: Path): string {
  const value = writtenAt(path);
  return typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean' ? String(value) : '';
}

/** Whether a table or list of tables is written there. */
export const isListAt = (path: Path): boolean => Array.isArray(writtenAt(path));

export function keysAt(path: Path): readonly string[] {
  const value = writtenAt(path);
  return typeof value === 'object' && value !== null ? Object.keys(value) : [];
}
