import { signal } from '@preact/signals';

/** What the page has just done, in a sentence; shown until the user puts it away. */
export const said = signal('');
