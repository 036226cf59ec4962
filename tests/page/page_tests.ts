// Tests that open the page, and where they keep their files.

import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';
import { evenlit, k_page, k_screens, OpenedPage, type ScreenName, theBrowser } from './opened_page';

/** A folder for files of this run of tests. */
export const k_folder = mkdtempSync(join(tmpdir(), 'evenlit-page-'));

/** A file that a command of the native program writes, last of its words. */
export function written(...words: string[]): Buffer {
  const file = join(k_folder, `written ${words.at(-1) ?? ''}`);
  evenlit(...words.slice(0, -1), file);
  return readFileSync(file);
}

after(async () => {
  await (await theBrowser()).close();
  rmSync(k_folder, { recursive: true, force: true });
});

/** A test in a page that is opened anew, on a screen; `file` makes the page where it is not the blank one. */
export function pageTest(
  name: string,
  screen: ScreenName,
  work: (opened: OpenedPage) => Promise<void>,
  file = (): string => k_page,
): void {
  test(`${name} (${screen})`, async () => {
    const opened = await OpenedPage.opened(await theBrowser(), k_screens[screen], file());
    try {
      await work(opened);
      await opened.end();
    } finally {
      await opened.context.close();
    }
  });
}

/** The same on a phone's screen and on a desktop's. */
export function pageTests(name: string, work: (opened: OpenedPage) => Promise<void>): void {
  for (const screen of ['phone', 'desktop'] as const) pageTest(name, screen, work);
}
