// The earlier states of the job that it can be compared with: what "before" means.

import { computed, signal } from '@preact/signals';
import { earlier, firstText, jobText, markEarlier } from './job_desk';

/** The ways to choose what "before" is; those that were not noted yet are not offered. */
export type Before = 'opened' | 'layout' | 'marked';

export const k_befores = {
  opened: 'As the job was opened',
  layout: 'Before the last layout',
  marked: 'As you noted it',
} as const satisfies Record<Before, string>;

const textOf = (before: Before): string | undefined => (before === 'opened' ? firstText.value : earlier.value[before]);

const chosen = signal<Before>('opened');

export const befores = computed(() => (Object.keys(k_befores) as Before[]).filter((each) => textOf(each) !== undefined));
export const before = computed<Before>(() => (befores.value.includes(chosen.value) ? chosen.value : 'opened'));
export const textBefore = computed(() => textOf(before.value) ?? firstText.value);

export const chooseBefore = (next: Before): void => void (chosen.value = next);

/** Notes the job as it is now for later. */
export function noteBefore(): void {
  markEarlier({ marked: jobText.value });
  chosen.value = 'marked';
}

/** Notes what the job was before a layout took its place. */
export function noteBeforeLayout(text: string): void {
  markEarlier({ layout: text });
}
