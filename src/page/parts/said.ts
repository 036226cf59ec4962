import { computed, signal } from '@preact/signals';
import { jobText } from '../job/job_desk';

const last = signal({ sentence: '', of: '' });

/** What was just done to the job, in a sentence. */
export function say(sentence: string): void {
  last.value = { sentence, of: jobText.value };
}

/** What was said of the job as it is now; it goes with the next change, or when the user puts it away. */
export const said = computed(() => (last.value.of === jobText.value ? last.value.sentence : ''));
