import { computed, signal } from '@preact/signals';
import { jobText } from '../job/job_desk';

const last = signal({ sentence: '', of: '' });

const k_shown_ms = 10_000; // long enough to read the longest twice

/** What was just done to the job, in a sentence. */
export function say(sentence: string): void {
  const mine = { sentence, of: jobText.value };
  last.value = mine;
  setTimeout(() => {
    if (last.value === mine) last.value = { ...mine, sentence: '' };
  }, k_shown_ms);
}

/** What was said of the job as it is now; it goes with the next change, by itself, or when the user puts it away. */
export const said = computed(() => (last.value.of === jobText.value ? last.value.sentence : ''));
